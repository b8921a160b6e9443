/* The brief's loads as a GListModel of WbLoadRow, and the columns by which they are read and edited
 * as text. A row object stays at its place while the number of loads stays the same and emits
 * "changed" when its load changes, so that a cell being edited keeps its focus. */
#ifndef WB_LOAD_LIST_H
#define WB_LOAD_LIST_H

#include "document.h"
#include <gio/gio.h>

#define WB_TYPE_LOAD_ROW (wb_load_row_get_type())
G_DECLARE_FINAL_TYPE(WbLoadRow, wb_load_row, WB, LOAD_ROW, GObject)

guint wb_load_row_get_index(WbLoadRow *self);
/* Borrowed, valid until the row's next "changed". */
const WbLoad *wb_load_row_get_load(WbLoadRow *self);
/* Wh on a day of use: W x count x hours x duty. */
double wb_load_row_get_day_wh(WbLoadRow *self);

#define WB_TYPE_LOAD_LIST (wb_load_list_get_type())
G_DECLARE_FINAL_TYPE(WbLoadList, wb_load_list, WB, LOAD_LIST, GObject)

WbLoadList *wb_load_list_new(WbDocument *document);

typedef enum {
    WB_LOAD_NAME,
    WB_LOAD_WATTS,
    WB_LOAD_COUNT,
    WB_LOAD_SUPPLY,
    WB_LOAD_HOURS,
    WB_LOAD_DUTY,
    WB_LOAD_WHEN,
    WB_LOAD_MONTHS,
    WB_LOAD_DAYS,
    WB_LOAD_SURGE,
    WB_LOAD_TOGETHER,
    WB_LOAD_SINE,
    WB_LOAD_DROP,
    WB_LOAD_LENGTH,
    WB_N_LOAD_COLUMNS,
} WbLoadField;

typedef enum { WB_CELL_TEXT, WB_CELL_NUMBER, WB_CELL_CHOICE, WB_CELL_FLAG } WbCellKind;

typedef struct {
    const char *key;   /* JSON member */
    const char *title; /* column head */
    const char *unit;
    const char *hint; /* what is accepted, one sentence */
    WbCellKind kind;
    const char *const *choices; /* NULL-terminated, for WB_CELL_CHOICE */
} WbLoadColumn;

const WbLoadColumn *wb_load_column(WbLoadField field);
/* The value as a person would type it. (transfer full) */
char *wb_load_text(const WbLoad *load, WbLoadField field);
/* JSON text of what a person typed in a column, NULL and a sentence when it is not that.
 * (transfer full) */
char *wb_load_json(WbLoadField field, const char *text, GError **error);
/* Reads what a person typed ("6-9, 12" for months, "17:00-23:00" for when, "yes"/"no", "12,5" as
 * 12.5) and edits the brief. FALSE and a sentence that says what is accepted. */
gboolean wb_load_set_text(WbDocument *document, guint index, WbLoadField field, const char *text,
                          GError **error);
gboolean wb_load_add(WbDocument *document, guint at, GError **error); /* a first plain load */
gboolean wb_load_duplicate(WbDocument *document, guint index, GError **error);
gboolean wb_load_remove(WbDocument *document, guint index, GError **error);
gboolean wb_load_move(WbDocument *document, guint from, guint to, GError **error);
/* Rows of a spreadsheet: lines, cells split by tabs (or semicolons), in the order of the columns,
 * name and watts at least. All or nothing, one undo step. Added after the last load. */
gboolean wb_load_paste(WbDocument *document, const char *text, guint *n_rows, GError **error);

/* Common appliances with typical values (common practice; to be checked on the type plate). */
typedef struct {
    const char *name;
    double watts, hours_day, duty, surge_factor;
    gboolean ac, pure_sine;
    const char *when; /* as in JSON */
} WbAppliance;
const WbAppliance *wb_appliances(gsize *n);
gboolean wb_load_add_appliance(WbDocument *document, const WbAppliance *appliance, GError **error);

#endif
