/* A cell of the table of loads: a text, a choice or a tick that is read from a row and edits the
 * brief. Signal "message" (text): why what was typed is not taken; NULL once all is well. Signal
 * "entered": the keyboard came here. */
#ifndef WB_LOAD_CELL_H
#define WB_LOAD_CELL_H

#include "load_list.h"
#include <gtk/gtk.h>

#define WB_TYPE_LOAD_CELL (wb_load_cell_get_type())
G_DECLARE_FINAL_TYPE(WbLoadCell, wb_load_cell, WB, LOAD_CELL, GtkWidget)

GtkWidget *wb_load_cell_new(WbDocument *document, WbLoadField field);
/* NULL: shows nothing. */
void wb_load_cell_set_row(WbLoadCell *self, WbLoadRow *row);
WbLoadRow *wb_load_cell_get_row(WbLoadCell *self);

#endif
