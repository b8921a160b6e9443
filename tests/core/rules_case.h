/* One kit to judge, sound until a test changes it, and any rule by its number. */
#ifndef WB_TEST_RULES_CASE_H
#define WB_TEST_RULES_CASE_H

#include "rules.h"

/* All that any rule looks at: a sound 12 V kit of our own invention until a row changes it. */
typedef struct {
    WbPanel panel, other_panel; /* the other one of a string */
    WbController controller;
    WbStorage storage;
    WbChemistry chemistry;
    WbInverter inverter;
    WbDcdc dcdc;
    WbBrief brief;
    WbLoad load[2]; /* DC, for the rule that looks at the loads themselves */
    WbLoadBudget loads;
    WbBankVolts bank;
    WbRoofFit fit;
    int bay; /* WbFitAnswer */
    int n_series, n_parallel, n_controllers, bank_series, bank_parallel;
    bool without_inverter, without_dcdc;
    double cold_c, hot_cell_c, autonomy_days, supply_wh, need_wh, solar_a;
    int64_t cost_minor, weight_g;
    double dark_h;
    int n_faults, n_missing; /* circuits that cannot be built, fittings nobody sells */
} Case;

static const Case sound = {
    .panel = {.part = {.weight_kg = 6},
              .power_w = 100,
              .voc_v = 22,
              .vmp_v = 18,
              .isc_a = 6,
              .cells = 36,
              .imp_a = 5.5,
              .voc_coeff_pct_k = -0.3,
              .noct_c = 45,
              .max_system_v = 600,
              .series_fuse_a = 15,
              .mount_kg = 2},
    .other_panel = {.imp_a = 5.4},
    .controller = {.technology = WB_CONTROLLER_MPPT,
                   .max_pv_v = 75,
                   .max_pv_a = 20,
                   .max_pv_w_12v = 300,
                   .rated_output_a = 20,
                   .bus_12v = true,
                   .bus_24v = true,
                   .efficiency = 0.96,
                   .headroom_v = 1,
                   .start_headroom_v = 4,
                   .profiles = "flooded agm"},
    .storage = {.chemistry = "agm",
                .nominal_v = 12,
                .capacity_ah = 100,
                .depth_limit = 0.5,
                .max_charge_a = 25,
                .min_charge_a = 10,
                .max_discharge_a = 100,
                .surge_discharge_a = 300,
                .max_series = 2,
                .max_parallel = 2},
    .chemistry = {.id = "agm",
                  .family = WB_FAMILY_LEAD_ACID,
                  .end_v_per_cell = 1.75,
                  .gassing = WB_GAS_NONE,
                  .cell_v = 2,
                  .min_charge_c = -20,
                  .freezing_by_depth = {2, {{0, -60}, {1, -10}}}},
    .inverter = {.bus_v = 12,
                 .waveform = WB_WAVE_PURE_SINE,
                 .continuous_w = 500,
                 .surge_w = 1000,
                 .min_v = 10.5,
                 .max_v = 16,
                 .efficiency = {1, {{0, 0.8}}}},
    .dcdc = {.input_v = 12, .output_v = 12, .output_a = 10, .efficiency = 0.8, .profiles = "agm"},
    .brief = {.shore = {.nights_week = 2, .charger_a = 20},
              .driving = {.alternator_a = 100, .alternator_v = 12, .drive_hours_day = 1},
              .roof = {.max_load_kg = 50},
              .bay = {500, 300, 300},
              .roof_on = true,
              .bay_on = true,
              .money_minor = {100000, true},
              .weight_kg = {60, true},
              .dark_hours = {100, true},
              .autonomy_target_days = 2,
              .wiring = {.on = true},
              .system_v = 7},
    .load = {{.name = "VHF radio",
              .power_w = 24,
              .surge_factor = 1,
              .volts = 12,
              .count = 1,
              .hours_day = 2,
              .duty = 1,
              .months = 1,
              .days_week = 7},
             {.name = "Lights",
              .power_w = 5,
              .surge_factor = 1,
              .volts = WB_MISSING,
              .count = 3,
              .hours_day = 4,
              .duty = 1,
              .months = 1,
              .days_week = 7}},
    .loads = {.peak_dc_w = 120,
              .surge_dc_w = 240,
              .peak_ac_w = 240,
              .surge_ac_w = 480,
              .any_ac = true,
              .needs_pure_sine = true},
    .bank = {.system_v = 12, .nominal_v = 12, .charge_v = 14.4},
    .fit = {.most = 4, .bound = 5},
    .bay = WB_FITS,
    .n_series = 1,
    .n_parallel = 2,
    .n_controllers = 1,
    .bank_series = 1,
    .bank_parallel = 1,
    .cold_c = -15,
    .hot_cell_c = 60,
    .autonomy_days = 3,
    .supply_wh = 900,
    .need_wh = 800,
    .dark_h = 80,
    .solar_a = 12,
    .cost_minor = 90000,
    .weight_g = 50000,
};

