/* A roof from above, to scale, with its dimensions, obstacles with their clearance, the margin and
 * a layout of panels.
 *
 * Once editable, obstacles are chosen by click or by Space and Backspace, dragged (to 10 mm, with
 * Shift to 1 mm) and nudged by the arrow keys (1 mm, Shift 10 mm, Ctrl 100 mm). The plan edits
 * nothing itself. Signals: "chosen" (int index, -1 none); "moved" (int index, int64 x, int64 y, in
 * mm) at the end of a drag; "nudged" (int index, int64 dx, int64 dy); "removed" (int index) on
 * Delete. */
#ifndef WB_ROOF_PLAN_H
#define WB_ROOF_PLAN_H

#include "roof.h"
#include <gtk/gtk.h>

#define WB_TYPE_ROOF_PLAN (wb_roof_plan_get_type())
G_DECLARE_FINAL_TYPE(WbRoofPlan, wb_roof_plan, WB, ROOF_PLAN, GtkWidget)

GtkWidget *wb_roof_plan_new(void);
/* Copies roof and layout; roof NULL: none given. */
void wb_roof_plan_set(WbRoofPlan *self, const WbRoof *roof, const WbRect *layout, guint n);
void wb_roof_plan_make_editable(WbRoofPlan *self);
/* -1: none. Emits nothing. */
void wb_roof_plan_choose(WbRoofPlan *self, int index);
int wb_roof_plan_get_chosen(WbRoofPlan *self);

#endif
