/* The load budget: energy by month and hour of the design day, and the peaks. Energy of a load:
 * W x count x hours x duty x days/7, spread evenly over its part of the day (in solar time). */
#ifndef WB_LOAD_H
#define WB_LOAD_H

#include "brief.h"
#include "part.h"
#include "sky.h"

typedef struct {
    double dc_wh[WB_MONTHS][WB_HOURS]; /* at the loads */
    double ac_wh[WB_MONTHS][WB_HOURS]; /* at the inverter's output */
    double dc_day_wh[WB_MONTHS], ac_day_wh[WB_MONTHS];
    double peak_dc_w, peak_ac_w; /* all that may run together, largest month in use; a load that may
                                    not run together counts only if it alone is larger */
    double surge_ac_w;           /* peak_ac_w with the one load whose start adds most starting */
    double surge_dc_w;
    bool any_ac, needs_pure_sine; /* in a month in use */
} WbLoadBudget;

void wb_load_budget(const WbBrief *brief, const WbSky *sky, WbLoadBudget *budget);

/* What the loads draw from the bank's terminals, one inverter given (NULL: AC loads go unserved and
 * are left out). AC energy / efficiency at the load's own watts (share = W x count / continuous_w)
 * + the inverter's idle_w for the hours it is on: brief->inverter_hours_day, else per hour
 * min(1, sum over AC loads of the share of that hour in which they run). */
typedef struct {
    double wh[WB_MONTHS][WB_HOURS];
    double day_wh[WB_MONTHS];
    double dark_wh[WB_MONTHS]; /* part of day_wh that falls in hours without sun */
    double dark_h[WB_MONTHS];  /* hours without sun */
    double inverter_on_h[WB_MONTHS];
    double idle_wh[WB_MONTHS];            /* part of day_wh */
    double conversion_loss_wh[WB_MONTHS]; /* part of day_wh: AC loads / efficiency - AC loads */
} WbNeed;

void wb_need(const WbBrief *brief, const WbSky *sky, const WbInverter *inverter, WbNeed *need);

/* The need no kit changes, for anchors and the summary: DC + AC / 0.90 (our assumption, shown), Wh
 * a day, the largest month in use. */
double wb_reference_need_wh(const WbBrief *brief, const WbSky *sky);

#endif
