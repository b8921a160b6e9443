/* A table cell: a right-aligned figure over a hair-thin bar that shows it as a share of its limit.
 */
#ifndef WB_BAR_CELL_H
#define WB_BAR_CELL_H

#include <gtk/gtk.h>

#define WB_TYPE_BAR_CELL (wb_bar_cell_get_type())
G_DECLARE_FINAL_TYPE(WbBarCell, wb_bar_cell, WB, BAR_CELL, GtkWidget)

GtkWidget *wb_bar_cell_new(void);
/* `share` of the width, NaN: no bar; `over`: the figure breaks its limit. */
void wb_bar_cell_set(WbBarCell *self, const char *text, double share, gboolean over);

#endif
