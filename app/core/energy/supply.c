/* An array through its controllers into the bank. */
#include "energy.h"
#include <math.h>

/* What the array offers the bank in one hour, before the output limit. */
static double offered_wh(const WbPanelDay *day, int month, int hour, int n_series, int n_parallel,
                         const WbController *controller, double bank_nominal_v)
{
    if (controller->technology == WB_CONTROLLER_MPPT)
        return day->max_power_w[month][hour] * n_series * n_parallel * controller->efficiency;
    return day->imp_a[month][hour] * n_parallel * bank_nominal_v;
}

void wb_array_supply(const WbPanelDay *day, const WbPanel *panel, int n_series, int n_parallel,
                     const WbController *controller, int n_controllers, double bank_nominal_v,
                     WbSupply *supply)
{
    double limit_wh = n_controllers * controller->rated_output_a * bank_nominal_v;
    for (int m = 0; m < WB_MONTHS; m++) {
        supply->day_wh[m] = -n_controllers * controller->idle_w * WB_HOURS;
        supply->clipped_wh[m] = 0;
        for (int h = 0; h < WB_HOURS; h++) {
            double wh = offered_wh(day, m, h, n_series, n_parallel, controller, bank_nominal_v);
            double kept_wh = wh < limit_wh ? wh : limit_wh;
            supply->day_wh[m] += kept_wh;
            supply->clipped_wh[m] += wh - kept_wh;
        }
    }
}
