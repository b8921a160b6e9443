/* What cold and air do to the bank, and the bank to the air. The design cold counts wherever the
 * bank stands: a parked vehicle is not heated, and the system stays connected. */
#include "compare.h"

#define VENT_CM2_H_M3 28.0 /* IEC 62485-2, from memory */

/* The coldest the bank stands in a month in use; -1: none is in use. */
static int coldest_month(const WbSite *site)
{
    int coldest = -1;
    for (int m = 0; m < WB_MONTHS; m++)
        if ((site->months >> m & 1) &&
            (coldest < 0 || wb_bank_temperature_c(site, m) < wb_bank_temperature_c(site, coldest)))
            coldest = m;
    return coldest;
}

/* A bank too cold for charging through a month in use does not work; one that only the coldest
 * night of the year catches needs an act of the owner. */
WbFinding wb_rule_cold_charge(const WbSite *site, double design_cold_c, const WbStorage *storage,
                              const WbChemistry *chemistry)
{
    if (isnan(chemistry->min_charge_c) || storage->heated)
        return wb_finding_idle(WB_RULE_COLD_CHARGE);
    int month = coldest_month(site);
    double bank_c = month < 0 ? WB_MISSING : wb_bank_temperature_c(site, month);
    if (!(bank_c < chemistry->min_charge_c))
        return wb_finding_of(WB_RULE_COLD_CHARGE, design_cold_c, chemistry->min_charge_c,
                             design_cold_c >= chemistry->min_charge_c, WB_CAUTION);
    WbFinding finding =
        wb_finding_of(WB_RULE_COLD_CHARGE, bank_c, chemistry->min_charge_c, false, WB_STOP);
    finding.month = month;
    return finding;
}

/* A caution, not a stop: a bank that is kept charged freezes far below this. */
WbFinding wb_rule_freezing(const WbSite *site, double design_cold_c, const WbStorage *storage,
                           const WbChemistry *chemistry)
{
    if (chemistry->freezing_by_depth.n == 0)
        return wb_finding_idle(WB_RULE_FREEZING);
    double freezing_c =
        wb_curve_at(&chemistry->freezing_by_depth, wb_depth_limit(storage, chemistry));
    WbFinding finding = wb_finding_of(WB_RULE_FREEZING, design_cold_c, freezing_c,
                                      design_cold_c >= freezing_c, WB_CAUTION);
    finding.assumed = isnan(storage->depth_limit) ? WB_ASSUMED_DEPTH : 0;
    return finding;
}

uint32_t wb_bank_assumed(const WbStorage *storage)
{
    return (isnan(storage->depth_limit) ? WB_ASSUMED_DEPTH : 0) |
           (isnan(storage->peukert) ? WB_ASSUMED_PEUKERT : 0);
}

static double gas_ma_ah(int64_t gassing, bool boost)
{
    if (gassing == WB_GAS_VENTED)
        return boost ? 20 : 5;
    if (gassing == WB_GAS_VALVE_REGULATED)
        return boost ? 8 : 1;
    return 0;
}

/* Cells in series, Ah of all strings. */
double wb_bank_air_m3_h(const WbStorage *storage, const WbChemistry *chemistry, int series,
                        int parallel, bool boost)
{
    double cells = round(storage->nominal_v / chemistry->cell_v) * series;
    return 0.05 * cells * gas_ma_ah(chemistry->gassing, boost) * storage->capacity_ah * parallel *
           1e-3;
}

double wb_vent_cm2(double air_m3_h)
{
    return VENT_CM2_H_M3 * air_m3_h;
}

/* The brief names no vent, so any need is told. */
WbFinding wb_rule_ventilation(const WbSite *site, const WbStorage *storage,
                              const WbChemistry *chemistry, int series, int parallel)
{
    if (chemistry->gassing == WB_GAS_NONE || !(chemistry->cell_v > 0))
        return wb_finding_idle(WB_RULE_VENTILATION);
    return wb_finding_at_most(WB_RULE_VENTILATION,
                              wb_bank_air_m3_h(storage, chemistry, series, parallel, true), 0,
                              site->sleeping_space ? WB_CAUTION : WB_NOTE);
}
