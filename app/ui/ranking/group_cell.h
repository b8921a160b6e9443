/* The place of a kit in the list: its rank; under it, where similar kits stand with it, a button
 * that opens and closes them; under one of these in what it differs from the first. */
#ifndef WB_GROUP_CELL_H
#define WB_GROUP_CELL_H

#include "kit_list.h"
#include <gtk/gtk.h>

#define WB_TYPE_GROUP_CELL (wb_group_cell_get_type())
G_DECLARE_FINAL_TYPE(WbGroupCell, wb_group_cell, WB, GROUP_CELL, GtkBox)

GtkWidget *wb_group_cell_new(void);
/* Shows the place of this item of a column view, whose model is a selection of a WbKitList. */
void wb_group_cell_fill(WbGroupCell *self, GtkListItem *item, const char *rank);

/* Right and left open and close the row that has the focus, as in trees; left on one of the similar
 * kits goes to the first of them. */
void wb_group_cell_add_keys(GtkColumnView *view);

#endif
