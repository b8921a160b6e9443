/* What a bank is to a charger and what it can give. */
#include "energy.h"
#include <math.h>

/* A bank belongs to a system voltage if it is not more than this above it: 12.8 V of lithium iron
 * phosphate counts as 12 V. */
#define NOMINAL_SPREAD 1.07

double wb_depth_limit(const WbStorage *storage, const WbChemistry *chemistry)
{
    return isnan(storage->depth_limit) ? chemistry->depth_limit : storage->depth_limit;
}

double wb_peukert_exponent(const WbStorage *storage, const WbChemistry *chemistry)
{
    return isnan(storage->peukert) ? chemistry->peukert : storage->peukert;
}

double wb_charge_v(const WbStorage *storage, const WbChemistry *chemistry)
{
    if (!isnan(storage->charge_v))
        return storage->charge_v;
    if (!(chemistry->cell_v > 0))
        return WB_MISSING;
    return round(storage->nominal_v / chemistry->cell_v) * chemistry->charge_v_per_cell;
}

WbBankVolts wb_bank_volts(const WbStorage *storage, const WbChemistry *chemistry, int series)
{
    static const int system_v[] = {12, 24, 48};
    WbBankVolts volts = {.nominal_v = series * storage->nominal_v,
                         .charge_v = series * wb_charge_v(storage, chemistry),
                         .charge_v_assumed = isnan(storage->charge_v)};
    for (int i = 0; i < 3; i++)
        if (system_v[i] <= volts.nominal_v && volts.nominal_v <= NOMINAL_SPREAD * system_v[i])
            volts.system_v = system_v[i];
    return volts;
}

double wb_temperature_factor(const WbChemistry *chemistry, double bank_c)
{
    if (chemistry->capacity_by_c.n == 0)
        return 1;
    return fmax(0, fmin(1, wb_curve_at(&chemistry->capacity_by_c, bank_c)));
}

double wb_rate_factor(double capacity_ah, double rated_hours, double peukert, double current_a)
{
    double rated_a = capacity_ah / rated_hours;
    if (current_a <= rated_a || peukert <= 1)
        return 1;
    return pow(rated_a / current_a, peukert - 1);
}

double wb_usable_wh(const WbStorage *storage, const WbChemistry *chemistry, int series,
                    int parallel, double bank_c, double dark_wh, double dark_h)
{
    double nominal_v = series * storage->nominal_v;
    if (!(nominal_v > 0) || parallel <= 0 || !(storage->capacity_ah > 0))
        return 0;
    double current_a = dark_h > 0 ? dark_wh / dark_h / nominal_v / parallel : 0;
    return nominal_v * storage->capacity_ah * parallel * wb_depth_limit(storage, chemistry) *
           wb_temperature_factor(chemistry, bank_c) *
           wb_rate_factor(storage->capacity_ah, storage->rated_hours,
                          wb_peukert_exponent(storage, chemistry), current_a);
}

double wb_peukert_hours(double capacity_ah, double rated_hours, double peukert, double current_a,
                        double depth)
{
    if (current_a <= 0)
        return INFINITY;
    return depth * rated_hours * pow(capacity_ah / (current_a * rated_hours), peukert);
}
