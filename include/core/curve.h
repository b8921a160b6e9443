/* What more money, weight or roof buys: the most usable capacity, or the fewest dark hours, of the
 * kits that need no more of it than so much. Exact over the pool of a ranking. */
#ifndef WB_CURVE_H
#define WB_CURVE_H

#include "control.h"
#include "pool.h"
#include <stddef.h>

/* A kit of which every other that needs no more gives less, or as much and stands behind it: of
 * those equal in both the cheapest, then the lightest, then the first by wb_kit_compare. */
typedef struct {
    size_t at; /* index in the pool */
    WbKit kit;
    double resource, gain; /* as wb_figure tells them */
} WbCurveStep;

typedef struct {
    WbCriterion resource;
    WbCriterion gain;
    double limit;      /* of the resource by the brief; INFINITY: none is on */
    double reaches;    /* nothing beyond was looked at; INFINITY: all was */
    size_t balanced;   /* kits whose year was worked out for it */
    WbCurveStep *step; /* resource rises, gain gets better, strictly */
    size_t n;
} WbMoreCurve;

#define WB_CURVE_RESOURCES 3
#define WB_CURVE_GAINS 2
extern const WbCriterion wb_curve_resource[WB_CURVE_RESOURCES]; /* cost, weight, roof */
extern const WbCriterion wb_curve_gain[WB_CURVE_GAINS];         /* usable, dark hours */

/* Beyond the brief's limit of the resource the curve goes on with the kits that this limit alone
 * stops, as far as the pool has them; only those count that hold the limit of dark hours.
 * settled: that limit was asked of the kits that work too (WbRanking.proved). Control is asked
 * often; its progress is set. WB_BAD_INPUT: another resource or gain, or a pool that is not whole.
 * WB_STOPPED, WB_NO_MEMORY: nothing is written. */
WbStatus wb_more_curve(const WbProblem *problem, const WbPool *pool, bool settled,
                       WbCriterion resource, WbCriterion gain, WbControl *control,
                       WbMoreCurve *curve);
void wb_more_curve_free(WbMoreCurve *curve);

/* The step that holds for so much of the resource: the last that needs no more; -1: none does. */
ptrdiff_t wb_more_curve_at(const WbMoreCurve *curve, double resource);

#endif
