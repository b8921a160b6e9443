/* By cuts: the plain roof at hand forbids less than the true one. One panel more is looked for on
 * it. Where that is refuted, it is refuted for the true roof. Else the layout found is relaxed
 * until it lies on the true roof; where it does not, what its panels ran into is cut out of the
 * plain roof, and it is looked for again. First with cuts that are wholly forbidden, which prove
 * for every real position; where those cannot tell, with cuts of square millimetres, which prove
 * for whole millimetres. A layout is first looked for directly: corner by corner, at places that
 * are free in truth. */
#include "slanted.h"
#include "branch.h"
#include "cuts.h"
#include "one_more.h"
#include "relax.h"
#include <stdlib.h>
#include <string.h>

enum {
    ROUND_NODES = 4,             /* what a round costs beside its search, about */
    TRUTH_NODES = 2000,          /* for a look at the true places, as often as the rounds double */
    DIRECT_POINTS_MAX = 1 << 14, /* larger grids are looked through on thin lines */
    LAST_SHARE = 16,             /* of the budget, for a bound where all else left it open */
};

typedef struct {
    WbTrueFit *fit;
    WbPlainRoof plain;
    WbCutKind kind;
    int *bound;
} Pursuit;

static uint64_t nodes_left(const WbTrueFit *fit)
{
    uint64_t kept = fit->node_budget / LAST_SHARE, spent = fit->found.nodes;
    return fit->node_budget - kept > spent ? fit->node_budget - kept - spent : 0;
}

static bool apart(const WbRect *a, const WbRect *b, int64_t gap_mm)
{
    return a->x_mm + a->length_mm + gap_mm <= b->x_mm ||
           b->x_mm + b->length_mm + gap_mm <= a->x_mm ||
           a->y_mm + a->width_mm + gap_mm <= b->y_mm || b->y_mm + b->width_mm + gap_mm <= a->y_mm;
}

static bool place_ok(const void *data, const WbRect *rect)
{
    const WbTrueFit *fit = data;
    for (int i = 0; i < fit->n_pinned; i++)
        if (!apart(&fit->pinned[i], rect, fit->roof->gap_mm))
            return false;
    return wb_roof_place_ok(fit->roof, rect);
}

static bool all_ok(const WbTrueFit *fit, const WbRect *layout, int n)
{
    for (int i = 0; i < n; i++)
        if (!place_ok(fit, &layout[i]))
            return false;
    return true;
}

/* Takes the layout over. */
static void keep_layout(WbTrueFit *fit, WbRect **layout, int n)
{
    free(fit->found.layout);
    fit->found.layout = *layout;
    fit->found.most = n;
    *layout = NULL;
}

/* ---- directly ---- */

static void close_forbidden(const WbTrueFit *fit, const WbRoofGrid *grid)
{
    for (int place = 0; place < wb_grid_places(grid); place++) {
        WbRect rect = wb_grid_rect(grid, place);
        if (grid->open[place] && !place_ok(fit, &rect))
            grid->open[place] = 0;
    }
}

static WbStatus keep_picked(WbTrueFit *fit, const WbRoofSearch *search)
{
    if (search->run.best <= fit->found.most)
        return WB_OK;
    WbRect *layout = malloc((size_t)search->run.best * sizeof *layout);
    if (!layout)
        return WB_NO_MEMORY;
    for (int i = 0; i < search->run.best; i++)
        layout[i] = wb_grid_rect(search->grid, search->run.best_place[i]);
    keep_layout(fit, &layout, search->run.best);
    return WB_OK;
}

static WbStatus search_corners(WbTrueFit *fit, const WbRoofGrid *grid, int bound)
{
    WbRoofSearch search = {.run = {.control = fit->control,
                                   .at_most = bound < grid->points ? bound : grid->points,
                                   .step_budget = UINT64_MAX}};
    WbStatus status = wb_roof_search_init(&search, grid);
    if (status == WB_OK) {
        wb_roof_search_corners(&search);
        status = search.run.status;
    }
    if (status == WB_OK)
        status = keep_picked(fit, &search);
    fit->found.nodes += search.run.steps / WB_ROOF_NODE_STEPS + 1;
    wb_roof_search_free(&search);
    return status;
}

