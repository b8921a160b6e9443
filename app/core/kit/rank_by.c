#include "rank_by.h"
#include "anchors.h"
#include <math.h>
#include <string.h>

#define STEPS_BETWEEN_ANCHORS 20
#define SLACK 1e-9 /* of a step: 0.3 kg is three steps of 0.1 kg, whatever a double makes of it */

void wb_fill_rank_by(WbProblem *problem)
{
    WbRankBy by = problem->brief->rank_by;
    for (int c = 0; c < WB_N_CRITERIA; c++)
        if (isnan(by.goal[c]))
            by.goal[c] = problem->anchor[c].full;
    for (int i = 0; i < by.n_important; i++) {
        const WbAnchor *anchor = &problem->anchor[by.important[i].criterion];
        if (isnan(by.important[i].step))
            by.important[i].step = fabs(anchor->full - anchor->none) / STEPS_BETWEEN_ANCHORS;
    }
    problem->rank_by = by;
}

int wb_rank_keys(const WbProblem *problem)
{
    switch ((WbWay)problem->rank_by.way) {
    case WB_WAY_GOALS:
        return 2;
    case WB_WAY_IMPORTANCE:
        return problem->rank_by.n_important + 1;
    case WB_WAY_SCORE:
    case WB_N_WAYS:
        break;
    }
    return 1;
}

double wb_shortfall(const WbProblem *problem, WbCriterion criterion, double x)
{
    const WbAnchor *anchor = &problem->anchor[criterion];
    double goal = problem->rank_by.goal[criterion], span = anchor->full - anchor->none;
    if (span == 0.0) /* one point only: all or nothing */
        return (wb_criterion_less_is_better(criterion) ? x <= goal : x >= goal) ? 0.0 : 1.0;
    double shortfall = (goal - x) / span;
    return wb_criterion_capped(criterion) && shortfall < 0.0 ? 0.0 : shortfall;
}

double wb_distance(const WbProblem *problem, const double figure[WB_N_CRITERIA])
{
    double largest = -INFINITY, sum = 0.0;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        if (problem->weight[c] <= 0.0) /* a figure not worked out is no number */
            continue;
        double weighted = problem->weight[c] * wb_shortfall(problem, (WbCriterion)c, figure[c]);
        sum += weighted;
        if (!(weighted <= largest))
            largest = weighted;
    }
    return isinf(largest) ? 0.0 : largest + WB_DISTANCE_SUM * sum;
}

double wb_step_of(const WbProblem *problem, const WbImportant *important, double x)
{
    WbCriterion criterion = (WbCriterion)important->criterion;
    double full = problem->anchor[criterion].full;
    if (wb_criterion_capped(criterion) && x > full)
        x = full;
    return important->step > 0.0 ? floor(x / important->step + SLACK) : x;
}

static double score_of(const WbProblem *problem, const double figure[WB_N_CRITERIA])
{
    double u[WB_N_CRITERIA];
    return wb_score_of(problem, figure, u);
}

void wb_rank_key_of(const WbProblem *problem, const double figure[WB_N_CRITERIA],
                    double key[WB_RANK_KEYS])
{
    const WbRankBy *by = &problem->rank_by;
    int n = 0;
    if (by->way == WB_WAY_GOALS)
        key[n++] = -wb_distance(problem, figure);
    for (int i = 0; by->way == WB_WAY_IMPORTANCE && i < by->n_important; i++) {
        WbCriterion criterion = (WbCriterion)by->important[i].criterion;
        double step = wb_step_of(problem, &by->important[i], figure[criterion]);
        key[n++] = wb_criterion_less_is_better(criterion) ? -step : step;
    }
    key[n] = score_of(problem, figure);
}

void wb_rank_key(const WbProblem *problem, const WbFigures *figures, double key[WB_RANK_KEYS])
{
    double figure[WB_N_CRITERIA];
    for (int c = 0; c < WB_N_CRITERIA; c++)
        figure[c] = wb_figure(figures, (WbCriterion)c);
    wb_rank_key_of(problem, figure, key);
}

bool wb_rank_key_before(int n_keys, const double *a, const WbKit *kit_a, const double *b,
                        const WbKit *kit_b)
{
    for (int i = 0; i < n_keys; i++)
        if (a[i] != b[i])
            return a[i] > b[i];
    return wb_kit_compare(NULL, kit_a, kit_b) < 0;
}

bool wb_rank_asks(const WbProblem *problem, WbCriterion criterion)
{
    const WbRankBy *by = &problem->rank_by;
    for (int i = 0; by->way == WB_WAY_IMPORTANCE && i < by->n_important; i++)
        if (by->important[i].criterion == (int)criterion)
            return true;
    return problem->weight[criterion] > 0.0;
}

void wb_rank_leave_out(WbProblem *problem, WbCriterion criterion)
{
    WbRankBy *by = &problem->rank_by;
    int left = 0;
    for (int i = 0; i < by->n_important; i++)
        if (by->important[i].criterion != (int)criterion)
            by->important[left++] = by->important[i];
    by->n_important = left;
    problem->weight[criterion] = 0.0;
}
