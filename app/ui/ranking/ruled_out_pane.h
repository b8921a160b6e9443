/* What was ruled out, by rule. */
#ifndef WB_RULED_OUT_PANE_H
#define WB_RULED_OUT_PANE_H

#include "page.h"

#define WB_TYPE_RULED_OUT_PANE (wb_ruled_out_pane_get_type())
G_DECLARE_FINAL_TYPE(WbRuledOutPane, wb_ruled_out_pane, WB, RULED_OUT_PANE, GtkBox)

void wb_ruled_out_pane_show(WbRuledOutPane *self, WbResult *result);
/* A chosen row takes its kit in hand there. */
void wb_ruled_out_pane_set_session(WbRuledOutPane *self, WbSession *session);

#endif
