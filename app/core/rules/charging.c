/* What charges the bank: the controller's output and profile, the DC-DC charger and its alternator,
 * and both together against what the bank takes. */
#include "compare.h"

#define ALTERNATOR_SHARE 0.5 /* of its rating, for hours on end: common practice */
#define LEAST_CHARGE_C 0.1   /* A for each Ah of lead-acid: common practice */

WbFinding wb_rule_controller_share(int n_parallel, int n_controllers)
{
    if (n_controllers < 1)
        return wb_finding_idle(WB_RULE_CONTROLLER_SHARE);
    return wb_finding_at_most(WB_RULE_CONTROLLER_SHARE, n_parallel % n_controllers, 0, WB_STOP);
}

/* Controllers in parallel do not know of each other: alike settings, and no string on two. */
WbFinding wb_rule_controllers_alike(int n_controllers)
{
    return wb_finding_at_most(WB_RULE_CONTROLLERS_ALIKE, n_controllers, 1, WB_CAUTION);
}

uint32_t wb_array_assumed(const WbPanel *panel, const WbController *controller)
{
    if (controller->technology == WB_CONTROLLER_PWM)
        return 0;
    return (isnan(panel->power_coeff_pct_k) ? WB_ASSUMED_POWER_COEFF : 0) |
           (isnan(panel->noct_c) ? WB_ASSUMED_NOCT : 0) |
           (isnan(panel->low_light_pct) ? WB_ASSUMED_LOW_LIGHT : 0);
}

/* What the panels of one controller can bring to the bank, W. Behind a PWM controller they work at
 * the bank's voltage, so theirs are Imp x bank V. */
static double brought_w(const WbPanel *panel, int n_series, int strings,
                        const WbController *controller, const WbBankVolts *bank)
{
    double string_w = controller->technology == WB_CONTROLLER_PWM ? panel->imp_a * bank->nominal_v
                                                                  : panel->power_w * n_series;
    return string_w * strings;
}

/* Where the maker names no limit, more than the rated output is for him to allow. */
WbFinding wb_rule_array_watts(const WbPanel *panel, int n_series, int strings_per_controller,
                              const WbController *controller, const WbBankVolts *bank)
{
    if (bank->system_v == 0)
        return wb_finding_idle(WB_RULE_ARRAY_WATTS);
    if (!isnan(controller->max_pv_w_12v))
        return wb_finding_at_most(WB_RULE_ARRAY_WATTS,
                                  panel->power_w * n_series * strings_per_controller,
                                  controller->max_pv_w_12v * bank->system_v / 12, WB_STOP);
    WbFinding finding = wb_finding_at_most(
        WB_RULE_ARRAY_WATTS, brought_w(panel, n_series, strings_per_controller, controller, bank),
        controller->rated_output_a * bank->nominal_v, WB_CAUTION);
    finding.assumed = WB_ASSUMED_PV_WATTS;
    return finding;
}

WbFinding wb_rule_output_clipped(const WbPanel *panel, int n_series, int strings_per_controller,
                                 const WbController *controller, const WbBankVolts *bank)
{
    if (!(bank->nominal_v > 0))
        return wb_finding_idle(WB_RULE_OUTPUT_CLIPPED);
    return wb_finding_at_most(WB_RULE_OUTPUT_CLIPPED,
                              brought_w(panel, n_series, strings_per_controller, controller, bank),
                              controller->rated_output_a * bank->nominal_v, WB_NOTE);
}

WbFinding wb_rule_controller_bus(const WbController *controller, const WbBankVolts *bank)
{
    if (bank->system_v == 0)
        return wb_finding_idle(WB_RULE_CONTROLLER_BUS);
    int made_v = wb_nearest_bus_v(controller->bus_12v, controller->bus_24v, controller->bus_48v,
                                  bank->system_v);
    return wb_finding_equal(WB_RULE_CONTROLLER_BUS, bank->system_v, made_v, WB_STOP);
}

WbFinding wb_rule_charge_profile(const WbController *controller, const WbChemistry *chemistry)
{
    bool there =
        controller->profile_adjustable || wb_profiles_hold(controller->profiles, chemistry->id);
    return wb_finding_needed(WB_RULE_CHARGE_PROFILE, there, WB_STOP);
}

/* Compared is the voltage that really comes from the alternator: 0 where there is none, or where
 * nobody drives. */
