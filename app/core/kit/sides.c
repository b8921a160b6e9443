#include "sides.h"
#include <math.h>

WbBankKind wb_bank_kind(const WbProblem *problem, int storage, int bank_series)
{
    const WbStorageChoice *choice = &problem->storage[storage];
    return (WbBankKind){
        .volts = wb_bank_volts(choice->storage, choice->chemistry, bank_series),
        .chemistry = choice->chemistry,
    };
}

int wb_strings_of_one(const WbKit *kit)
{
    return (kit->n_parallel + kit->n_controllers - 1) / kit->n_controllers;
}

void wb_array_findings_own(const WbProblem *problem, const WbKit *kit, WbFinding f[WB_N_RULES])
{
    const WbPanelChoice *choice = &problem->panels[kit->panel];
    const WbPanel *panel = choice->panel;
    const WbController *controller = problem->controllers[kit->controller].controller;
    double cold_c = problem->design_cold_c;
    int n = kit->n_series * kit->n_parallel;

    f[WB_RULE_ROOF_FIT] = wb_rule_roof_fit(problem->brief, &choice->fit, n);
    f[WB_RULE_ROOF_UNDECIDED] = wb_rule_roof_undecided(problem->brief, &choice->fit, n);
    f[WB_RULE_ROOF_LOAD] = wb_rule_roof_load(problem->brief, panel, n);
    f[WB_RULE_ROOF_HEIGHT] = wb_rule_roof_height(problem->brief, panel);
    f[WB_RULE_CONTROLLER_SHARE] = wb_rule_controller_share(kit->n_parallel, kit->n_controllers);
    f[WB_RULE_CONTROLLERS_ALIKE] = wb_rule_controllers_alike(kit->n_controllers);
    f[WB_RULE_UNLIKE_PANELS] = wb_rule_unlike_panels(panel, panel, kit->n_series);
    f[WB_RULE_SYSTEM_VOLTAGE] = wb_rule_system_voltage(panel, kit->n_series, cold_c);
    f[WB_RULE_COLD_VOC] = wb_rule_cold_voc(panel, kit->n_series, controller, cold_c);
    f[WB_RULE_TOUCH_VOLTAGE] =
        wb_rule_touch_voltage(panel, kit->n_series, cold_c, problem->brief->rule_set);
    f[WB_RULE_PV_CURRENT] = wb_rule_pv_current(panel, wb_strings_of_one(kit), controller);
}

void wb_array_findings_with(const WbProblem *problem, const WbKit *kit, const WbBankKind *bank,
                            WbFinding f[WB_N_RULES])
{
    const WbPanelChoice *choice = &problem->panels[kit->panel];
    const WbPanel *panel = choice->panel;
    const WbController *controller = problem->controllers[kit->controller].controller;
    const WbBankVolts *volts = &bank->volts;
    double hot_c = choice->hottest_cell_c;
    int s = kit->n_series, strings = wb_strings_of_one(kit);

    f[WB_RULE_HOT_VMP] = wb_rule_hot_vmp(panel, s, controller, volts, hot_c);
    f[WB_RULE_MPPT_START] = wb_rule_mppt_start(panel, s, controller, volts, hot_c);
    f[WB_RULE_PWM_MATCH] = wb_rule_pwm_match(panel, s, controller, volts, hot_c);
    f[WB_RULE_PWM_CELLS] = wb_rule_pwm_cells(panel, s, controller, volts);
    f[WB_RULE_ARRAY_WATTS] = wb_rule_array_watts(panel, s, strings, controller, volts);
    f[WB_RULE_OUTPUT_CLIPPED] = wb_rule_output_clipped(panel, s, strings, controller, volts);
    f[WB_RULE_STRING_FUSE] = wb_rule_string_fuse(panel, strings);
    f[WB_RULE_CONTROLLER_BUS] = wb_rule_controller_bus(controller, volts);
    f[WB_RULE_CHARGE_PROFILE] = wb_rule_charge_profile(controller, bank->chemistry);
}

