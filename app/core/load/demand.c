#include "demand.h"
#include "energy.h"
#include "load_window.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Share of its day that a load of so many days a week runs on this weekday, 0..1. */
static double day_share(double days_week, int weekday)
{
    return fmax(0, fmin(1, days_week - (WB_WEEK - 1 - weekday)));
}

/* Do all loads of the month run alike on both weekdays? */
static bool same_day(const WbBrief *brief, int month, int a, int b)
{
    for (size_t i = 0; i < brief->n_loads; i++)
        if (wb_load_runs(&brief->loads[i], month) &&
            day_share(brief->loads[i].days_week, a) != day_share(brief->loads[i].days_week, b))
            return false;
    return true;
}

static void add_load(const WbLoad *load, const WbSky *sky, const WbInverter *inverter, int month,
                     int weekday, double wh[WB_HOURS], double running[WB_HOURS])
{
    if (!wb_load_runs(load, month) || (load->ac && !inverter))
        return;
    double share[WB_HOURS], on_h = load->hours_day * day_share(load->days_week, weekday);
    double watts = wb_load_watts(load);
    double drawn_wh = watts * on_h * load->duty;
    if (load->ac)
        drawn_wh /= wb_inverter_efficiency(inverter, watts);
    wb_load_window(load, sky, month, share);
    for (int h = 0; h < WB_HOURS; h++) {
        wh[h] += drawn_wh * share[h];
        if (load->ac)
            running[h] += on_h * share[h];
    }
}

static void fill_day(const WbBrief *brief, const WbSky *sky, const WbInverter *inverter, int month,
                     int weekday, double wh[WB_HOURS])
{
    double running[WB_HOURS] = {0};
    memset(wh, 0, WB_HOURS * sizeof *wh);
    for (size_t i = 0; i < brief->n_loads; i++)
        add_load(&brief->loads[i], sky, inverter, month, weekday, wh, running);
    if (!inverter)
        return;
    for (int h = 0; h < WB_HOURS; h++) {
        double on_h = isnan(brief->inverter_hours_day) ? fmin(1, running[h])
                                                       : brief->inverter_hours_day / WB_HOURS;
        wh[h] += on_h * inverter->idle_w;
    }
}

static int kind_of(const WbBrief *brief, const WbDemand *demand, int month, int weekday)
{
    for (int earlier = 0; earlier < weekday; earlier++)
        if (same_day(brief, month, earlier, weekday))
            return demand->kind[month][earlier];
    return demand->n_kinds;
}

WbStatus wb_demand(const WbBrief *brief, const WbSky *sky, const WbInverter *inverter,
                   WbDemand *demand)
{
    WbDemand made = {.n_kinds = 1, .months = brief->site.months};
    made.wh = calloc(1 + WB_MONTHS * WB_WEEK, sizeof *made.wh);
    if (!made.wh)
        return WB_NO_MEMORY;
    for (int m = 0; m < WB_MONTHS; m++)
        for (int w = 0; w < WB_WEEK; w++) {
            if (!(made.months >> m & 1))
                continue;
            int kind = kind_of(brief, &made, m, w);
            made.kind[m][w] = (uint8_t)kind;
            if (kind == made.n_kinds)
                fill_day(brief, sky, inverter, m, w, made.wh[made.n_kinds++]);
        }
    *demand = made;
    return WB_OK;
}

void wb_demand_free(WbDemand *demand)
{
    free(demand->wh);
    *demand = (WbDemand){0};
}

bool wb_demand_is_never_more(const WbDemand *a, const WbDemand *b)
{
    for (int m = 0; m < WB_MONTHS; m++)
        for (int w = 0; w < WB_WEEK; w++)
            for (int h = 0; h < WB_HOURS; h++)
                if (a->wh[a->kind[m][w]][h] > b->wh[b->kind[m][w]][h])
                    return false;
    return true;
}
