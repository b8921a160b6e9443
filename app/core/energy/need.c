/* What the loads draw from the bank's terminals through one inverter. */
#include "energy.h"
#include "load.h"
#include "load_window.h"
#include <math.h>
#include <string.h>

/* Adds one load to the month; `running` gathers the share of each hour in which AC loads are on. */
static void add_load(const WbLoad *load, const WbSky *sky, const WbInverter *inverter, int month,
                     WbNeed *need, double running[WB_HOURS])
{
    if (!wb_load_runs(load, month) || (load->ac && inverter == NULL))
        return;
    double share[WB_HOURS], day_wh = wb_load_day_wh(load, month);
    double terminals_wh = day_wh;
    wb_load_window(load, sky, month, share);
    if (load->ac) {
        terminals_wh = day_wh / wb_inverter_efficiency(inverter, wb_load_watts(load));
        need->conversion_loss_wh[month] += terminals_wh - day_wh;
    }
    for (int h = 0; h < WB_HOURS; h++) {
        need->wh[month][h] += terminals_wh * share[h];
        if (load->ac)
            running[h] += load->hours_day * load->days_week / 7 * share[h];
    }
}

static void add_idle(const WbBrief *brief, const WbInverter *inverter, int month,
                     const double running[WB_HOURS], WbNeed *need)
{
    for (int h = 0; h < WB_HOURS; h++) {
        double on_h = isnan(brief->inverter_hours_day) ? fmin(1, running[h])
                                                       : brief->inverter_hours_day / WB_HOURS;
        need->inverter_on_h[month] += on_h;
        need->idle_wh[month] += on_h * inverter->idle_w;
        need->wh[month][h] += on_h * inverter->idle_w;
    }
}

static void add_up(const WbSky *sky, int month, WbNeed *need)
{
    for (int h = 0; h < WB_HOURS; h++) {
        need->day_wh[month] += need->wh[month][h];
        need->dark_wh[month] += need->wh[month][h] * sky->dark_share[month][h];
        need->dark_h[month] += sky->dark_share[month][h];
    }
    if (need->dark_h[month] <= 0) {
        need->dark_h[month] = WB_HOURS;
        need->dark_wh[month] = need->day_wh[month];
    }
}

void wb_need(const WbBrief *brief, const WbSky *sky, const WbInverter *inverter, WbNeed *need)
{
    memset(need, 0, sizeof *need);
    for (int m = 0; m < WB_MONTHS; m++) {
        double running[WB_HOURS] = {0};
        for (size_t i = 0; i < brief->n_loads; i++)
            add_load(&brief->loads[i], sky, inverter, m, need, running);
        if (inverter != NULL)
            add_idle(brief, inverter, m, running, need);
        add_up(sky, m, need);
    }
}
