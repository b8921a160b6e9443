/* What the two searches, over a grid (branch.h) and over a graph (clique_search.h), have alike: the
 * budget, the best layout and the bound so far. */
#ifndef WB_SEARCH_RUN_H
#define WB_SEARCH_RUN_H

#include "control.h"
#include "status.h"
#include <stdint.h>

/* Visits of a grid point that make up one node of the budget. */
#define WB_ROOF_NODE_STEPS 1024

typedef struct {
    WbControl *control;
    uint64_t steps, step_budget; /* see WB_ROOF_NODE_STEPS */
    WbStatus status;             /* other than WB_OK: unwind */
    int at_most;
    int best;                 /* panels in best_place, or known before it began */
    int *best_place, *picked; /* room for at_most each; places as the search numbers them */
    int root_bound;           /* no layout has more */
} WbSearchRun;

/* Set control, steps, step_budget, at_most and best before. False: no memory; free it then too. */
bool wb_run_open(WbSearchRun *run);
void wb_run_free(WbSearchRun *run);

/* False: stop, see status. */
bool wb_run_spend(WbSearchRun *run, uint64_t steps);
bool wb_run_all_found(const WbSearchRun *run);
/* The first n of picked, where that is more than the best. */
void wb_run_keep(WbSearchRun *run, int n);
/* Where places were closed or searched, `bound` holds only for layouts better than the best. */
void wb_run_lower_bound(WbSearchRun *run, int bound);

#endif
