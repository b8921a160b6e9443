/* Branch and bound over the places of a grid: at the heaviest point, either one of the open places
 * over it is taken, the likeliest first, or none of them is. */
#ifndef WB_ROOF_BRANCH_H
#define WB_ROOF_BRANCH_H

#include "greedy.h"
#include "proof_log.h"
#include "search_run.h"

typedef struct {
    uint8_t *open;
    int64_t *weight;
} WbBranchLevel;

typedef struct {
    WbSearchRun run; /* its root_bound holds whenever the grid holds every place */
    const WbRoofGrid *grid;
    WbWeights weights;
    WbBranchLevel *level;
    int n_levels;
    uint8_t *scratch; /* [place] */
    int *queue;       /* [place] */
    WbProofLog *log;  /* NULL: none is kept */
} WbRoofSearch;

/* The caller sets the run and log first (see search_run.h). Free it even after a failure. */
WbStatus wb_roof_search_init(WbRoofSearch *search, const WbRoofGrid *grid);
void wb_roof_search_free(WbRoofSearch *search);

/* Layouts from the corners only. */
void wb_roof_search_corners(WbRoofSearch *search);
/* Until `best` is proved (status WB_OK) or status says why not. A log then holds why no layout has
 * best + 1, if `best` was at_most - 1 from the start on. */
void wb_roof_search_prove(WbRoofSearch *search, const WbRoof *roof);

#endif
