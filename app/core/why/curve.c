/* Kits are looked at in the order of the resource, the best so far kept; what is told of each is
 * known from the search, all but the dark hours. Those are worked out only where the curve hangs on
 * them: curve_usable.c, curve_dark.c. */
#include "curve_list.h"
#include <math.h>
#include <stdlib.h>

const WbCriterion wb_curve_resource[WB_CURVE_RESOURCES] = {WB_CRITERION_COST, WB_CRITERION_WEIGHT,
                                                           WB_CRITERION_ROOF};
const WbCriterion wb_curve_gain[WB_CURVE_GAINS] = {WB_CRITERION_USABLE, WB_CRITERION_DARK};

static double value_of(const WbLimit *limit)
{
    return limit->on && !isnan(limit->value) ? limit->value : INFINITY;
}

static double limit_of(const WbBrief *brief, WbCriterion resource)
{
    if (resource == WB_CRITERION_COST)
        return value_of(&brief->money_minor);
    return resource == WB_CRITERION_WEIGHT ? value_of(&brief->weight_kg) : INFINITY;
}

static bool is_asked_rightly(const WbPool *pool, WbCriterion resource, WbCriterion gain)
{
    bool known = false;
    for (int r = 0; r < WB_CURVE_RESOURCES; r++)
        known |= wb_curve_resource[r] == resource;
    return known && (gain == WB_CRITERION_USABLE || gain == WB_CRITERION_DARK) && pool &&
           pool->whole;
}

WbStatus wb_more_curve(const WbProblem *problem, const WbPool *pool, bool settled,
                       WbCriterion resource, WbCriterion gain, WbControl *control,
                       WbMoreCurve *curve)
{
    if (!is_asked_rightly(pool, resource, gain))
        return WB_BAD_INPUT;
    double limit = limit_of(problem->brief, resource);
    WbCurveList list = {
        .problem = problem,
        .pool = pool,
        .control = control,
        .settled = settled,
        .dark_limit = value_of(&problem->brief->dark_hours),
        .curve = {.resource = resource, .gain = gain, .limit = limit},
    };
    list.curve.reaches = limit * WB_POOL_BEYOND;
    WbStatus status = wb_bright_init(&list.bright, problem) ? WB_OK : WB_NO_MEMORY;
    if (status == WB_OK)
        status = wb_curve_list_fill(&list, gain == WB_CRITERION_USABLE);
    if (status == WB_OK)
        status = gain == WB_CRITERION_USABLE ? wb_curve_usable(&list) : wb_curve_dark_hours(&list);
    free(list.entry);
    wb_bright_free(&list.bright);
    if (status == WB_OK)
        *curve = list.curve;
    else
        wb_more_curve_free(&list.curve);
    return status;
}

void wb_more_curve_free(WbMoreCurve *curve)
{
    free(curve->step);
    *curve = (WbMoreCurve){0};
}

ptrdiff_t wb_more_curve_at(const WbMoreCurve *curve, double resource)
{
    size_t low = 0, high = curve->n;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (curve->step[middle].resource <= resource)
            low = middle + 1;
        else
            high = middle;
    }
    return (ptrdiff_t)low - 1;
}
