/* A roof from above, to scale, with its dimensions, obstacles with their clearance, the margin and
 * a layout of panels. */
#ifndef WB_ROOF_PLAN_H
#define WB_ROOF_PLAN_H

#include "roof.h"
#include <gtk/gtk.h>

#define WB_TYPE_ROOF_PLAN (wb_roof_plan_get_type())
G_DECLARE_FINAL_TYPE(WbRoofPlan, wb_roof_plan, WB, ROOF_PLAN, GtkWidget)

GtkWidget *wb_roof_plan_new(void);
/* Copies roof and layout; roof NULL: none given. */
void wb_roof_plan_set(WbRoofPlan *self, const WbRoof *roof, const WbRect *layout, guint n);

#endif
