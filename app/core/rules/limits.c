/* The limits and targets of the brief: roof, bay, money, weight, autonomy, supply. */
#include "compare.h"

/* At most `most` were laid out and more than `bound` is proved impossible; between them the fit is
 * undecided, which is the next rule's to say. */
WbFinding wb_rule_roof_fit(const WbBrief *brief, const WbRoofFit *fit, int n_panels)
{
    int limit = n_panels <= fit->most ? fit->most : fit->bound;
    return wb_finding_at_most(WB_RULE_ROOF_FIT, n_panels, limit, wb_limit_severity(brief->roof_on));
}

WbFinding wb_rule_roof_undecided(const WbBrief *brief, const WbRoofFit *fit, int n_panels)
{
    if (n_panels <= fit->most || n_panels > fit->bound)
        return wb_finding_idle(WB_RULE_ROOF_UNDECIDED);
    return wb_finding_at_most(WB_RULE_ROOF_UNDECIDED, n_panels, fit->most,
                              wb_limit_severity(brief->roof_on));
}

/* Whole grams, so that a sum typed as a limit is met and not missed by a rounding; of panel and
 * mount together, as in the weight of the kit. */
static int64_t whole_g(const WbPanel *panel)
{
    return llround((panel->part.weight_kg + panel->mount_kg) * 1000);
}

WbFinding wb_rule_roof_load(const WbBrief *brief, const WbPanel *panel, int n_panels)
{
    if (isnan(brief->roof.max_load_kg))
        return wb_finding_idle(WB_RULE_ROOF_LOAD);
    return wb_finding_at_most(WB_RULE_ROOF_LOAD, (double)(n_panels * whole_g(panel)) / 1000,
                              brief->roof.max_load_kg, WB_STOP);
}

WbFinding wb_rule_roof_height(const WbBrief *brief, const WbPanel *panel)
{
    if (brief->roof.max_height_mm == 0)
        return wb_finding_idle(WB_RULE_ROOF_HEIGHT);
    return wb_finding_at_most(WB_RULE_ROOF_HEIGHT,
                              (double)(brief->roof.standoff_mm + panel->thickness_mm),
                              (double)brief->roof.max_height_mm, WB_STOP);
}

/* A fit that was not decided counts as none: a kit is never called working on a guess. No margin:
 * how many more would stand there is not known. */
WbFinding wb_rule_bay_fit(const WbBrief *brief, WbFitAnswer answer, int n_batteries)
{
    if (brief->bay.length_mm == 0)
        return wb_finding_idle(WB_RULE_BAY_FIT);
    int most = answer == WB_FITS ? n_batteries : n_batteries - 1;
    return wb_finding_of(WB_RULE_BAY_FIT, n_batteries, most, answer == WB_FITS,
                         wb_limit_severity(brief->bay_on));
}

WbFinding wb_rule_autonomy(const WbBrief *brief, double autonomy_days, int worst_month)
{
    WbFinding finding =
        wb_finding_at_least(WB_RULE_AUTONOMY, autonomy_days, brief->autonomy_target_days, WB_STOP);
    finding.month = worst_month;
    return finding;
}

WbFinding wb_rule_supply(double supply_wh, double need_wh, int worst_month)
{
    WbFinding finding = wb_finding_at_least(WB_RULE_SUPPLY, supply_wh, need_wh, WB_STOP);
    finding.month = worst_month;
    return finding;
}

WbFinding wb_rule_money(const WbBrief *brief, int64_t cost_minor)
{
    if (isnan(brief->money_minor.value))
        return wb_finding_idle(WB_RULE_MONEY);
    return wb_finding_at_most(WB_RULE_MONEY, (double)cost_minor, brief->money_minor.value,
                              wb_limit_severity(brief->money_minor.on));
}

WbFinding wb_rule_weight(const WbBrief *brief, int64_t weight_g)
{
    if (isnan(brief->weight_kg.value))
        return wb_finding_idle(WB_RULE_WEIGHT);
    return wb_finding_at_most(WB_RULE_WEIGHT, (double)weight_g / 1000, brief->weight_kg.value,
                              wb_limit_severity(brief->weight_kg.on));
}

WbFinding wb_rule_dark_hours(const WbBrief *brief, double dark_h)
{
    if (isnan(brief->dark_hours.value) || isnan(dark_h))
        return wb_finding_idle(WB_RULE_DARK_HOURS);
    return wb_finding_at_most(WB_RULE_DARK_HOURS, dark_h, brief->dark_hours.value,
                              wb_limit_severity(brief->dark_hours.on));
}

WbFinding wb_rule_circuits(const WbBrief *brief, WbRule rule, int faults, uint32_t assumed)
{
    if (!brief->wiring.on)
        return wb_finding_idle(rule);
    WbFinding finding = wb_finding_at_most(rule, faults, 0, WB_STOP);
    finding.assumed = assumed;
    return finding;
}

WbFinding wb_rule_fittings(const WbBrief *brief, int missing)
{
    return brief->wiring.on ? wb_finding_at_most(WB_RULE_FITTINGS, missing, 0, WB_CAUTION)
                            : wb_finding_idle(WB_RULE_FITTINGS);
}
