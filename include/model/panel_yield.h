/* What a place gives a kit's panels, whatever their number. */
#ifndef WB_PANEL_YIELD_H
#define WB_PANEL_YIELD_H

#include "kit.h"

/* Wh a day into the bank of 100 W of the kit's panel through its kind of controller, by month, mean
 * over all years of the weather, on the site's tilt and mounting. The controller's limits and own
 * draw are left out: they go by the kit, not by the watt. */
void wb_panel_yield(const WbProblem *problem, const WbVerdict *verdict, double wh[WB_MONTHS]);

#endif
