#include "one_more.h"
#include "branch.h"
#include "clique_search.h"
#include "plain_roof.h"
#include <stdlib.h>

/* Of each place, to find those that matter, about. */
enum { REDUCE_VISITS = 8 };
/* Larger graphs are left alone; the second, where no proof can come of it. */
enum { PLACES_MAX = 6000, TRUE_PLACES_MAX = 800 };

typedef struct {
    WbOneMoreQuestion q;
    uint64_t steps, step_budget;
    WbOneMore answer;
} Asking;

static WbStatus tell_layout(Asking *asking, const WbRoofGrid *grid, const WbCliqueSearch *search)
{
    WbRect *layout = malloc((size_t)asking->q.n * sizeof *layout);
    if (!layout)
        return WB_NO_MEMORY;
    for (int i = 0; i < asking->q.n; i++)
        layout[i] = wb_grid_rect(grid, search->cliques->place[search->run.best_place[i]]);
    asking->answer.layout = layout;
    return WB_OK;
}

static WbStatus search_graph(Asking *asking, const WbRoofGrid *grid, const WbCliques *cliques)
{
    WbCliqueSearch search = {.cliques = cliques,
                             .run = {.control = asking->q.control,
                                     .steps = asking->steps,
                                     .step_budget = asking->step_budget,
                                     .at_most = asking->q.n,
                                     .best = asking->q.n - 1}};
    WbStatus status = wb_clique_search_init(&search);
    if (status == WB_OK) {
        wb_clique_search_prove(&search);
        asking->steps = search.run.steps;
        status = search.run.status;
    }
    if (status == WB_OK && search.run.best == asking->q.n)
        status = tell_layout(asking, grid, &search);
    else if (status == WB_OK)
        asking->answer.refuted = true;
    wb_clique_search_free(&search);
    return status;
}

static void close_places(const Asking *asking, WbRoofGrid *grid)
{
    for (int place = 0; place < wb_grid_places(grid); place++) {
        if (!grid->open[place])
            continue;
        WbRect rect = wb_grid_rect(grid, place);
        grid->open[place] = asking->q.place_ok(asking->q.data, &rect);
    }
}

/* With places closed at will, one may stand well that rests against nothing. */
static WbStatus reduce(const Asking *asking, WbRoofGrid *grid)
{
    WbStatus status = WB_OK;
    if (asking->q.place_ok)
        close_places(asking, grid);
    else
        status = wb_grid_prune(grid, asking->q.plain);
    return status == WB_OK ? wb_grid_dominate(grid, asking->q.plain) : status;
}

static WbStatus search_grid(Asking *asking, WbRoofGrid *grid)
{
    WbCliques cliques;
    asking->steps += REDUCE_VISITS * (uint64_t)wb_grid_places(grid);
    WbStatus status = reduce(asking, grid);
    if (status == WB_OK)
        status = wb_cliques_make(&cliques, grid, asking->q.plain->gap_mm,
                                 asking->q.place_ok ? TRUE_PLACES_MAX : PLACES_MAX, &asking->steps);
    if (status != WB_OK)
        return status;
    if (cliques.n < asking->q.n)
        asking->answer.refuted = true;
    else
        status = search_graph(asking, grid, &cliques);
    wb_cliques_free(&cliques);
    return status;
}

/* A grid of too many points or places is left to the other methods. */
static WbStatus ask_plain_most(Asking *asking)
{
    WbRoofFit fit;
    uint64_t spent = asking->steps / WB_ROOF_NODE_STEPS;
    uint64_t budget = asking->step_budget / WB_ROOF_NODE_STEPS;
    WbStatus status =
        wb_plain_most(asking->q.plain, asking->q.panel_length_mm, asking->q.panel_width_mm, NULL, 0,
                      asking->q.n, budget > spent ? budget - spent : 0, asking->q.control, &fit);
    if (status != WB_OK)
        return status;
    asking->steps += fit.nodes * WB_ROOF_NODE_STEPS;
    asking->answer.refuted = fit.bound < asking->q.n;
    if (fit.most == asking->q.n) {
        asking->answer.layout = fit.layout;
        fit.layout = NULL;
    }
    wb_roof_fit_free(&fit);
    return WB_OK;
}

static WbStatus ask(Asking *asking)
{
    WbRoofGrid grid;
    int bound = wb_roof_area_bound(asking->q.plain, asking->q.panel_length_mm,
                                   asking->q.panel_width_mm, asking->q.n);
    if (bound < 0)
        return WB_NO_MEMORY;
    asking->answer.refuted = bound < asking->q.n;
    if (asking->answer.refuted)
        return WB_OK;
    WbStatus status = wb_grid_build(&grid, asking->q.plain, asking->q.panel_length_mm,
                                    asking->q.panel_width_mm, false);
    bool too_large = status == WB_BUDGET;
    if (status == WB_OK) {
        status = search_grid(asking, &grid);
        too_large = status == WB_BUDGET && asking->steps <= asking->step_budget;
        wb_grid_free(&grid);
    }
    if (too_large && !asking->q.place_ok)
        return ask_plain_most(asking);
    return status == WB_BUDGET ? WB_OK : status;
}

WbStatus wb_one_more(const WbOneMoreQuestion *question, WbOneMore *answer)
{
    uint64_t nodes_max = UINT64_MAX / WB_ROOF_NODE_STEPS, nodes = question->node_budget;
    Asking asking = {.q = *question,
                     .step_budget = (nodes < nodes_max ? nodes : nodes_max) * WB_ROOF_NODE_STEPS};
    WbStatus status = wb_control_stopped(question->control) ? WB_STOPPED : WB_OK;
    if (status == WB_OK &&
        !wb_panel_enters(question->plain, question->panel_length_mm, question->panel_width_mm))
        asking.answer.refuted = true;
    else if (status == WB_OK)
        status = ask(&asking);
    if (status != WB_OK)
        return status;
    asking.answer.nodes = asking.steps / WB_ROOF_NODE_STEPS + 1;
    asking.answer.refuted = asking.answer.refuted && !question->place_ok;
    *answer = asking.answer;
    return WB_OK;
}
