#include "compare.h"

WbFinding wb_finding_of(WbRule rule, double value, double limit, bool holds, WbSeverity severity)
{
    return (WbFinding){
        .rule = rule,
        .severity = holds ? WB_NOTE : severity,
        .holds = holds,
        .value = value,
        .limit = limit,
        .margin = WB_MISSING,
        .month = -1,
    };
}

static double margin_of(double left, double limit)
{
    double margin = limit > 0 ? left / limit : WB_MISSING;
    return isfinite(margin) ? margin : WB_MISSING;
}

WbFinding wb_finding_idle(WbRule rule)
{
    return wb_finding_of(rule, WB_MISSING, WB_MISSING, true, WB_NOTE);
}

WbFinding wb_finding_unchecked(WbRule rule, uint32_t assumed)
{
    WbFinding finding = wb_finding_idle(rule);
    finding.assumed = assumed;
    return finding;
}

WbFinding wb_finding_at_most(WbRule rule, double value, double limit, WbSeverity severity)
{
    WbFinding finding = wb_finding_of(rule, value, limit, value <= limit, severity);
    finding.margin = margin_of(limit - value, limit);
    return finding;
}

WbFinding wb_finding_at_least(WbRule rule, double value, double limit, WbSeverity severity)
{
    WbFinding finding = wb_finding_of(rule, value, limit, value >= limit, severity);
    finding.margin = margin_of(value - limit, limit);
    return finding;
}

WbFinding wb_finding_equal(WbRule rule, double value, double limit, WbSeverity severity)
{
    return wb_finding_of(rule, value, limit, value == limit, severity);
}

WbFinding wb_finding_needed(WbRule rule, bool there, WbSeverity severity)
{
    return wb_finding_equal(rule, there ? 1 : 0, 1, severity);
}

WbSeverity wb_limit_severity(bool on)
{
    return on ? WB_STOP : WB_NOTE;
}

int wb_nearest_bus_v(bool v12, bool v24, bool v48, double wanted_v)
{
    const int bus_v[] = {12, 24, 48};
    const bool made[] = {v12, v24, v48};
    int nearest_v = 0;
    for (int i = 0; i < 3; i++)
        if (made[i] && (nearest_v == 0 || fabs(bus_v[i] - wanted_v) < fabs(nearest_v - wanted_v)))
            nearest_v = bus_v[i];
    return nearest_v;
}
