/* Branch and bound over the places of a grid: at the heaviest point, either one of the open places
 * over it is taken, the likeliest first, or none of them is. */
#ifndef WB_ROOF_BRANCH_H
#define WB_ROOF_BRANCH_H

#include "greedy.h"
#include "proof_log.h"

typedef struct {
    uint8_t *open;
    int64_t *weight;
} WbBranchLevel;

typedef struct {
    const WbRoofGrid *grid;
    WbControl *control;
    uint64_t steps, step_budget; /* see WB_ROOF_NODE_STEPS */
    WbStatus status;             /* other than WB_OK: unwind */
    int at_most;
    int best;                 /* panels in best_place */
    int *best_place, *picked; /* room for at_most each */
    int root_bound;           /* holds whenever the grid holds every place */
    WbWeights weights;
    WbBranchLevel *level;
    int n_levels;
    uint8_t *scratch; /* [place] */
    int *queue;       /* [place] */
    WbProofLog *log;  /* NULL: none is kept */
} WbRoofSearch;

/* Visits of a grid point that make up one node of the budget. */
#define WB_ROOF_NODE_STEPS 1024

/* The caller sets control, steps, step_budget, at_most and log first. Free it even after a failure.
 */
WbStatus wb_roof_search_init(WbRoofSearch *search, const WbRoofGrid *grid);
void wb_roof_search_free(WbRoofSearch *search);

/* Layouts from the corners only. */
void wb_roof_search_corners(WbRoofSearch *search);
/* Until `best` is proved (status WB_OK) or status says why not. A log then holds why no layout has
 * best + 1, if `best` was at_most - 1 from the start on. */
void wb_roof_search_prove(WbRoofSearch *search, const WbRoof *roof);

#endif
