/* Upper bound by weights on grid points.
 *
 * A point lies under at most one panel. With a weight w >= 0 on every point and w(p) the sum of
 * the weights under place p, no layout has more panels than
 *     sum of w + sum over open places of max(0, 1 - w(p)),
 * the Lagrangian of the set-packing programme (one row per point). Weights are whole numbers of
 * 1 / WB_WEIGHT_ONE, sums are exact: whatever the weights, the bound is a proof.
 * They are improved by subgradient steps of Polyak's length. */
#ifndef WB_ROOF_BOUND_H
#define WB_ROOF_BOUND_H

#include "roof_grid.h"

#define WB_WEIGHT_ONE ((int64_t)1 << 30)

typedef struct {
    const WbRoofGrid *grid;
    int64_t *weight; /* [point], 0..WB_WEIGHT_ONE; the caller's */
    uint8_t *open;   /* [place]; the caller's */
    int64_t total;   /* the bound of the last evaluation, in 1 / WB_WEIGHT_ONE */
    int64_t best;    /* the least since wb_weights_restart */
    int64_t *prefix; /* 2-D prefix sums of weight, (columns + 1) x (rows + 1) */
    int32_t *cover;  /* open places under weight 1 that cover the point, same size */
    double *course;  /* [point]: the way the weights moved last */
    float *share; /* [place]: how often of late it was under weight 1; near a solution of the LP */
    double step;  /* share of Polyak's length */
    int stalled;  /* evaluations since `best` fell */
} WbWeights;

WbStatus wb_weights_init(WbWeights *weights, const WbRoofGrid *grid);
void wb_weights_free(WbWeights *weights);

/* Takes up a subproblem: its weights and open places. Points no open place covers get weight 0. */
void wb_weights_restart(WbWeights *weights, int64_t *weight, uint8_t *open);

/* Weights in proportion to the area each point stands for: the area bound. */
void wb_weights_from_area(const WbRoofGrid *grid, const WbRoof *roof, int64_t *weight);

/* Evaluates the bound at the present weights. */
void wb_weights_evaluate(WbWeights *weights);
/* Moves the weights after an evaluation, towards a bound just under `need`. False: no change. */
bool wb_weights_step(WbWeights *weights, int need);

/* Sum of the weights under a place; of the last evaluation. */
int64_t wb_weights_under(const WbWeights *weights, int place);

/* Closes every place that no layout of `need` panels can use, by the last evaluation: with that
 * place fixed, the bound is below `need`. Answers how many it closed. */
int wb_weights_close(WbWeights *weights, int need);

#endif
