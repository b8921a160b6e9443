#include "kit_year.h"
#include "sides.h"
#include <math.h>

#define DRIVE_FROM_H 9.0
#define SHORE_FROM_H 18
#define SHORE_TO_H 8
#define TYPICAL_HEATER_W 40.0
#define HOURS_A_MONTH 730.0

/* ---- other sources ---- */

static double overlap_h(double from_h, double to_h, int hour)
{
    return fmax(0, fmin(to_h, hour + 1) - fmax(from_h, hour));
}

/* Is the night that begins on this weekday one of the evenly spread nights with shore power? */
static double shore_night(double nights_week, int weekday)
{
    return floor((weekday + 1) * nights_week / WB_WEEK) - floor(weekday * nights_week / WB_WEEK);
}

static void fill_other(const WbProblem *problem, const WbKit *kit, const WbBankKind *bank,
                       WbOtherSources *other)
{
    const WbDcdc *dcdc = problem->dcdc[kit->dcdc].dcdc;
    const WbShore *shore = &problem->brief->shore;
    double drive_h = problem->brief->driving.drive_hours_day;
    double from_h = fmin(DRIVE_FROM_H, WB_HOURS - drive_h);
    double dcdc_w = dcdc ? dcdc->output_a * bank->volts.nominal_v : 0;
    double shore_w = shore->charger_a * bank->volts.nominal_v;
    for (int h = 0; h < WB_HOURS; h++) {
        other->alternator_wh[h] = dcdc_w * overlap_h(from_h, from_h + drive_h, h);
        for (int w = 0; w < WB_WEEK; w++) {
            double nights = 0;
            if (h >= SHORE_FROM_H)
                nights = shore_night(shore->nights_week, w);
            else if (h < SHORE_TO_H)
                nights = shore_night(shore->nights_week, (w + WB_WEEK - 1) % WB_WEEK);
            other->shore_wh[w][h] = shore_w * nights;
        }
    }
}

double wb_shore_wh(const WbBrief *brief, const WbBankVolts *bank)
{
    double nights = 0;
    for (int w = 0; w < WB_WEEK; w++)
        nights += shore_night(brief->shore.nights_week, w);
    return nights / WB_WEEK * (WB_HOURS - SHORE_FROM_H + SHORE_TO_H) * brief->shore.charger_a *
           bank->nominal_v;
}

/* ---- the bank ---- */

static double heater_w(const WbStorage *storage, int count)
{
    if (!storage->heated)
        return 0;
    return count * (isnan(storage->heater_w) ? TYPICAL_HEATER_W : storage->heater_w);
}

static void fill_acceptance(const WbChemistry *chemistry, double capacity_wh, WbYearKit *to)
{
    to->accept_w = to->accept_full_w = INFINITY;
    to->accept_from = 0;
    if (isnan(chemistry->accept_c))
        return;
    to->accept_w = chemistry->accept_c * capacity_wh;
    to->accept_full_w = chemistry->accept_full_c * capacity_wh;
    to->accept_from = chemistry->accept_from;
}

static void fill_bank(const WbProblem *problem, const WbKit *kit, const WbBankKind *bank,
                      WbYearKit *to)
{
    const WbStorage *storage = problem->storage[kit->storage].storage;
    const WbChemistry *chemistry = bank->chemistry;
    double volts = bank->volts.nominal_v;
    int strings = kit->bank_parallel;
    to->days = &problem->bank_days[chemistry - problem->catalogue->chemistries];
    to->capacity_wh = volts * storage->capacity_ah * strings;
    to->depth = wb_depth_limit(storage, chemistry);
    to->rated_w = to->capacity_wh / storage->rated_hours;
    to->peukert = wb_peukert_exponent(storage, chemistry);
    to->charge_efficiency = to->charge_efficiency_full = chemistry->charge_efficiency;
    if (!isnan(chemistry->charge_efficiency_full) && !isnan(chemistry->accept_c))
        to->charge_efficiency_full = chemistry->charge_efficiency_full;
    to->discharge_efficiency = chemistry->discharge_efficiency;
    to->max_charge_w = storage->max_charge_a * volts * strings;
    to->max_discharge_w = storage->max_discharge_a * volts * strings;
    to->self_discharge_h = chemistry->self_discharge_pct_month / 100 / HOURS_A_MONTH;
    to->heater_w = heater_w(storage, kit->bank_series * strings);
    fill_acceptance(chemistry, to->capacity_wh, to);
}

WbArrayLaw wb_kit_array_law(const WbProblem *problem, const WbKit *kit, const WbBankVolts *bank)
{
    return wb_array_law(problem->panels[kit->panel].panel, kit->n_series, kit->n_parallel,
                        problem->controllers[kit->controller].controller, kit->n_controllers,
                        problem->brief->site.mounting, bank);
}

void wb_kit_array_months(const WbProblem *problem, const WbKit *kit, const WbBankVolts *bank,
                         WbSupply *supply)
{
    const WbController *controller = problem->controllers[kit->controller].controller;
    const WbArrayUnit *unit = controller->technology == WB_CONTROLLER_MPPT
                                  ? &problem->panels[kit->panel].unit
                                  : &problem->sun_unit;
    WbArrayLaw law = wb_kit_array_law(problem, kit, bank);
    wb_array_months_by_unit(&law, unit, problem->sun->sums, supply);
}

void wb_kit_year_fill(const WbProblem *problem, const WbKit *kit, WbYearKit *year_kit)
{
    WbBankKind bank = wb_bank_kind(problem, kit->storage, kit->bank_series);
    *year_kit = (WbYearKit){.demand = &problem->inverters[kit->inverter].demand};
    year_kit->array = wb_kit_array_law(problem, kit, &bank.volts);
    fill_other(problem, kit, &bank, &year_kit->other);
    fill_bank(problem, kit, &bank, year_kit);
}