static WbFinding judge_array(const Case *c, WbRule rule)
{
    int n = c->n_series * c->n_parallel;
    switch ((int)rule) {
    case WB_RULE_ROOF_FIT:
        return wb_rule_roof_fit(&c->brief, &c->fit, n);
    case WB_RULE_ROOF_UNDECIDED:
        return wb_rule_roof_undecided(&c->brief, &c->fit, n);
    case WB_RULE_ROOF_LOAD:
        return wb_rule_roof_load(&c->brief, &c->panel, n);
    case WB_RULE_ROOF_HEIGHT:
        return wb_rule_roof_height(&c->brief, &c->panel);
    case WB_RULE_CONTROLLER_SHARE:
        return wb_rule_controller_share(c->n_parallel, c->n_controllers);
    case WB_RULE_CONTROLLERS_ALIKE:
        return wb_rule_controllers_alike(c->n_controllers);
    case WB_RULE_UNLIKE_PANELS:
        return wb_rule_unlike_panels(&c->panel, &c->other_panel, c->n_series);
    case WB_RULE_SYSTEM_VOLTAGE:
        return wb_rule_system_voltage(&c->panel, c->n_series, c->cold_c);
    case WB_RULE_COLD_VOC:
        return wb_rule_cold_voc(&c->panel, c->n_series, &c->controller, c->cold_c);
    case WB_RULE_TOUCH_VOLTAGE:
        return wb_rule_touch_voltage(&c->panel, c->n_series, c->cold_c, c->brief.rule_set);
    case WB_RULE_PV_CURRENT:
        return wb_rule_pv_current(&c->panel, c->n_parallel, &c->controller);
    case WB_RULE_HOT_VMP:
        return wb_rule_hot_vmp(&c->panel, c->n_series, &c->controller, &c->bank, c->hot_cell_c);
    case WB_RULE_MPPT_START:
        return wb_rule_mppt_start(&c->panel, c->n_series, &c->controller, &c->bank, c->hot_cell_c);
    case WB_RULE_PWM_CELLS:
        return wb_rule_pwm_cells(&c->panel, c->n_series, &c->controller, &c->bank);
    case WB_RULE_PWM_MATCH:
        return wb_rule_pwm_match(&c->panel, c->n_series, &c->controller, &c->bank, c->hot_cell_c);
    case WB_RULE_ARRAY_WATTS:
        return wb_rule_array_watts(&c->panel, c->n_series, c->n_parallel, &c->controller, &c->bank);
    case WB_RULE_OUTPUT_CLIPPED:
        return wb_rule_output_clipped(&c->panel, c->n_series, c->n_parallel, &c->controller,
                                      &c->bank);
    case WB_RULE_STRING_FUSE:
        return wb_rule_string_fuse(&c->panel, c->n_parallel);
    case WB_RULE_CONTROLLER_BUS:
        return wb_rule_controller_bus(&c->controller, &c->bank);
    case WB_RULE_CHARGE_PROFILE:
        return wb_rule_charge_profile(&c->controller, &c->chemistry);
    default:
        return wb_finding_idle(WB_N_RULES);
    }
}

static WbFinding judge_loads(const Case *c, WbRule rule)
{
    WbBrief brief = c->brief;
    brief.loads = c->load;
    brief.n_loads = 2;
    brief.site.months = 1;
    if (rule == WB_RULE_LOAD_CONVERTER)
        return wb_rule_load_converter(&brief, &c->bank);
    if (rule == WB_RULE_MOTOR_START)
        return wb_rule_motor_start(&brief, &c->bank);
    return wb_rule_load_voltage(&brief, &c->bank);
}

