/* The window's foot: the kit in hand against the brief's limits, and how the ranking goes. */
#ifndef WB_FOOT_H
#define WB_FOOT_H

#include "page.h"

#define WB_TYPE_FOOT (wb_foot_get_type())
G_DECLARE_FINAL_TYPE(WbFoot, wb_foot, WB, FOOT, GtkWidget)

/* Once. */
void wb_foot_set_context(WbFoot *self, const WbContext *context);

#endif
