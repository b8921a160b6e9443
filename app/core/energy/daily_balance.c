#include "daily_balance.h"
#include <math.h>
#include <stdbool.h>

#define LEAST_SUN_H 1.0
#define MOST_SUN_H 7.0

static bool is_amount(double value)
{
    return isfinite(value) && value >= 0;
}

static bool are_amounts(size_t n, const double *value)
{
    for (size_t i = 0; i < n; i++)
        if (!is_amount(value[i]))
            return false;
    return n > 0;
}

WbStatus wb_loss_of_load_daily(size_t n_days, const double *days_kwh_m2, double mean_kwh_m2,
                               double array, double bank, double *loss_of_load)
{
    if (!are_amounts(n_days, days_kwh_m2) || !is_amount(array) ||
        !(is_amount(mean_kwh_m2) && mean_kwh_m2 > 0) || !(is_amount(bank) && bank > 0))
        return WB_BAD_INPUT;
    double charge = 1, lack = 0;
    for (size_t i = 0; i < n_days; i++) {
        charge = fmin(1, charge + (array * days_kwh_m2[i] / mean_kwh_m2 - 1) / bank);
        if (charge < 0) {
            lack -= charge * bank;
            charge = 0;
        }
    }
    *loss_of_load = lack / (double)n_days;
    return WB_OK;
}

WbStatus wb_sequent_peak(size_t n_steps, const double *inflow, double need, int passes,
                         double *capacity)
{
    if (!are_amounts(n_steps, inflow) || !is_amount(need) || passes < 1)
        return WB_BAD_INPUT;
    double drawn = 0, most = 0;
    for (int pass = 0; pass < passes; pass++) {
        for (size_t i = 0; i < n_steps; i++) {
            drawn = fmax(0, drawn + need - inflow[i]);
            most = fmax(most, drawn);
        }
    }
    *capacity = most;
    return WB_OK;
}

/* fmin and fmax would turn NaN into a bound. */
static double kept_within(double peak_sun_h)
{
    if (isnan(peak_sun_h))
        return peak_sun_h;
    return fmin(MOST_SUN_H, fmax(LEAST_SUN_H, peak_sun_h));
}

double wb_autonomy_days_99(double peak_sun_h)
{
    double t = kept_within(peak_sun_h);
    return 24.0 - 4.73 * t + 0.3 * t * t;
}

double wb_autonomy_days_95(double peak_sun_h)
{
    double t = kept_within(peak_sun_h);
    return 9.43 - 1.9 * t + 0.11 * t * t;
}
