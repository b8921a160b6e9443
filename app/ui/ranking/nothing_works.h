/* Shown when no kit works: what rules out most, and what to do. */
#ifndef WB_NOTHING_WORKS_H
#define WB_NOTHING_WORKS_H

#include "page.h"

#define WB_TYPE_NOTHING_WORKS (wb_nothing_works_get_type())
G_DECLARE_FINAL_TYPE(WbNothingWorks, wb_nothing_works, WB, NOTHING_WORKS, GtkBox)

void wb_nothing_works_set_context(WbNothingWorks *self, const WbContext *context);
void wb_nothing_works_show(WbNothingWorks *self, WbResult *result);

#endif