static WbStatus find_directly(Pursuit *pursuit)
{
    WbTrueFit *fit = pursuit->fit;
    const WbRoof *plain = &pursuit->plain.roof;
    WbRoofGrid grid;
    if (!wb_panel_enters(plain, fit->panel_length_mm, fit->panel_width_mm))
        return WB_OK;
    WbStatus status = wb_grid_build(&grid, plain, fit->panel_length_mm, fit->panel_width_mm, false);
    bool large = status == WB_OK && grid.points > DIRECT_POINTS_MAX;
    if (large)
        wb_grid_free(&grid);
    if (large || status == WB_BUDGET)
        status = wb_grid_build(&grid, plain, fit->panel_length_mm, fit->panel_width_mm, true);
    if (status != WB_OK)
        return status;
    close_forbidden(fit, &grid);
    status = search_corners(fit, &grid, *pursuit->bound);
    wb_grid_free(&grid);
    return status;
}

/* ---- by cuts ---- */

static WbStatus cut_all(Pursuit *pursuit, const WbRect *layout, int n, int *added)
{
    const WbTrueFit *fit = pursuit->fit;
    WbStatus status = WB_OK;
    for (int i = 0; i < n && status == WB_OK; i++)
        if (!place_ok(fit, &layout[i]))
            status = wb_cuts_against(fit->roof, &layout[i], pursuit->kind, &pursuit->plain, added);
    return status;
}

/* A layout with more panels, on the plain roof. *on: whether there is anything more to do. */
static WbStatus use_layout(Pursuit *pursuit, WbRect **layout, int n, bool *on)
{
    WbTrueFit *fit = pursuit->fit;
    bool ok = all_ok(fit, *layout, n);
    int added = 0;
    WbStatus status = ok ? WB_OK : cut_all(pursuit, *layout, n, &added);
    *on = ok || added > 0;
    if (!ok && status == WB_OK)
        ok = wb_relax(fit->roof, fit->pinned, fit->n_pinned, *layout, n);
    if (ok && status == WB_OK)
        keep_layout(fit, layout, n);
    return status;
}

/* On the plain roof; with `in_truth` only at places that are free in truth. */
static WbStatus ask_for(Pursuit *pursuit, int n, bool in_truth, uint64_t nodes, WbOneMore *more)
{
    WbTrueFit *fit = pursuit->fit;
    WbOneMoreQuestion question = {.plain = &pursuit->plain.roof,
                                  .panel_length_mm = fit->panel_length_mm,
                                  .panel_width_mm = fit->panel_width_mm,
                                  .n = n,
                                  .node_budget = nodes < nodes_left(fit) ? nodes : nodes_left(fit),
                                  .control = fit->control,
                                  .place_ok = in_truth ? place_ok : NULL,
                                  .data = fit};
    WbStatus status = wb_one_more(&question, more);
    if (status == WB_OK)
        fit->found.nodes += more->nodes + ROUND_NODES;
    return status;
}

/* At the places the cuts made so far tell of. */
static WbStatus find_in_truth(Pursuit *pursuit)
{
    WbTrueFit *fit = pursuit->fit;
    WbStatus status = WB_OK;
    bool on = true;
    while (status == WB_OK && on && fit->found.most < *pursuit->bound && nodes_left(fit) > 0) {
        WbOneMore more;
        int n = fit->found.most + 1;
        status = ask_for(pursuit, n, true, TRUTH_NODES, &more);
        if (status != WB_OK)
            return status;
        on = more.layout;
        if (on)
            keep_layout(fit, &more.layout, n);
    }
    return status;
}

