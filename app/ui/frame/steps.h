/* The window's side: the steps of the job in order, each with its live result and a mark. */
#ifndef WB_STEPS_H
#define WB_STEPS_H

#include "page.h"

#define WB_TYPE_STEPS (wb_steps_get_type())
G_DECLARE_FINAL_TYPE(WbSteps, wb_steps, WB, STEPS, GtkWidget)

/* Once. Choosing a row sets the session's page, and the other way round. */
void wb_steps_set_context(WbSteps *self, const WbContext *context);

#endif
