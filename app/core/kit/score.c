#include "kit.h"
#include <math.h>

double wb_figure(const WbFigures *figures, WbCriterion criterion)
{
    switch (criterion) {
    case WB_CRITERION_COST:
        return (double)figures->cost_minor;
    case WB_CRITERION_WEIGHT:
        return (double)figures->weight_g / 1000.0;
    case WB_CRITERION_USABLE:
        return figures->usable_wh;
    case WB_CRITERION_ROOF:
        return (double)figures->roof_area_mm2 / 1e6;
    case WB_CRITERION_AUTONOMY:
        return figures->autonomy_days;
    case WB_CRITERION_SPARE:
        return figures->spare_w;
    case WB_CRITERION_DARK:
        return figures->dark_h;
    case WB_CRITERION_MARGIN:
        return figures->supply_margin_wh;
    case WB_N_CRITERIA:
        break;
    }
    return 0.0;
}

bool wb_criterion_less_is_better(WbCriterion criterion)
{
    return criterion == WB_CRITERION_COST || criterion == WB_CRITERION_WEIGHT ||
           criterion == WB_CRITERION_ROOF || criterion == WB_CRITERION_DARK;
}

bool wb_criterion_capped(WbCriterion criterion)
{
    return !wb_criterion_less_is_better(criterion);
}

double wb_worth(const WbAnchor *anchor, WbCriterion criterion, double x)
{
    double span = anchor->full - anchor->none;
    double u;
    if (span == 0.0) /* one point only: all or nothing */
        u = (wb_criterion_less_is_better(criterion) ? x <= anchor->full : x >= anchor->full) ? 1.0
                                                                                             : 0.0;
    else
        u = (x - anchor->none) / span;
    return wb_criterion_capped(criterion) && u > 1.0 ? 1.0 : u;
}

double wb_score(const WbProblem *problem, const WbFigures *figures, double u[WB_N_CRITERIA])
{
    double figure[WB_N_CRITERIA];
    for (int c = 0; c < WB_N_CRITERIA; c++)
        figure[c] = wb_figure(figures, (WbCriterion)c);
    return wb_score_of(problem, figure, u);
}

double wb_score_of(const WbProblem *problem, const double figure[WB_N_CRITERIA],
                   double u[WB_N_CRITERIA])
{
    double score = 0.0;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        u[c] = wb_worth(&problem->anchor[c], (WbCriterion)c, figure[c]);
        if (problem->weight[c] > 0.0) /* a figure not worked out is no number */
            score += problem->weight[c] * u[c];
    }
    return score;
}
