/* When a load runs within the day. */
#ifndef WB_LOAD_WINDOW_H
#define WB_LOAD_WINDOW_H

#include "brief.h"
#include "sky.h"

/* Does the load draw anything in this month? It must be set for the month and have watts, a count,
 * hours, a duty and days a week above 0. */
bool wb_load_runs(const WbLoad *load, int month);
/* In any of these months, bit m? */
bool wb_load_runs_in(const WbLoad *load, uint32_t months);

/* Share of the load's part of the day that lies in each solar hour h..h+1; the shares sum to 1. */
void wb_load_window(const WbLoad *load, const WbSky *sky, int month, double share[WB_HOURS]);

/* Watts of all of them together. */
double wb_load_watts(const WbLoad *load);

/* Energy on the mean day, Wh: W x count x hours x duty x days a week / 7; 0 when it does not run.
 */
double wb_load_day_wh(const WbLoad *load, int month);

#endif
