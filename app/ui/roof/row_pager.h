/* Turns the pages of a long table, so that a thousand rows of fields are never built at once.
 * Hidden while one page holds all. Signal "turned": another first row is wanted. */
#ifndef WB_ROW_PAGER_H
#define WB_ROW_PAGER_H

#include <gtk/gtk.h>

#define WB_ROWS_A_PAGE 40

#define WB_TYPE_ROW_PAGER (wb_row_pager_get_type())
G_DECLARE_FINAL_TYPE(WbRowPager, wb_row_pager, WB, ROW_PAGER, GtkBox)

GtkWidget *wb_row_pager_new(void);
/* Of n rows in all, in a grid whose row 0 is the head and which has `built` rows: those that are no
 * longer in sight are removed from it, all of another page, else those past the end. Returns how
 * many are left; the rest up to wb_row_pager_get_count is to be built. The page in sight stays
 * where it can. */
int wb_row_pager_trim(WbRowPager *self, int n, GtkGrid *grid, int built);
/* First row in sight, and how many from there. */
int wb_row_pager_get_first(WbRowPager *self);
int wb_row_pager_get_count(WbRowPager *self);
/* Turns to the page of a row; TRUE: it was another one. Emits nothing. */
gboolean wb_row_pager_turn_to(WbRowPager *self, int row);

#endif
