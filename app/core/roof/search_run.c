#include "search_run.h"
#include <stdlib.h>
#include <string.h>

bool wb_run_open(WbSearchRun *run)
{
    size_t room = (size_t)run->at_most + 1;
    run->root_bound = run->at_most;
    run->best_place = malloc(room * sizeof *run->best_place);
    run->picked = malloc(room * sizeof *run->picked);
    return run->best_place && run->picked;
}

void wb_run_free(WbSearchRun *run)
{
    free(run->best_place);
    free(run->picked);
}

bool wb_run_spend(WbSearchRun *run, uint64_t steps)
{
    run->steps += steps;
    if (wb_control_stopped(run->control))
        run->status = WB_STOPPED;
    else if (run->steps > run->step_budget)
        run->status = WB_BUDGET;
    return run->status == WB_OK;
}

bool wb_run_all_found(const WbSearchRun *run)
{
    return run->best >= run->at_most;
}

void wb_run_keep(WbSearchRun *run, int n)
{
    if (n <= run->best)
        return;
    run->best = n;
    memcpy(run->best_place, run->picked, (size_t)n * sizeof *run->picked);
}

void wb_run_lower_bound(WbSearchRun *run, int bound)
{
    if (bound < run->best)
        bound = run->best;
    if (bound < run->root_bound)
        run->root_bound = bound;
}
