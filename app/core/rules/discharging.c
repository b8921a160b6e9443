/* What the bank makes and drives: system voltage, series and parallel, the inverter behind it and
 * the amps that loads draw. */
#include "compare.h"
#include "load_window.h"

WbFinding wb_rule_bank_system(const WbBrief *brief, const WbBankVolts *bank)
{
    const uint32_t tried = brief->system_v;
    int near_v = wb_nearest_bus_v(tried & 1, tried & 2, tried & 4, bank->nominal_v);
    bool allowed = bank->system_v != 0 && bank->system_v == near_v;
    return wb_finding_of(WB_RULE_BANK_SYSTEM, bank->nominal_v, near_v, allowed, WB_STOP);
}

WbFinding wb_rule_bank_series(const WbStorage *storage, int series)
{
    return wb_finding_at_most(WB_RULE_BANK_SERIES, series, (double)storage->max_series, WB_STOP);
}

WbFinding wb_rule_bank_parallel(const WbStorage *storage, int parallel)
{
    return wb_finding_at_most(WB_RULE_BANK_PARALLEL, parallel, (double)storage->max_parallel,
                              WB_STOP);
}

/* 0: no system voltage, or not known. */
static int system_v_of(double volts)
{
    static const int system_v[] = {12, 24, 48};
    for (int i = 0; i < 3; i++)
        if (volts >= system_v[i] / 1.2 && volts <= system_v[i] * 1.25)
            return system_v[i];
    return 0;
}

static bool is_dc_in_use(const WbBrief *brief, const WbLoad *load)
{
    bool used = false;
    for (int m = 0; m < WB_MONTHS; m++)
        used |= (brief->site.months >> m & 1) && wb_load_runs(load, m);
    return used && !load->ac;
}

const WbLoad *wb_load_of_voltage(const WbBrief *brief, const WbBankVolts *bank)
{
    const WbLoad *same = NULL, *unknown = NULL;
    for (size_t i = 0; i < brief->n_loads && bank->system_v != 0; i++) {
        const WbLoad *load = &brief->loads[i];
        int made_for_v = system_v_of(load->volts);
        if (!is_dc_in_use(brief, load))
            continue;
        if (made_for_v != 0 && made_for_v != bank->system_v)
            return load;
        if (made_for_v != 0 && !same)
            same = load;
        if (isnan(load->volts) && !unknown)
            unknown = load;
    }
    return unknown && bank->system_v != 12 ? unknown : same;
}

WbFinding wb_rule_load_voltage(const WbBrief *brief, const WbBankVolts *bank)
{
    const WbLoad *load = wb_load_of_voltage(brief, bank);
    if (!load)
        return wb_finding_idle(WB_RULE_LOAD_VOLTAGE);
    bool same = system_v_of(load->volts) == bank->system_v;
    return wb_finding_of(WB_RULE_LOAD_VOLTAGE, load->volts, bank->system_v, same,
                         isnan(load->volts) ? WB_NOTE : WB_CAUTION);
}

WbFinding wb_rule_no_inverter(const WbLoadBudget *loads, const WbInverter *inverter)
{
    if (!loads->any_ac)
        return wb_finding_idle(WB_RULE_NO_INVERTER);
    return wb_finding_needed(WB_RULE_NO_INVERTER, inverter != NULL, WB_STOP);
}

WbFinding wb_rule_inverter_bus(const WbInverter *inverter, const WbBankVolts *bank)
{
    if (!inverter || bank->system_v == 0)
        return wb_finding_idle(WB_RULE_INVERTER_BUS);
    return wb_finding_equal(WB_RULE_INVERTER_BUS, bank->system_v, (double)inverter->bus_v, WB_STOP);
}