WbFinding wb_rule_dcdc_source(const WbBrief *brief, const WbDcdc *dcdc)
{
    if (!dcdc)
        return wb_finding_idle(WB_RULE_DCDC_SOURCE);
    const WbDriving *driving = &brief->driving;
    bool driven = driving->alternator_a > 0 && driving->drive_hours_day > 0;
    return wb_finding_equal(WB_RULE_DCDC_SOURCE, driven ? driving->alternator_v : 0,
                            (double)dcdc->input_v, WB_STOP);
}

WbFinding wb_rule_dcdc_bus(const WbDcdc *dcdc, const WbBankVolts *bank)
{
    if (!dcdc || bank->system_v == 0)
        return wb_finding_idle(WB_RULE_DCDC_BUS);
    return wb_finding_equal(WB_RULE_DCDC_BUS, bank->system_v, (double)dcdc->output_v, WB_STOP);
}

WbFinding wb_rule_dcdc_profile(const WbDcdc *dcdc, const WbChemistry *chemistry)
{
    if (!dcdc)
        return wb_finding_idle(WB_RULE_DCDC_PROFILE);
    bool there = dcdc->profile_adjustable || wb_profiles_hold(dcdc->profiles, chemistry->id);
    return wb_finding_needed(WB_RULE_DCDC_PROFILE, there, WB_STOP);
}

/* Nominal volts on both sides; the bank itself does not change what the charger draws. */
WbFinding wb_rule_dcdc_alternator(const WbBrief *brief, const WbDcdc *dcdc, const WbBankVolts *bank)
{
    if (!dcdc || !(brief->driving.alternator_a > 0))
        return wb_finding_idle(WB_RULE_DCDC_ALTERNATOR);
    double input_a =
        dcdc->output_a * (double)dcdc->output_v / dcdc->efficiency / (double)dcdc->input_v;
    return wb_finding_at_most(WB_RULE_DCDC_ALTERNATOR, input_a,
                              brief->driving.alternator_a * ALTERNATOR_SHARE, WB_CAUTION);
}

double wb_solar_charge_a(const WbPanel *panel, int n_series, int n_parallel,
                         const WbController *controller, int n_controllers, const WbBankVolts *bank)
{
    double rated_a = n_controllers * controller->rated_output_a;
    if (controller->technology == WB_CONTROLLER_PWM)
        return fmin(n_parallel * panel->imp_a, rated_a);
    if (!(bank->nominal_v > 0))
        return rated_a;
    double array_w = panel->power_w * n_series * n_parallel;
    return fmin(array_w * controller->efficiency / bank->nominal_v, rated_a);
}

/* Sun and alternator may charge at once. */
static double charge_a(double solar_a, const WbDcdc *dcdc)
{
    return solar_a + (dcdc ? dcdc->output_a : 0);
}

WbFinding wb_rule_charge_maximum(double solar_a, const WbDcdc *dcdc, const WbStorage *storage,
                                 int parallel)
{
    return wb_finding_at_most(WB_RULE_CHARGE_MAXIMUM, charge_a(solar_a, dcdc),
                              parallel * storage->max_charge_a, WB_STOP);
}

/* Lead-acid that is always charged gently sulphates and its acid settles in layers. */
WbFinding wb_rule_charge_minimum(double solar_a, const WbDcdc *dcdc, const WbStorage *storage,
                                 const WbChemistry *chemistry, int parallel)
{
    bool given = !isnan(storage->min_charge_a);
    if (!given && chemistry->family != WB_FAMILY_LEAD_ACID)
        return wb_finding_idle(WB_RULE_CHARGE_MINIMUM);
    double least_a = given ? storage->min_charge_a : LEAST_CHARGE_C * storage->capacity_ah;
    WbFinding finding = wb_finding_at_least(WB_RULE_CHARGE_MINIMUM, charge_a(solar_a, dcdc),
                                            parallel * least_a, WB_CAUTION);
    finding.assumed = given ? 0 : WB_ASSUMED_MIN_CHARGE;
    return finding;
}

/* It charges by night, when the sun adds nothing. */
WbFinding wb_rule_shore_charge(const WbBrief *brief, const WbStorage *storage, int parallel)
{
    if (!(brief->shore.nights_week > 0) || !(brief->shore.charger_a > 0))
        return wb_finding_idle(WB_RULE_SHORE_CHARGE);
    return wb_finding_at_most(WB_RULE_SHORE_CHARGE, brief->shore.charger_a,
                              parallel * storage->max_charge_a, WB_STOP);
}
