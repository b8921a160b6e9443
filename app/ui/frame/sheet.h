/* A page to read: title, rows and tables, and among them an optional picture, filled anew from the
 * document and the last result whenever it is on screen and something changed. */
#ifndef WB_SHEET_H
#define WB_SHEET_H

#include "kit.h"
#include "page.h"

#define WB_TYPE_SHEET (wb_sheet_get_type())
G_DECLARE_FINAL_TYPE(WbSheet, wb_sheet, WB, SHEET, GtkWidget)

/* result and verdict (of the kit in hand) are NULL while there is none. */
typedef void (*WbSheetFill)(WbSheet *sheet, const WbContext *context, const WbResult *result,
                            const WbVerdict *verdict, GtkWidget *picture);

/* title "": the page has one of its own. `picture` may be NULL; it is kept over all refills. */
GtkWidget *wb_sheet_new(const WbContext *context, const char *title, WbSheetFill fill,
                        GtkWidget *picture);

/* To be called by `fill` alone. Texts are copied. */
/* On a page with a picture all stands over it until this is called, then below it. */
void wb_sheet_below_picture(WbSheet *self);
void wb_sheet_section(WbSheet *self, const char *title);
void wb_sheet_text(WbSheet *self, const char *text, const char *css_class);
/* Label left, value right of it; `note` may be NULL. */
void wb_sheet_row(WbSheet *self, const char *label, const char *value, const char *note);
/* Any other widget, made for this filling. (transfer floating) */
void wb_sheet_widget(WbSheet *self, GtkWidget *widget);
/* A table of texts: heads[n_columns], then rows of cells. Column 0 stands left, others right. */
typedef struct {
    GtkWidget *grid;
    int n_columns, n_rows;
} WbSheetTable;
WbSheetTable wb_sheet_table(WbSheet *self, const char *const *heads, int n_columns);
void wb_sheet_table_row(WbSheetTable *table, const char *const *cells, const char *css_class);

#endif
