/* What puts one kit before another: score, goals or order of importance. Fills a box of its own. */
#ifndef WB_WAY_PANE_H
#define WB_WAY_PANE_H

#include "page.h"

#define WB_TYPE_WAY_PANE (wb_way_pane_get_type())
G_DECLARE_FINAL_TYPE(WbWayPane, wb_way_pane, WB, WAY_PANE, GtkBox)

GtkWidget *wb_way_pane_new(WbDocument *document);
/* Goals and steps in force; NULL before the first result. */
void wb_way_pane_show(WbWayPane *self, WbResult *result);

#endif