WbFinding wb_rule_inverter_window(const WbInverter *inverter, const WbBankVolts *bank)
{
    if (!inverter)
        return wb_finding_idle(WB_RULE_INVERTER_WINDOW);
    if (isnan(inverter->max_v))
        return wb_finding_unchecked(WB_RULE_INVERTER_WINDOW, WB_ASSUMED_WINDOW);
    return wb_finding_at_most(WB_RULE_INVERTER_WINDOW, bank->charge_v, inverter->max_v, WB_STOP);
}

WbFinding wb_rule_inverter_continuous(const WbLoadBudget *loads, const WbInverter *inverter)
{
    if (!inverter)
        return wb_finding_idle(WB_RULE_INVERTER_CONTINUOUS);
    return wb_finding_at_most(WB_RULE_INVERTER_CONTINUOUS, loads->peak_ac_w, inverter->continuous_w,
                              WB_STOP);
}

WbFinding wb_rule_inverter_surge(const WbLoadBudget *loads, const WbInverter *inverter)
{
    if (!inverter)
        return wb_finding_idle(WB_RULE_INVERTER_SURGE);
    return wb_finding_at_most(WB_RULE_INVERTER_SURGE, loads->surge_ac_w, inverter->surge_w,
                              WB_STOP);
}

WbFinding wb_rule_waveform(const WbLoadBudget *loads, const WbInverter *inverter)
{
    if (!inverter || !loads->needs_pure_sine)
        return wb_finding_idle(WB_RULE_WAVEFORM);
    return wb_finding_needed(WB_RULE_WAVEFORM, inverter->waveform == WB_WAVE_PURE_SINE, WB_STOP);
}

WbFinding wb_rule_inverter_draw(const WbStorage *storage, int parallel, const WbBankVolts *bank,
                                const WbInverter *inverter)
{
    if (!inverter || !(bank->nominal_v > 0))
        return wb_finding_idle(WB_RULE_INVERTER_DRAW);
    double full_a = inverter->continuous_w /
                    wb_inverter_efficiency(inverter, inverter->continuous_w) / bank->nominal_v;
    return wb_finding_at_most(WB_RULE_INVERTER_DRAW, full_a, parallel * storage->max_discharge_a,
                              WB_STOP);
}

/* Amps at the terminals; AC loads go unserved without an inverter. */
static double terminal_a(double dc_w, double ac_w, const WbInverter *inverter, double nominal_v)
{
    double through_w = inverter && ac_w > 0 ? ac_w / wb_inverter_efficiency(inverter, ac_w) : 0;
    return (dc_w + through_w) / nominal_v;
}

/* Two pairs are compared, everything running against the continuous limit and one load starting
 * against the limit for seconds; told is the one that uses more of its limit. */
WbFinding wb_rule_peak_draw(const WbLoadBudget *loads, const WbStorage *storage, int parallel,
                            const WbBankVolts *bank, const WbInverter *inverter)
{
    if (!(bank->nominal_v > 0))
        return wb_finding_idle(WB_RULE_PEAK_DRAW);
    double run_a = terminal_a(loads->peak_dc_w, loads->peak_ac_w, inverter, bank->nominal_v);
    double start_dc_a = terminal_a(loads->surge_dc_w, loads->peak_ac_w, inverter, bank->nominal_v);
    double start_ac_a = terminal_a(loads->peak_dc_w, loads->surge_ac_w, inverter, bank->nominal_v);
    double start_a = fmax(start_dc_a, start_ac_a);
    bool given = !isnan(storage->surge_discharge_a);
    double run_limit_a = parallel * storage->max_discharge_a;
    double start_limit_a = given ? parallel * storage->surge_discharge_a : run_limit_a;
    if (run_a * start_limit_a >= start_a * run_limit_a)
        return wb_finding_at_most(WB_RULE_PEAK_DRAW, run_a, run_limit_a, WB_STOP);
    WbFinding finding = wb_finding_at_most(WB_RULE_PEAK_DRAW, start_a, start_limit_a, WB_STOP);
    finding.assumed = given ? 0 : WB_ASSUMED_SURGE_A;
    return finding;
}
