/* The cells of the table of kits, which read their row again when the list is arranged. The view
 * keeps some two hundred rows, of which a dozen are in sight: those are read at once, once a frame,
 * the rest a few each frame, so that neither a new ranking nor a leap through the list costs more
 * than what is seen of it. */
#ifndef WB_KIT_CELLS_H
#define WB_KIT_CELLS_H

#include "kit_list.h"
#include <gtk/gtk.h>

typedef struct WbKitCells WbKitCells;

/* Shows in the item's child what the item's row holds. */
typedef void (*WbKitCellFill)(GtkListItem *item, int column);

/* Lives as long as the view, which stands in a scrolled window by now. */
WbKitCells *wb_kit_cells_attach(GtkColumnView *view, WbKitCellFill fill);
/* Follows this list. */
void wb_kit_cells_set_list(WbKitCells *self, WbKitList *list);
/* A factory whose children come from `make`. (transfer full) */
GtkListItemFactory *wb_kit_cells_factory(WbKitCells *self, int column,
                                         GtkWidget *(*make)(int column));
/* Everything is to be read again. */
void wb_kit_cells_renew(WbKitCells *self);

#endif