/* Until the bound is reached, the cuts cannot tell or the budget is spent. */
static WbStatus pursue(Pursuit *pursuit)
{
    WbTrueFit *fit = pursuit->fit;
    WbStatus status = WB_OK;
    bool on = true;
    for (int round = 1;
         status == WB_OK && on && fit->found.most < *pursuit->bound && nodes_left(fit) > 0;
         round++) {
        WbOneMore more;
        int n = fit->found.most + 1;
        status = ask_for(pursuit, n, false, UINT64_MAX, &more);
        if (status != WB_OK)
            return status;
        on = more.layout;
        if (more.refuted)
            *pursuit->bound = fit->found.most;
        else if (on)
            status = use_layout(pursuit, &more.layout, n, &on);
        free(more.layout);
        if (status == WB_OK && on && (round & (round - 1)) == 0)
            status = find_in_truth(pursuit);
    }
    return status;
}

static void lower_mm_bound(WbTrueFit *fit)
{
    if (fit->found.mm_bound > fit->found.bound)
        fit->found.mm_bound = fit->found.bound;
}

/* Nothing proved that one more is impossible: how many at most, at least. */
static WbStatus tell_bound(Pursuit *pursuit)
{
    WbTrueFit *fit = pursuit->fit;
    WbRoofFit more;
    WbStatus status = wb_plain_most(&pursuit->plain.roof, fit->panel_length_mm, fit->panel_width_mm,
                                    fit->found.layout, fit->found.most, *pursuit->bound,
                                    fit->node_budget / LAST_SHARE + 1, fit->control, &more);
    if (status != WB_OK)
        return status;
    fit->found.nodes += more.nodes;
    *pursuit->bound = more.bound;
    if (more.most > fit->found.most && all_ok(fit, more.layout, more.most))
        keep_layout(fit, &more.layout, more.most);
    wb_roof_fit_free(&more);
    return WB_OK;
}

static WbStatus start(Pursuit *pursuit, WbTrueFit *fit, WbCutKind kind)
{
    *pursuit = (Pursuit){.fit = fit,
                         .kind = kind,
                         .bound = kind == WB_CUT_MM ? &fit->found.mm_bound : &fit->found.bound};
    return wb_cuts_start(fit->roof, fit->pinned, fit->n_pinned, &pursuit->plain);
}

/* With the cuts made so far, as wide as they may be for whole millimetres. */
static WbStatus pursue_on_mm(const Pursuit *whole)
{
    Pursuit mm;
    WbTrueFit *fit = whole->fit;
    WbStatus status = start(&mm, fit, WB_CUT_MM);
    if (status != WB_OK)
        return status;
    size_t n = whole->plain.roof.n_obstacles;
    WbObstacle *copy = realloc(mm.plain.obstacles, (n + 1) * sizeof *copy);
    if (copy) {
        if (n > 0)
            memcpy(copy, whole->plain.obstacles, n * sizeof *copy);
        mm.plain.obstacles = copy;
        mm.plain.roof.obstacles = copy;
        mm.plain.roof.n_obstacles = n;
        wb_cuts_widen(fit->roof, &mm.plain);
        status = pursue(&mm);
    } else {
        status = WB_NO_MEMORY;
    }
    wb_plain_roof_free(&mm.plain);
    return status;
}

static WbStatus answer(Pursuit *whole)
{
    WbTrueFit *fit = whole->fit;
    WbStatus status = find_directly(whole);
    if (status == WB_OK)
        status = pursue(whole);
    lower_mm_bound(fit);
    int most = fit->found.most;
    if (status == WB_OK && most < fit->found.mm_bound && nodes_left(fit) > 0)
        status = pursue_on_mm(whole);
    if (status == WB_OK && fit->found.most > most)
        status = pursue(whole);
    if (status == WB_OK && fit->found.most < fit->found.bound)
        status = tell_bound(whole);
    lower_mm_bound(fit);
    return status;
}

WbStatus wb_slanted_most(WbTrueFit *fit, WbPlainRoof *outer)
{
    Pursuit whole;
    WbStatus status = start(&whole, fit, WB_CUT_WHOLE);
    if (status != WB_OK)
        return status;
    status = answer(&whole);
    if (status == WB_OK && outer)
        *outer = whole.plain;
    else
        wb_plain_roof_free(&whole.plain);
    return status;
}
