#include "second_order.h"
#include <math.h>
#include <string.h>

/* 1: less is better; -1: more is better, enough is enough. */
static const int sign[WB_N_CRITERIA] = {
    [WB_CRITERION_COST] = 1,      [WB_CRITERION_WEIGHT] = 1, [WB_CRITERION_USABLE] = -1,
    [WB_CRITERION_ROOF] = 1,      [WB_CRITERION_DARK] = 1,   [WB_CRITERION_SPARE] = -1,
    [WB_CRITERION_AUTONOMY] = -1, [WB_CRITERION_MARGIN] = -1};

static double weight_of(const WbBrief *brief, int c)
{
    double sum = 0;
    for (int i = 0; i < WB_N_CRITERIA; i++)
        sum += brief->weight[i];
    return sum > 0 ? brief->weight[c] / sum : 0;
}

static double score(const WbProblem *problem, const double x[WB_N_CRITERIA])
{
    double sum = 0;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        const WbAnchor *anchor = &problem->anchor[c];
        double span = anchor->full - anchor->none;
        double u = span != 0 ? (x[c] - anchor->none) / span : sign[c] * (anchor->full - x[c]) >= 0;
        if (weight_of(problem->brief, c) > 0)
            sum += weight_of(problem->brief, c) * (sign[c] < 0 && u > 1 ? 1 : u);
    }
    return sum;
}

static double distance(const WbProblem *problem, const double x[WB_N_CRITERIA])
{
    double most = -INFINITY, sum = 0;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        double goal = problem->brief->rank_by.goal[c], weight = weight_of(problem->brief, c);
        if (isnan(goal))
            goal = problem->anchor[c].full;
        double span = problem->anchor[c].full - problem->anchor[c].none;
        double missing = span != 0 ? (goal - x[c]) / span : sign[c] * (goal - x[c]) < 0;
        if (sign[c] < 0 && missing < 0)
            missing = 0;
        if (weight > 0) {
            most = fmax(most, weight * missing);
            sum += weight * missing;
        }
    }
    return isinf(most) ? 0 : most + sum / 1000;
}

static double steps(const WbProblem *problem, const WbImportant *important, double x)
{
    const WbAnchor *anchor = &problem->anchor[important->criterion];
    double step = important->step, n = sign[important->criterion];
    if (isnan(step))
        step = fabs(anchor->full - anchor->none) / 20;
    if (n < 0)
        x = fmin(x, anchor->full);
    return n * (step > 0 ? floor(x / step + 1e-9) : x);
}

int second_order(const WbProblem *problem, const double a[WB_N_CRITERIA],
                 const double b[WB_N_CRITERIA])
{
    const WbRankBy *by = &problem->brief->rank_by;
    if (by->way == WB_WAY_GOALS && fabs(distance(problem, a) - distance(problem, b)) > 0)
        return distance(problem, a) < distance(problem, b) ? -1 : 1;
    if (by->way == WB_WAY_IMPORTANCE)
        for (int i = 0; i < by->n_important; i++) {
            int c = by->important[i].criterion;
            double of_a = steps(problem, &by->important[i], a[c]);
            double of_b = steps(problem, &by->important[i], b[c]);
            if (of_a < of_b || of_a > of_b)
                return of_a < of_b ? -1 : 1;
        }
    double lead = score(problem, a) - score(problem, b);
    return lead > 0 ? -1 : lead < 0;
}

/* Goals and steps about as large as the figures of random kits. */
void random_way(WbRandom *random, WbBrief *brief)
{
    static const double usual[WB_N_CRITERIA] = {100000, 50, 2000, 2, 2, 300, 100, 300};
    WbRankBy *by = &brief->rank_by;
    memset(by, 0, sizeof *by);
    by->way = (int)wb_random_below(random, WB_N_WAYS);
    for (int c = 0; c < WB_N_CRITERIA; c++)
        by->goal[c] =
            wb_random_below(random, 3) ? usual[c] * 2 * wb_random_unit(random) : WB_MISSING;
    int n = 1 + (int)wb_random_below(random, 5);
    uint32_t taken = 0;
    while (by->n_important < n) {
        /* Dark hours are dear to know. */
        int c = (int)wb_random_below(random, WB_N_CRITERIA);
        if (taken >> c & 1 || (c == WB_CRITERION_DARK && wb_random_below(random, 4)))
            continue;
        taken |= 1u << c;
        double step = usual[c] * wb_random_unit(random);
        by->important[by->n_important++] =
            (WbImportant){c, wb_random_below(random, 3)   ? step
                             : wb_random_below(random, 2) ? 0
                                                          : WB_MISSING};
    }
}
