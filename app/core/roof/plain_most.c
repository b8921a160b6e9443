/* The search of a plain roof: each method in turn while the question is open. */
#include "branch.h"
#include "clique_search.h"
#include "fit_job.h"
#include "plain_roof.h"
#include <stdlib.h>
#include <string.h>

/* Larger grids first look for a layout on the thin one: small panels need no fine grid. */
enum { THIN_FIRST_POINTS = 1 << 14 };
/* Graphs of more places are left alone. */
enum { GRAPH_PLACES_MAX = 6000 };

static WbStatus keep_layout(WbFitJob *job, const WbRoofGrid *grid, const WbSearchRun *run)
{
    if (run->best <= job->found.most)
        return WB_OK;
    WbRect *layout = malloc(run->best * sizeof *layout);
    if (!layout)
        return WB_NO_MEMORY;
    for (int i = 0; i < run->best; i++)
        layout[i] = wb_grid_rect(grid, run->best_place[i]);
    free(job->found.layout);
    job->found.layout = layout;
    job->found.most = run->best;
    return WB_OK;
}

/* Takes over what was learnt before, and goes on until the best is proved. */
static void prove(WbRoofSearch *search, WbFitJob *job)
{
    search->run.best = job->found.most;
    wb_roof_search_prove(search, job->roof);
    if (search->run.status == WB_OK)
        job->found.bound = search->run.best;
    else if (search->run.status == WB_BUDGET && search->run.root_bound < job->found.bound)
        job->found.bound = search->run.root_bound;
}

typedef enum { CORNERS, PROOF } Phase;

/* Stopping and want of memory are failures, an empty budget is not. */
static WbStatus search_grid(WbFitJob *job, const WbRoofGrid *grid, Phase phase)
{
    /* No two panels start at the same point. */
    int at_most = job->found.bound < grid->points ? job->found.bound : grid->points;
    WbRoofSearch search = {.run = {.control = job->control,
                                   .at_most = at_most,
                                   .steps = job->steps,
                                   .step_budget = job->step_budget}};
    WbStatus status = wb_roof_search_init(&search, grid);
    if (status == WB_OK) {
        if (phase == CORNERS)
            wb_roof_search_corners(&search);
        else
            prove(&search, job);
        job->steps = search.run.steps;
        status = search.run.status == WB_BUDGET ? WB_OK : search.run.status;
    }
    if (status == WB_OK)
        status = keep_layout(job, grid, &search.run);
    wb_roof_search_free(&search);
    return status;
}

static WbStatus search_thin(WbFitJob *job)
{
    WbRoofGrid grid;
    WbStatus status =
        wb_grid_build(&grid, job->roof, job->panel_length_mm, job->panel_width_mm, true);
    if (status != WB_OK)
        return status;
    status = search_grid(job, &grid, CORNERS);
    wb_grid_free(&grid);
    return status;
}

typedef WbStatus Method(WbFitJob *job, const WbRoofGrid *grid);

static WbStatus by_blocks(WbFitJob *job, const WbRoofGrid *grid)
{
    (void)grid;
    return wb_fit_blocks(job);
}

static WbStatus by_filling(WbFitJob *job, const WbRoofGrid *grid)
{
    (void)grid;
    return wb_fit_rectangle(job);
}

static WbStatus by_weights(WbFitJob *job, const WbRoofGrid *grid)
{
    return search_grid(job, grid, PROOF);
}

/* Filling and weights each settle at once much that the other never does: they take turns with more
 * of the steps left. */
static WbStatus search_rectangle(WbFitJob *job, const WbRoofGrid *grid)
{
    static const struct {
        Method *method;
        int percent; /* of the steps left */
    } turn[] = {{by_blocks, 10}, {by_filling, 1},  {by_weights, 1},  {by_filling, 10},
                {by_weights, 5}, {by_filling, 90}, {by_weights, 100}};
    uint64_t budget = job->step_budget;
    WbStatus status = WB_OK;
    for (size_t i = 0; i < sizeof turn / sizeof *turn && status == WB_OK; i++) {
        if (wb_fit_proved(job) || job->steps >= budget)
            break;
        job->step_budget = job->steps + (budget - job->steps) / 100 * turn[i].percent;
        status = turn[i].method(job, grid);
    }
    job->step_budget = budget;
    return status;
}

/* Takes over what was learnt before, and goes on until the best is proved. */
static WbStatus search_graph(WbFitJob *job, const WbRoofGrid *grid, const WbCliques *cliques)
{
    WbCliqueSearch search = {.cliques = cliques,
                             .run = {.control = job->control,
                                     .steps = job->steps,
                                     .step_budget = job->step_budget,
                                     .at_most = job->found.bound,
                                     .best = job->found.most}};
    WbStatus status = wb_clique_search_init(&search);
    if (status == WB_OK) {
        wb_clique_search_prove(&search);
        job->steps = search.run.steps;
        status = search.run.status;
    }
    if (status == WB_OK)
        job->found.bound = search.run.best;
    else if (status == WB_BUDGET && search.run.root_bound < job->found.bound)
        job->found.bound = search.run.root_bound;
    if (status == WB_BUDGET)
        status = WB_OK;
    if (status == WB_OK && search.run.best > job->found.most) {
        for (int i = 0; i < search.run.best; i++)
            search.run.best_place[i] = cliques->place[search.run.best_place[i]];
        status = keep_layout(job, grid, &search.run);
    }
    wb_clique_search_free(&search);
    return status;
}

