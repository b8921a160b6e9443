/* Chooses a built-in place by a part of its name: a search entry over a list that shows how good
 * the figures of each place are. Signal "chosen" (text): the place's id. */
#ifndef WB_PLACE_FINDER_H
#define WB_PLACE_FINDER_H

#include <gtk/gtk.h>

#define WB_TYPE_PLACE_FINDER (wb_place_finder_get_type())
G_DECLARE_FINAL_TYPE(WbPlaceFinder, wb_place_finder, WB, PLACE_FINDER, GtkBox)

GtkWidget *wb_place_finder_new(void);

#endif