static WbFitAnswer bay_answer(const WbStorageChoice *choice, int n)
{
    if (n <= choice->bay_fits)
        return WB_FITS;
    return n > choice->bay_bound ? WB_FITS_NOT : WB_FIT_UNDECIDED;
}

void wb_bank_findings(const WbProblem *problem, const WbKit *kit, const WbBankKind *bank,
                      double autonomy_days, int worst_autonomy_month, WbFinding f[WB_N_RULES])
{
    const WbBrief *brief = problem->brief;
    const WbStorage *storage = problem->storage[kit->storage].storage;
    const WbInverter *inverter = problem->inverters[kit->inverter].inverter;
    const WbLoadBudget *loads = &problem->loads;
    int s = kit->bank_series, p = kit->bank_parallel;

    f[WB_RULE_BANK_SYSTEM] = wb_rule_bank_system(brief, &bank->volts);
    f[WB_RULE_BANK_SERIES] = wb_rule_bank_series(storage, s);
    f[WB_RULE_BANK_PARALLEL] = wb_rule_bank_parallel(storage, p);
    f[WB_RULE_LOAD_VOLTAGE] = wb_rule_load_voltage(brief, &bank->volts);
    f[WB_RULE_LOAD_CONVERTER] = wb_rule_load_converter(brief, &bank->volts);
    f[WB_RULE_MOTOR_START] = wb_rule_motor_start(brief, &bank->volts);
    f[WB_RULE_BAY_FIT] =
        wb_rule_bay_fit(brief, bay_answer(&problem->storage[kit->storage], s * p), s * p);
    f[WB_RULE_NO_INVERTER] = wb_rule_no_inverter(loads, inverter);
    f[WB_RULE_INVERTER_BUS] = wb_rule_inverter_bus(inverter, &bank->volts);
    f[WB_RULE_INVERTER_WINDOW] = wb_rule_inverter_window(inverter, &bank->volts);
    f[WB_RULE_INVERTER_LOWEST] = wb_rule_inverter_lowest(inverter, &bank->volts);
    f[WB_RULE_INVERTER_CUTOUT] = wb_rule_inverter_cutout(inverter, storage, bank->chemistry, s);
    f[WB_RULE_INVERTER_CONTINUOUS] = wb_rule_inverter_continuous(loads, inverter);
    f[WB_RULE_INVERTER_SURGE] = wb_rule_inverter_surge(loads, inverter);
    f[WB_RULE_WAVEFORM] = wb_rule_waveform(loads, inverter);
    f[WB_RULE_INVERTER_DRAW] = wb_rule_inverter_draw(storage, p, &bank->volts, inverter);
    f[WB_RULE_INVERTER_SURGE_DRAW] =
        wb_rule_inverter_surge_draw(storage, p, &bank->volts, inverter);
    f[WB_RULE_PEAK_DRAW] = wb_rule_peak_draw(loads, storage, p, &bank->volts, inverter);
    f[WB_RULE_SHORE_CHARGE] = wb_rule_shore_charge(brief, storage, p);
    f[WB_RULE_COLD_CHARGE] =
        wb_rule_cold_charge(&brief->site, problem->design_cold_c, storage, bank->chemistry);
    f[WB_RULE_FREEZING] =
        wb_rule_freezing(&brief->site, problem->design_cold_c, storage, bank->chemistry);
    f[WB_RULE_VENTILATION] = wb_rule_ventilation(&brief->site, storage, bank->chemistry, s, p);
    f[WB_RULE_AUTONOMY] = wb_rule_autonomy(brief, autonomy_days, worst_autonomy_month);
    f[WB_RULE_AUTONOMY].assumed = wb_bank_assumed(storage);
}

