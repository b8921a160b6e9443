/* Why one kit stands where it stands: shares of its score, findings, months. */
#ifndef WB_WHY_PANE_H
#define WB_WHY_PANE_H

#include "page.h"

#define WB_TYPE_WHY_PANE (wb_why_pane_get_type())
G_DECLARE_FINAL_TYPE(WbWhyPane, wb_why_pane, WB, WHY_PANE, GtkBox)

void wb_why_pane_show(WbWhyPane *self, WbResult *result, const char *kit_id);

#endif
