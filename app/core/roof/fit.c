#include "branch.h"
#include <stdlib.h>

/* Larger grids first look for a layout on the thin one: small panels need no fine grid. */
enum { THIN_FIRST_POINTS = 1 << 14 };

typedef struct {
    const WbRoof *roof;
    int64_t panel_length_mm, panel_width_mm;
    uint64_t node_budget;
    WbControl *control;
    uint64_t steps;
    WbRoofFit found; /* most, bound, layout so far */
} Job;

static WbStatus keep_layout(Job *job, const WbRoofSearch *search)
{
    if (search->best <= job->found.most)
        return WB_OK;
    WbRect *layout = malloc(search->best * sizeof *layout);
    if (!layout)
        return WB_NO_MEMORY;
    for (int i = 0; i < search->best; i++)
        layout[i] = wb_grid_rect(search->grid, search->best_place[i]);
    free(job->found.layout);
    job->found.layout = layout;
    job->found.most = search->best;
    return WB_OK;
}

static bool proved(const Job *job)
{
    return job->found.most >= job->found.bound;
}

static void run(WbRoofSearch *search, Job *job, bool thin)
{
    wb_roof_search_corners(search);
    if (thin || search->status != WB_OK)
        return;
    search->best = search->best > job->found.most ? search->best : job->found.most;
    wb_roof_search_prove(search, job->roof);
}

/* Stopping and want of memory are failures, an empty budget is not. */
static WbStatus search_grid(Job *job, const WbRoofGrid *grid, bool thin)
{
    /* No two panels start at the same point. */
    int at_most = job->found.bound < grid->points ? job->found.bound : grid->points;
    WbRoofSearch search = {.control = job->control, .at_most = at_most, .steps = job->steps};
    search.step_budget = job->node_budget > UINT64_MAX / WB_ROOF_NODE_STEPS
                             ? UINT64_MAX
                             : job->node_budget * WB_ROOF_NODE_STEPS;
    WbStatus status = wb_roof_search_init(&search, grid);
    if (status == WB_OK) {
        run(&search, job, thin);
        status = search.status;
    }
    if (status == WB_OK || status == WB_BUDGET) {
        if (!thin)
            job->found.bound = status == WB_OK ? search.best : search.root_bound;
        status = keep_layout(job, &search);
    }
    job->steps = search.steps;
    wb_roof_search_free(&search);
    return status;
}

static WbStatus search_thin(Job *job)
{
    WbRoofGrid grid;
    WbStatus status =
        wb_grid_build(&grid, job->roof, job->panel_length_mm, job->panel_width_mm, true);
    if (status != WB_OK)
        return status;
    status = search_grid(job, &grid, true);
    wb_grid_free(&grid);
    return status;
}

static WbStatus search_fine(Job *job)
{
    WbRoofGrid grid;
    WbStatus status =
        wb_grid_build(&grid, job->roof, job->panel_length_mm, job->panel_width_mm, false);
    if (status == WB_BUDGET)
        return search_thin(job);
    if (status != WB_OK)
        return status;
    if (grid.points > THIN_FIRST_POINTS)
        status = search_thin(job);
    if (status == WB_OK && !proved(job))
        status = search_grid(job, &grid, false);
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

WbStatus wb_roof_most(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                      int at_most, uint64_t node_budget, WbControl *control, WbRoofFit *fit)
{
    if (!wb_roof_valid(roof) || !wb_roof_length_valid(panel_length_mm) ||
        !wb_roof_length_valid(panel_width_mm) || at_most < 0)
        return WB_BAD_INPUT;
    Job job = {.roof = roof,
               .panel_length_mm = panel_length_mm,
               .panel_width_mm = panel_width_mm,
               .node_budget = node_budget,
               .control = control};
    WbStatus status = wb_control_stopped(control) ? WB_STOPPED : WB_OK;
    if (status == WB_OK && at_most > 0 && panel_enters(roof, panel_length_mm, panel_width_mm)) {
        job.found.bound = wb_roof_area_bound(roof, panel_length_mm, panel_width_mm, at_most);
        status = job.found.bound < 0 ? WB_NO_MEMORY : WB_OK;
        if (status == WB_OK && !proved(&job))
            status = search_fine(&job);
    }
    if (status != WB_OK) {
        free(job.found.layout);
        return status;
    }
    job.found.at_most = at_most;
    job.found.nodes = (job.steps + WB_ROOF_NODE_STEPS - 1) / WB_ROOF_NODE_STEPS;
    *fit = job.found;
    return WB_OK;
}

void wb_roof_fit_free(WbRoofFit *fit)
{
    free(fit->layout);
    *fit = (WbRoofFit){0};
}

WbFitAnswer wb_roof_answer(const WbRoofFit *fit, int n_panels)
{
    if (n_panels <= fit->most)
        return WB_FITS;
    bool bound_holds = fit->bound < fit->at_most || n_panels <= fit->at_most;
    return n_panels > fit->bound && bound_holds ? WB_FITS_NOT : WB_FIT_UNDECIDED;
}