void wb_dcdc_findings(const WbProblem *problem, const WbKit *kit, const WbBankKind *bank,
                      WbFinding f[WB_N_RULES])
{
    const WbDcdc *dcdc = problem->dcdc[kit->dcdc].dcdc;
    f[WB_RULE_DCDC_SOURCE] = wb_rule_dcdc_source(problem->brief, dcdc);
    f[WB_RULE_DCDC_BUS] = wb_rule_dcdc_bus(dcdc, &bank->volts);
    f[WB_RULE_DCDC_PROFILE] = wb_rule_dcdc_profile(dcdc, bank->chemistry);
    f[WB_RULE_DCDC_ALTERNATOR] = wb_rule_dcdc_alternator(problem->brief, dcdc, &bank->volts);
}

uint64_t wb_stops(const WbFinding finding[WB_N_RULES], WbRule first, WbRule last)
{
    uint64_t bits = 0;
    for (int r = first; r <= (int)last; r++)
        if (!finding[r].holds && finding[r].severity == WB_STOP)
            bits |= UINT64_C(1) << r;
    return bits;
}

static bool in_use(const WbProblem *problem, int month)
{
    return problem->brief->site.months >> month & 1;
}

void wb_bank_side(const WbProblem *problem, const WbKit *kit, const WbBankKind *bank,
                  WbBankSide *side)
{
    const WbStorage *storage = problem->storage[kit->storage].storage;
    const WbInverterChoice *choice = &problem->inverters[kit->inverter];
    double round_trip = bank->chemistry->charge_efficiency * bank->chemistry->discharge_efficiency;
    side->worst_usable_month = side->worst_autonomy_month = -1;
    for (int m = 0; m < WB_MONTHS; m++) {
        double need_wh = choice->need.day_wh[m], dark_wh = choice->need.dark_wh[m];
        double bank_c = wb_bank_temperature_c(&problem->brief->site, m);
        double usable_wh =
            wb_usable_wh(storage, bank->chemistry, kit->bank_series, kit->bank_parallel, bank_c,
                         dark_wh, choice->need.dark_h[m]);
        double days = WB_MOST_AUTONOMY_DAYS;
        if (need_wh > 0.0 && usable_wh / need_wh < days)
            days = usable_wh / need_wh;
        side->usable_wh[m] = usable_wh;
        side->need_wh[m] = need_wh;
        side->storing_loss_wh[m] = dark_wh / round_trip - dark_wh;
        side->autonomy_days[m] = days;
        if (!in_use(problem, m))
            continue;
        if (side->worst_usable_month < 0 || usable_wh < side->lowest_usable_wh) {
            side->lowest_usable_wh = usable_wh;
            side->worst_usable_month = m;
        }
        if (side->worst_autonomy_month < 0 || days < side->lowest_autonomy_days) {
            side->lowest_autonomy_days = days;
            side->worst_autonomy_month = m;
        }
    }
    const WbInverter *inverter = choice->inverter;
    side->spare_w = inverter ? inverter->continuous_w - problem->loads.peak_ac_w : 0.0;
}

double wb_alternator_wh(const WbProblem *problem, int dcdc, const WbBankKind *bank)
{
    const WbDcdc *charger = problem->dcdc[dcdc].dcdc;
    if (!charger)
        return 0.0;
    return charger->output_a * bank->volts.nominal_v * problem->brief->driving.drive_hours_day;
}

int wb_worst_supply_month(const WbProblem *problem, const double array_wh[WB_MONTHS],
                          double other_wh, const WbBankSide *bank, double *supply_wh)
{
    int worst = -1;
    double least = 0.0;
    for (int m = 0; m < WB_MONTHS; m++) {
        if (!in_use(problem, m))
            continue;
        double supply = (array_wh[m] + other_wh) - bank->storing_loss_wh[m];
        double left = supply - bank->need_wh[m];
        if (worst < 0 || left < least) {
            worst = m;
            least = left;
            *supply_wh = supply;
        }
    }
    return worst;
}
