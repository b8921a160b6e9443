#include "step_kit.h"
#include <math.h>

static bool is_share(double x)
{
    return x >= 0 && x <= 1;
}

static bool at_least_0(double x)
{
    return x >= 0 && isfinite(x);
}

static bool accepts_bank(const WbYearKit *kit)
{
    return at_least_0(kit->capacity_wh) && is_share(kit->depth) && at_least_0(kit->rated_w) &&
           kit->peukert >= 1 && isfinite(kit->peukert) && kit->charge_efficiency > 0 &&
           kit->charge_efficiency <= 1 && kit->charge_efficiency_full > 0 &&
           kit->charge_efficiency_full <= kit->charge_efficiency && kit->discharge_efficiency > 0 &&
           kit->discharge_efficiency <= 1 && kit->max_charge_w >= 0 && kit->max_discharge_w >= 0 &&
           is_share(kit->accept_from) && kit->accept_full_w >= 0 &&
           kit->accept_w >= kit->accept_full_w &&
           (isfinite(kit->accept_w) || isinf(kit->accept_full_w)) &&
           is_share(kit->self_discharge_h) && at_least_0(kit->heater_w);
}

static bool accepts_array(const WbArrayLaw *law)
{
    return at_least_0(law->peak_w) && isfinite(law->power_coeff_k) &&
           isfinite(law->heating_k_m2_w) && isfinite(law->low_light_loss) && law->limit_w >= 0 &&
           at_least_0(law->idle_w);
}

bool wb_step_accepts(const WbYearKit *kit, const WbPlaneHours *plane)
{
    if (plane->n_years < 1 || kit->days->n_years != plane->n_years)
        return false;
    for (int h = 0; h < WB_HOURS; h++) {
        if (!at_least_0(kit->other.alternator_wh[h]))
            return false;
        for (int w = 0; w < WB_WEEK; w++)
            if (!at_least_0(kit->other.shore_wh[w][h]))
                return false;
    }
    for (int k = 0; k < kit->demand->n_kinds; k++)
        for (int h = 0; h < WB_HOURS; h++)
            if (!at_least_0(kit->demand->wh[k][h]))
                return false;
    return accepts_bank(kit) && accepts_array(&kit->array);
}

static void fill_charging(const WbYearKit *kit, WbStepKit *to)
{
    double span_wh = kit->capacity_wh - to->from_wh;
    to->most_charge_w = fmin(kit->max_charge_w, kit->accept_w);
    to->taper_w = INFINITY;
    to->efficiency = to->efficiency_full = kit->charge_efficiency;
    if (!(span_wh > 0))
        return;
    to->efficiency_full = kit->charge_efficiency_full;
    to->fall_per_wh = (kit->charge_efficiency - kit->charge_efficiency_full) / span_wh;
    to->half_fall_per_wh = to->fall_per_wh * kit->charge_efficiency / 2;
    if (isinf(kit->accept_w))
        return;
    double fall_w_wh = (kit->accept_w - kit->accept_full_w) / span_wh;
    double k = fall_w_wh * kit->charge_efficiency;
    double mean = k > 0 ? -expm1(-k) / k : 1;
    to->taper_w = kit->accept_w * mean;
    to->taper_per_wh = fall_w_wh * mean;
}

WbStepKit wb_step_kit(const WbYearKit *kit)
{
    WbStepKit made = {.keep = 1 - kit->self_discharge_h,
                      .capacity_wh = kit->capacity_wh,
                      .from_wh = kit->accept_from * kit->capacity_wh,
                      .most_discharge_w = kit->max_discharge_w};
    fill_charging(kit, &made);
    return made;
}

double wb_step_cost(const WbYearKit *kit, double need_wh)
{
    double rate = 1;
    if (kit->rated_w > 0 && need_wh > kit->rated_w && kit->peukert > 1)
        rate = pow(need_wh / kit->rated_w, kit->peukert - 1);
    return rate / kit->discharge_efficiency;
}

double wb_step_before_charging_w(const WbYearKit *kit, bool too_cold)
{
    if (!too_cold)
        return 0;
    return kit->heater_w > 0 ? kit->heater_w : INFINITY;
}

bool wb_step_in_use(const WbYearKit *kit, int month)
{
    return kit->demand->months >> month & 1;
}

double wb_step_dark_above_wh(const WbYearKit *kit, int month)
{
    return wb_step_in_use(kit, month) ? kit->array.idle_w + WB_DARK_WH : INFINITY;
}

double wb_step_alternator_wh(const WbYearKit *kit, int month, int hour)
{
    return wb_step_in_use(kit, month) ? kit->other.alternator_wh[hour] : 0;
}

double wb_step_shore_wh(const WbYearKit *kit, int month, int weekday, int hour)
{
    return wb_step_in_use(kit, month) ? kit->other.shore_wh[weekday][hour] : 0;
}

/* More charge at an hour's start must not leave less at its end, nor must more taken store less.
 * With e = fall of the efficiency, a = fall of the acceptance, both by Wh, E the efficiency and X
 * the most taken: the charge's growth is at least 1 - a E - e X where acceptance rules, 1 - e X
 * elsewhere; what is stored grows with what is taken by at least efficiency_full - e E X / 2. */
bool wb_year_is_monotone(const WbYearKit *kit)
{
    WbStepKit step = wb_step_kit(kit);
    double e = step.fall_per_wh, most_w = step.most_charge_w;
    if (e > 0 && !isfinite(most_w))
        return false;
    double by_rate = e > 0 ? e * most_w : 0;
    double by_taper = e > 0 ? e * fmin(most_w, step.taper_w) : 0;
    double by_taken = e > 0 ? step.half_fall_per_wh * most_w : 0;
    return by_rate <= 1 && step.taper_per_wh * step.efficiency + by_taper <= 1 &&
           by_taken <= step.efficiency_full;
}
