/* What more money, weight or roof would buy: a sentence, a picture, and a table of the same. */
#ifndef WB_MORE_PANE_H
#define WB_MORE_PANE_H

#include "page.h"

#define WB_TYPE_MORE_PANE (wb_more_pane_get_type())
G_DECLARE_FINAL_TYPE(WbMorePane, wb_more_pane, WB, MORE_PANE, GtkBox)

/* A chosen step takes its kit in hand there. */
void wb_more_pane_set_session(WbMorePane *self, WbSession *session);
/* Another result, or another kit in hand. Works only while it is in sight. */
void wb_more_pane_show(WbMorePane *self, WbResult *result);
/* Is something still being worked out? */
gboolean wb_more_pane_get_busy(WbMorePane *self);

#endif
