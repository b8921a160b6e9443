/* The load budget: energy by month and hour of the mean day, and the peaks.
 *
 * Energy of a load, Wh a day: W x count x hours x duty x days a week / 7, spread evenly over its
 * part of the day, in solar time: all day 0..24; daylight from sunrise to sunset of the month's
 * mean day, widened to 10..14 h where it is shorter (polar night too); evening 17..23; night 23..7;
 * from-to past midnight where to < from, all day where they are equal. More hours than the part of
 * the day holds do not change the energy. A load counts in a month it is set for if its watts,
 * count, hours, duty and days a week are all above 0. */
#ifndef WB_LOAD_H
#define WB_LOAD_H

#include "brief.h"
#include "part.h"
#include "sky.h"

/* Peaks and flags look at the site's months in use, energies at all twelve. For each supply, in the
 * largest such month (a load is one entry with its whole count):
 *   peak  = max(sum of W of those that run together, largest W of those that do not)
 *   surge = max(that sum + the largest W x (surge_factor - 1) among them,
 *               largest W x surge_factor of those that do not). */
typedef struct {
    double dc_wh[WB_MONTHS][WB_HOURS]; /* at the loads */
    double ac_wh[WB_MONTHS][WB_HOURS]; /* at the inverter's output */
    double dc_day_wh[WB_MONTHS], ac_day_wh[WB_MONTHS];
    double peak_dc_w, peak_ac_w;
    double surge_ac_w, surge_dc_w;
    bool any_ac, needs_pure_sine; /* among the AC loads of a month in use */
} WbLoadBudget;

void wb_load_budget(const WbBrief *brief, const WbSky *sky, WbLoadBudget *budget);

/* What the loads draw from the bank's terminals, one inverter given (NULL: AC loads go unserved and
 * are left out). AC energy / efficiency at the load's own watts (share = W x count / continuous_w)
 * + the inverter's idle_w for the hours it is on: brief->inverter_hours_day spread over the day,
 * else per hour min(1, sum over AC loads of the share of that hour in which they are switched on:
 * hours a day x days a week / 7 x the part of the day's share in that hour; duty does not switch
 * the inverter off). */
typedef struct {
    double wh[WB_MONTHS][WB_HOURS];
    double day_wh[WB_MONTHS];
    double dark_wh[WB_MONTHS]; /* sum of wh x dark_share; a day without darkness: all of day_wh */
    double dark_h[WB_MONTHS];  /* sum of dark_share; a day without darkness: 24 */
    double inverter_on_h[WB_MONTHS];
    double idle_wh[WB_MONTHS];            /* part of day_wh */
    double conversion_loss_wh[WB_MONTHS]; /* part of day_wh: AC loads / efficiency - AC loads */
} WbNeed;

void wb_need(const WbBrief *brief, const WbSky *sky, const WbInverter *inverter, WbNeed *need);

/* The need no kit changes, for anchors and the summary: DC + AC / 0.90 (our assumption, shown), Wh
 * a day, the largest month in use. */
double wb_reference_need_wh(const WbBrief *brief, const WbSky *sky);

#endif
