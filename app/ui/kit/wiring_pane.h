/* How the kit in hand is wired: what was asked of the wiring, the diagram, the reckoning of the
 * chosen circuit, all circuits as a table; printed and saved from here. */
#ifndef WB_WIRING_PANE_H
#define WB_WIRING_PANE_H

#include "page.h"

#define WB_TYPE_WIRING_PANE (wb_wiring_pane_get_type())
G_DECLARE_FINAL_TYPE(WbWiringPane, wb_wiring_pane, WB, WIRING_PANE, GtkBox)

GtkWidget *wb_wiring_pane_new(const WbContext *context);
/* Shows the circuits of a kit, sized on another thread; an earlier question is given up. */
void wb_wiring_pane_show(WbWiringPane *self, WbResult *result, const char *kit_id);
/* There is no kit: one sentence that says why. What is asked of the wiring stays. */
void wb_wiring_pane_show_none(WbWiringPane *self, const char *sentence);
/* An answer is being worked out. */
gboolean wb_wiring_pane_get_busy(WbWiringPane *self);

#endif
