/* What an obstacle is, chosen in place: stands, walkway or shaded area, square or round. Signals:
 * "message" (text): why it was refused, NULL once all is well; "entered": the keyboard came here.
 */
#ifndef WB_KIND_CELL_H
#define WB_KIND_CELL_H

#include "document.h"
#include <gtk/gtk.h>

#define WB_TYPE_KIND_CELL (wb_kind_cell_get_type())
G_DECLARE_FINAL_TYPE(WbKindCell, wb_kind_cell, WB, KIND_CELL, GtkWidget)

GtkWidget *wb_kind_cell_new(WbDocument *document, int index);
int wb_kind_cell_get_index(WbKindCell *self);
/* The accessible name. */
void wb_kind_cell_set_name(WbKindCell *self, const char *name);
/* Shows what the brief holds. */
void wb_kind_cell_refresh(WbKindCell *self);

#endif
