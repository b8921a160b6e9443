/* What the person wants: a slider per criterion, and the limits. */
#ifndef WB_WEIGHTS_PANE_H
#define WB_WEIGHTS_PANE_H

#include "page.h"

#define WB_TYPE_WEIGHTS_PANE (wb_weights_pane_get_type())
G_DECLARE_FINAL_TYPE(WbWeightsPane, wb_weights_pane, WB, WEIGHTS_PANE, GtkBox)

void wb_weights_pane_set_context(WbWeightsPane *self, const WbContext *context);
/* The anchors in force; NULL before the first result. */
void wb_weights_pane_show(WbWeightsPane *self, WbResult *result);

#endif
