/* What the loads take, before any inverter. */
#include "load.h"
#include "load_window.h"
#include <math.h>
#include <string.h>

/* Our assumption for the need no kit changes. */
#define REFERENCE_INVERTER_EFFICIENCY 0.90

/* Of one supply (DC or AC) in one month. */
typedef struct {
    double together_w;  /* all that may run together */
    double start_add_w; /* most that one start among them adds */
    double alone_w, alone_start_w;
} Peak;

static void add_energy(const WbLoad *load, const WbSky *sky, int month, WbLoadBudget *budget)
{
    double share[WB_HOURS], day_wh = wb_load_day_wh(load, month);
    wb_load_window(load, sky, month, share);
    double *hour_wh = load->ac ? budget->ac_wh[month] : budget->dc_wh[month];
    for (int h = 0; h < WB_HOURS; h++)
        hour_wh[h] += day_wh * share[h];
    double *month_wh = load->ac ? budget->ac_day_wh : budget->dc_day_wh;
    month_wh[month] += day_wh;
}

static void add_to_peak(const WbLoad *load, Peak *peak)
{
    double watts = wb_load_watts(load);
    if (load->together) {
        peak->together_w += watts;
        peak->start_add_w = fmax(peak->start_add_w, watts * (load->surge_factor - 1));
    } else {
        peak->alone_w = fmax(peak->alone_w, watts);
        peak->alone_start_w = fmax(peak->alone_start_w, watts * load->surge_factor);
    }
}

static void raise(const Peak *peak, double *peak_w, double *surge_w)
{
    *peak_w = fmax(*peak_w, fmax(peak->together_w, peak->alone_w));
    *surge_w = fmax(*surge_w, fmax(peak->together_w + peak->start_add_w, peak->alone_start_w));
}

static void find_peaks(const WbBrief *brief, int month, WbLoadBudget *budget)
{
    Peak dc = {0}, ac = {0};
    for (size_t i = 0; i < brief->n_loads; i++) {
        const WbLoad *load = &brief->loads[i];
        if (!wb_load_runs(load, month))
            continue;
        add_to_peak(load, load->ac ? &ac : &dc);
        budget->any_ac |= load->ac;
        budget->needs_pure_sine |= load->ac && load->needs_pure_sine;
    }
    raise(&dc, &budget->peak_dc_w, &budget->surge_dc_w);
    raise(&ac, &budget->peak_ac_w, &budget->surge_ac_w);
}

void wb_load_budget(const WbBrief *brief, const WbSky *sky, WbLoadBudget *budget)
{
    memset(budget, 0, sizeof *budget);
    for (int m = 0; m < WB_MONTHS; m++) {
        for (size_t i = 0; i < brief->n_loads; i++)
            add_energy(&brief->loads[i], sky, m, budget);
        if (brief->site.months >> m & 1)
            find_peaks(brief, m, budget);
    }
}

double wb_reference_need_wh(const WbBrief *brief, const WbSky *sky)
{
    WbLoadBudget budget;
    double most_wh = 0;
    wb_load_budget(brief, sky, &budget);
    for (int m = 0; m < WB_MONTHS; m++)
        if (brief->site.months >> m & 1)
            most_wh = fmax(most_wh, budget.dc_day_wh[m] +
                                        budget.ac_day_wh[m] / REFERENCE_INVERTER_EFFICIENCY);
    return most_wh;
}
