/* One panel model in the list of what fits: figures, the answer in words, what would let one more
 * in, and a button to search on where nothing is decided. Signal "change" (): another change of it
 * is looked at. */
#ifndef WB_FIT_ROW_H
#define WB_FIT_ROW_H

#include "roof_study.h"
#include <gtk/gtk.h>

typedef enum {
    WB_FIT_PANEL,
    WB_FIT_SIZE,
    WB_FIT_WATTS,
    WB_FIT_MOST,
    WB_FIT_ALL_WATTS,
    WB_FIT_LOAD,
    WB_FIT_ANSWER,
    WB_FIT_COLUMNS
} WbFitColumn;

#define WB_TYPE_FIT_ROW (wb_fit_row_get_type())
G_DECLARE_FINAL_TYPE(WbFitRow, wb_fit_row, WB, FIT_ROW, GtkListBoxRow)

/* width: the size groups of the columns. */
GtkWidget *wb_fit_row_new(WbRoofStudy *study, const char *part_id,
                          GtkSizeGroup *width[WB_FIT_COLUMNS]);
/* `full`: every change that would let one more in, else the first. */
void wb_fit_row_show(WbFitRow *self, const WbBrief *brief, gboolean full);
const char *wb_fit_row_get_id(WbFitRow *self);
/* Index of the change looked at, -1 none. */
int wb_fit_row_get_change(WbFitRow *self);
void wb_fit_row_let_go(WbFitRow *self);

/* Spaced as the rows are. */
GtkWidget *wb_fit_line_new(void);
gboolean wb_fit_column_is_words(WbFitColumn column);
/* What a column sorts by; -1 while it is not known. */
double wb_fit_row_key(const WbStudyPanel *panel, WbFitColumn column);

#endif
