/* What the bank makes and drives: system voltage, series and parallel, the inverter behind it and
 * the amps that loads draw. */
#include "compare.h"

#define HIGHEST_SHARE 1.25   /* of an inverter's volts, where none is given */
#define LOWEST_V_12V 10.0    /* the same, for each 12 V of it */
#define LEAD_ACID_END_V 1.75 /* of a cell: common practice */
#define LITHIUM_END_V 2.5    /* of a cell: cell data sheets; common practice */

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
    bool given = !isnan(inverter->max_v);
    WbFinding finding =
        wb_finding_at_most(WB_RULE_INVERTER_WINDOW, bank->charge_v,
                           given ? inverter->max_v : HIGHEST_SHARE * (double)inverter->bus_v,
                           given ? WB_STOP : WB_CAUTION);
    finding.assumed =
        (given ? 0 : WB_ASSUMED_WINDOW) | (bank->charge_v_assumed ? WB_ASSUMED_CHARGE_V : 0);
    return finding;
}

static double lowest_v(const WbInverter *inverter, uint32_t *assumed)
{
    if (!isnan(inverter->min_v))
        return inverter->min_v;
    *assumed |= WB_ASSUMED_LOWEST_V;
    return LOWEST_V_12V * (double)inverter->bus_v / 12;
}

WbFinding wb_rule_inverter_lowest(const WbInverter *inverter, const WbBankVolts *bank)
{
    if (!inverter || !(bank->nominal_v > 0))
        return wb_finding_idle(WB_RULE_INVERTER_LOWEST);
    uint32_t assumed = 0;
    WbFinding finding = wb_finding_at_most(WB_RULE_INVERTER_LOWEST, lowest_v(inverter, &assumed),
                                           bank->nominal_v, WB_STOP);
    finding.assumed = assumed;
    return finding;
}

/* NaN: the family says nothing of its cells. */
static double end_v_per_cell(const WbChemistry *chemistry, uint32_t *assumed)
{
    if (!isnan(chemistry->end_v_per_cell))
        return chemistry->end_v_per_cell;
    *assumed |= WB_ASSUMED_END_V;
    if (chemistry->family == WB_FAMILY_OTHER)
        return WB_MISSING;
    return chemistry->family == WB_FAMILY_LITHIUM ? LITHIUM_END_V : LEAD_ACID_END_V;
}

WbFinding wb_rule_inverter_cutout(const WbInverter *inverter, const WbStorage *storage,
                                  const WbChemistry *chemistry, int series)
{
    if (!inverter || !(chemistry->cell_v > 0))
        return wb_finding_idle(WB_RULE_INVERTER_CUTOUT);
    uint32_t assumed = 0;
    double cell_end_v = end_v_per_cell(chemistry, &assumed);
    if (isnan(cell_end_v))
        return wb_finding_unchecked(WB_RULE_INVERTER_CUTOUT, assumed);
    double cells = round(storage->nominal_v / chemistry->cell_v) * series;
    WbFinding finding = wb_finding_at_least(WB_RULE_INVERTER_CUTOUT, lowest_v(inverter, &assumed),
                                            cells * cell_end_v, WB_CAUTION);
    finding.assumed = assumed;
    return finding;
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

/* The inverter gives this surge to whatever asks for it, not only to the loads of the brief. */
WbFinding wb_rule_inverter_surge_draw(const WbStorage *storage, int parallel,
                                      const WbBankVolts *bank, const WbInverter *inverter)
{
    if (!inverter || !(bank->nominal_v > 0))
        return wb_finding_idle(WB_RULE_INVERTER_SURGE_DRAW);
    double surge_a =
        inverter->surge_w / wb_inverter_efficiency(inverter, inverter->surge_w) / bank->nominal_v;
    bool given = !isnan(storage->surge_discharge_a);
    WbFinding finding = wb_finding_at_most(
        WB_RULE_INVERTER_SURGE_DRAW, surge_a,
        parallel * (given ? storage->surge_discharge_a : storage->max_discharge_a), WB_CAUTION);
    finding.assumed = given ? 0 : WB_ASSUMED_SURGE_A;
    return finding;
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