/* The graph of the places that matter; where it is too large, the grid itself. */
static WbStatus prove_grid(WbFitJob *job, WbRoofGrid *grid)
{
    WbCliques cliques;
    WbStatus status = wb_grid_dominate(grid, job->roof);
    if (status != WB_OK)
        return status;
    status = wb_cliques_make(&cliques, grid, job->roof->gap_mm, GRAPH_PLACES_MAX, &job->steps);
    if (status == WB_BUDGET)
        return search_grid(job, grid, PROOF);
    if (status == WB_OK) {
        status = search_graph(job, grid, &cliques);
        wb_cliques_free(&cliques);
    }
    return status;
}

/* Each method in turn while the question is open: corners of the whole grid, where layouts pushed
 * to any side are, then the proofs. */
static WbStatus search_whole(WbFitJob *job, WbRoofGrid *grid)
{
    WbStatus status = WB_OK;
    if (grid->points > THIN_FIRST_POINTS)
        status = search_thin(job);
    if (status == WB_OK && !wb_fit_proved(job))
        status = search_grid(job, grid, CORNERS);
    if (status != WB_OK || wb_fit_proved(job))
        return status;
    status = wb_grid_prune(grid, job->roof);
    if (status != WB_OK)
        return status;
    return job->unobstructed ? search_rectangle(job, grid) : prove_grid(job, grid);
}

static WbStatus search_fine(WbFitJob *job)
{
    WbRoofGrid grid;
    WbStatus status =
        wb_grid_build(&grid, job->roof, job->panel_length_mm, job->panel_width_mm, false);
    if (status == WB_BUDGET)
        return search_thin(job);
    if (status != WB_OK)
        return status;
    status = search_whole(job, &grid);
    wb_grid_free(&grid);
    return status;
}

static bool panel_enters(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm)
{
    WbZone usable = wb_roof_usable(roof);
    int64_t length_mm = usable.right_mm - usable.left_mm,
            width_mm = usable.back_mm - usable.front_mm;
    return (panel_length_mm <= length_mm && panel_width_mm <= width_mm) ||
           (panel_width_mm <= length_mm && panel_length_mm <= width_mm);
}

static uint64_t steps_of(uint64_t nodes)
{
    return nodes > UINT64_MAX / WB_ROOF_NODE_STEPS ? UINT64_MAX : nodes * WB_ROOF_NODE_STEPS;
}

/* The layout known is the first one found. */
static WbStatus keep_known(WbFitJob *job, const WbRect *known, int n_known)
{
    if (n_known == 0)
        return WB_OK;
    job->found.layout = malloc(n_known * sizeof *job->found.layout);
    if (!job->found.layout)
        return WB_NO_MEMORY;
    memcpy(job->found.layout, known, n_known * sizeof *known);
    job->found.most = n_known;
    return WB_OK;
}

static WbStatus search(WbFitJob *job, int at_most)
{
    WbZone usable = wb_roof_usable(job->roof);
    int64_t clear_mm2 = wb_roof_area_left_mm2(job->roof, usable, 0);
    job->unobstructed =
        clear_mm2 == (usable.right_mm - usable.left_mm) * (usable.back_mm - usable.front_mm);
    job->found.bound =
        wb_roof_area_bound(job->roof, job->panel_length_mm, job->panel_width_mm, at_most);
    if (clear_mm2 < 0 || job->found.bound < 0)
        return WB_NO_MEMORY;
    return wb_fit_proved(job) ? WB_OK : search_fine(job);
}

WbStatus wb_plain_most(const WbRoof *plain, int64_t panel_length_mm, int64_t panel_width_mm,
                       const WbRect *known, int n_known, int at_most, uint64_t node_budget,
                       WbControl *control, WbRoofFit *fit)
{
    WbFitJob job = {.roof = plain,
                    .panel_length_mm = panel_length_mm,
                    .panel_width_mm = panel_width_mm,
                    .step_budget = steps_of(node_budget),
                    .control = control};
    WbStatus status = wb_control_stopped(control) ? WB_STOPPED : WB_OK;
    if (status == WB_OK)
        status = keep_known(&job, known, n_known);
    if (status == WB_OK && at_most > 0 && panel_enters(plain, panel_length_mm, panel_width_mm))
        status = search(&job, at_most);
    if (status != WB_OK) {
        free(job.found.layout);
        return status;
    }
    job.found.mm_bound = job.found.bound;
    job.found.at_most = at_most;
    job.found.nodes = (job.steps + WB_ROOF_NODE_STEPS - 1) / WB_ROOF_NODE_STEPS;
    *fit = job.found;
    return WB_OK;
}
