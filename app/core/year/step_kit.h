/* A kit made ready for the step. Private to core/year. */
#ifndef WB_STEP_KIT_H
#define WB_STEP_KIT_H

#include "step.h"

/* Can the balance be worked out? Every figure finite where it must be, shares within 0..1,
 * efficiencies above 0, as many years of cold days as of weather. */
bool wb_step_accepts(const WbYearKit *kit, const WbPlaneHours *plane);
WbStepKit wb_step_kit(const WbYearKit *kit);

/* Charge for each Wh given in an hour of so much need. */
double wb_step_cost(const WbYearKit *kit, double need_wh);
/* What must be free before a too cold day's charging begins. */
double wb_step_before_charging_w(const WbYearKit *kit, bool too_cold);
/* Missing Wh above which an hour is dark; own draw goes without first. */
double wb_step_dark_above_wh(const WbYearKit *kit, int month);
bool wb_step_in_use(const WbYearKit *kit, int month);
/* By month and weekday: alternator and shore, 0 out of the months in use. */
double wb_step_alternator_wh(const WbYearKit *kit, int month, int hour);
double wb_step_shore_wh(const WbYearKit *kit, int month, int weekday, int hour);

#endif
