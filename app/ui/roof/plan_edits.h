/* Carries what a roof plan asks for into the document, and what is chosen between plan and table.
 * Where an edit is refused, plan and table tell why. */
#ifndef WB_PLAN_EDITS_H
#define WB_PLAN_EDITS_H

#include "obstacle_table.h"
#include "roof_plan.h"

/* Plan and table live equally long; the document is kept. */
void wb_plan_edits_connect(WbRoofPlan *plan, WbObstacleTable *table, WbDocument *document);
/* Shows the roof with these panels of one model, pinned ones marked. */
void wb_plan_edits_show(WbRoofPlan *plan, const WbRoof *roof, const char *part_id,
                        const WbRect *layout, int n);

#endif
