#include "anchors.h"
#include "sides.h"

WbAnchor wb_default_anchor(const WbProblem *problem, WbCriterion criterion)
{
    const WbBrief *brief = problem->brief;
    double target_wh = brief->autonomy_target_days * problem->reference_need_wh;
    switch (criterion) {
    case WB_CRITERION_COST:
        return (WbAnchor){.full = 0.0, .none = brief->money_minor.value};
    case WB_CRITERION_WEIGHT:
        return (WbAnchor){.full = 0.0, .none = brief->weight_kg.value};
    case WB_CRITERION_USABLE:
        return (WbAnchor){.full = 3.0 * target_wh, .none = target_wh};
    case WB_CRITERION_ROOF:
        return (WbAnchor){.full = 0.0, .none = problem->clear_m2};
    case WB_CRITERION_AUTONOMY:
        return (WbAnchor){.full = 3.0 * brief->autonomy_target_days,
                          .none = brief->autonomy_target_days};
    case WB_CRITERION_SPARE:
        return (WbAnchor){.full = fmax(100.0, problem->loads.peak_ac_w), .none = 0.0};
    case WB_CRITERION_DARK:
        return (WbAnchor){.full = 0.0, .none = fmax(1.0, brief->dark_hours.value)};
    case WB_CRITERION_MARGIN:
        return (WbAnchor){.full = 0.5 * problem->reference_need_wh, .none = 0.0};
    case WB_N_CRITERIA:
        break;
    }
    return (WbAnchor){.full = 1.0, .none = 0.0};
}

void wb_fill_anchors(WbProblem *problem)
{
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        WbAnchor anchor = problem->brief->anchor[c];
        WbAnchor open = wb_default_anchor(problem, (WbCriterion)c);
        if (isnan(anchor.full))
            anchor.full = open.full;
        if (isnan(anchor.none))
            anchor.none = open.none;
        problem->anchor[c] = anchor;
    }
}

void wb_fill_weights(WbProblem *problem)
{
    double sum = 0.0;
    for (int c = 0; c < WB_N_CRITERIA; c++)
        sum += problem->brief->weight[c];
    for (int c = 0; c < WB_N_CRITERIA; c++)
        problem->weight[c] = sum > 0.0 ? problem->brief->weight[c] / sum : 0.0;
}