static WbFinding judge_bank(const Case *c, WbRule rule)
{
    const WbInverter *inverter = c->without_inverter ? NULL : &c->inverter;
    switch ((int)rule) {
    case WB_RULE_BANK_SYSTEM:
        return wb_rule_bank_system(&c->brief, &c->bank);
    case WB_RULE_BANK_SERIES:
        return wb_rule_bank_series(&c->storage, c->bank_series);
    case WB_RULE_BANK_PARALLEL:
        return wb_rule_bank_parallel(&c->storage, c->bank_parallel);
    case WB_RULE_LOAD_VOLTAGE:
    case WB_RULE_LOAD_CONVERTER:
    case WB_RULE_MOTOR_START:
        return judge_loads(c, rule);
    case WB_RULE_BAY_FIT:
        return wb_rule_bay_fit(&c->brief, (WbFitAnswer)c->bay, 2);
    case WB_RULE_NO_INVERTER:
        return wb_rule_no_inverter(&c->loads, inverter);
    case WB_RULE_INVERTER_BUS:
        return wb_rule_inverter_bus(inverter, &c->bank);
    case WB_RULE_INVERTER_WINDOW:
        return wb_rule_inverter_window(inverter, &c->bank);
    case WB_RULE_INVERTER_LOWEST:
        return wb_rule_inverter_lowest(inverter, &c->bank);
    case WB_RULE_INVERTER_CUTOUT:
        return wb_rule_inverter_cutout(inverter, &c->storage, &c->chemistry, c->bank_series);
    case WB_RULE_INVERTER_CONTINUOUS:
        return wb_rule_inverter_continuous(&c->loads, inverter);
    case WB_RULE_INVERTER_SURGE:
        return wb_rule_inverter_surge(&c->loads, inverter);
    case WB_RULE_WAVEFORM:
        return wb_rule_waveform(&c->loads, inverter);
    case WB_RULE_INVERTER_DRAW:
        return wb_rule_inverter_draw(&c->storage, c->bank_parallel, &c->bank, inverter);
    case WB_RULE_INVERTER_SURGE_DRAW:
        return wb_rule_inverter_surge_draw(&c->storage, c->bank_parallel, &c->bank, inverter);
    case WB_RULE_SHORE_CHARGE:
        return wb_rule_shore_charge(&c->brief, &c->storage, c->bank_parallel);
    case WB_RULE_PEAK_DRAW:
        return wb_rule_peak_draw(&c->loads, &c->storage, c->bank_parallel, &c->bank, inverter);
    case WB_RULE_COLD_CHARGE:
        return wb_rule_cold_charge(&c->brief.site, c->cold_c, &c->storage, &c->chemistry);
    case WB_RULE_FREEZING:
        return wb_rule_freezing(&c->brief.site, c->cold_c, &c->storage, &c->chemistry);
    case WB_RULE_VENTILATION:
        return wb_rule_ventilation(&c->brief.site, &c->storage, &c->chemistry, c->bank_series,
                                   c->bank_parallel);
    case WB_RULE_AUTONOMY:
        return wb_rule_autonomy(&c->brief, c->autonomy_days, 11);
    default:
        return wb_finding_idle(WB_N_RULES);
    }
}

static WbFinding judge_rest(const Case *c, WbRule rule)
{
    const WbDcdc *dcdc = c->without_dcdc ? NULL : &c->dcdc;
    switch ((int)rule) {
    case WB_RULE_DCDC_SOURCE:
        return wb_rule_dcdc_source(&c->brief, dcdc);
    case WB_RULE_DCDC_BUS:
        return wb_rule_dcdc_bus(dcdc, &c->bank);
    case WB_RULE_DCDC_PROFILE:
        return wb_rule_dcdc_profile(dcdc, &c->chemistry);
    case WB_RULE_DCDC_ALTERNATOR:
        return wb_rule_dcdc_alternator(&c->brief, dcdc, &c->bank);
    case WB_RULE_CHARGE_MAXIMUM:
        return wb_rule_charge_maximum(c->solar_a, dcdc, &c->storage, c->bank_parallel);
    case WB_RULE_CHARGE_MINIMUM:
        return wb_rule_charge_minimum(c->solar_a, dcdc, &c->storage, &c->chemistry,
                                      c->bank_parallel);
    case WB_RULE_SUPPLY:
        return wb_rule_supply(c->supply_wh, c->need_wh, 11);
    case WB_RULE_MONEY:
        return wb_rule_money(&c->brief, c->cost_minor);
    case WB_RULE_WEIGHT:
        return wb_rule_weight(&c->brief, c->weight_g);
    case WB_RULE_SOURCE_CIRCUITS:
    case WB_RULE_BANK_CIRCUITS:
        return wb_rule_circuits(&c->brief, rule, c->n_faults, WB_ASSUMED_INTERNAL_R);
    case WB_RULE_FITTINGS:
        return wb_rule_fittings(&c->brief, c->n_missing);
    case WB_RULE_DARK_HOURS:
        return wb_rule_dark_hours(&c->brief, c->dark_h);
    default:
        return wb_finding_idle(rule); /* no-price is counted by whoever buys */
    }
}

static WbFinding judge(const Case *c, WbRule rule)
{
    WbFinding finding = judge_array(c, rule);
    if (finding.rule == WB_N_RULES)
        finding = judge_bank(c, rule);
    return finding.rule == WB_N_RULES ? judge_rest(c, rule) : finding;
}

#endif
