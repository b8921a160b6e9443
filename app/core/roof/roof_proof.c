/* Makes proofs. With slants and circles a proof is made on an outer roof: the one on which the
 * search refuted so many panels, for it has few strips; and where that fails, on staircases from a
 * coarse one to one of 1 mm. */
#include "roof_proof.h"
#include "branch.h"
#include "clique_search.h"
#include "proof_keep.h"
#include "slanted.h"
#include <stdlib.h>
#include <string.h>

/* An unobstructed rectangle: one in so many nodes goes to the weights, the others to the search. */
enum { WEIGHTS_SHARE = 32 };
/* With obstacles: so much before the graph is asked, whose proofs are longer to follow. */
enum { WEIGHTS_FIRST_SHARE = 4, GRAPH_PLACES_MAX = 6000 };
/* A search for layouts begins with fewer panels than fit, so its steps aim lower than n; a proof
 * that aims just below n takes steps too small to get there. */
enum { ROOT_AIM = 3 };
/* Of the budget, with slants: so much is left for the staircases after the proof on cuts. */
enum { STAIRS_SHARE = 3 };

typedef struct {
    const WbRoof *plain;
    int64_t panel_length_mm, panel_width_mm;
    uint64_t node_budget, nodes;
    WbControl *control;
    WbRoofProof *proof;
} Prover;

static bool strips_within(const WbRoof *plain)
{
    WbZone usable = wb_roof_usable(plain);
    for (size_t i = 0; i < plain->n_obstacles; i++) {
        WbZone zone = wb_obstacle_zone(&plain->obstacles[i]);
        if (zone.left_mm < usable.right_mm && zone.right_mm > usable.left_mm &&
            zone.front_mm < usable.back_mm && zone.back_mm > usable.front_mm)
            return true;
    }
    return false;
}

static void drop_steps(WbRoofProof *proof)
{
    free(proof->points);
    free(proof->places);
    free(proof->steps);
    proof->points = NULL;
    proof->places = NULL;
    proof->steps = NULL;
    proof->n_points = proof->n_places = proof->n_steps = 0;
}

static uint64_t steps_of(uint64_t nodes)
{
    return nodes > UINT64_MAX / WB_ROOF_NODE_STEPS ? UINT64_MAX : nodes * WB_ROOF_NODE_STEPS;
}

/* How a search that was logged has ended. */
static WbStatus conclude(Prover *prover, const WbSearchRun *run, const WbProofLog *log)
{
    prover->nodes += run->steps / WB_ROOF_NODE_STEPS + 1;
    if (run->status == WB_OK && (run->best >= run->at_most || log->full))
        return WB_BUDGET;
    return run->status;
}

static WbStatus search_with_log(Prover *prover, const WbRoofGrid *grid, uint64_t nodes_max)
{
    int n = prover->proof->n_panels;
    WbProofLog log;
    WbStatus status = wb_proof_log_init(&log, grid, prover->proof);
    uint64_t left = prover->node_budget - prover->nodes;
    uint64_t nodes = left < nodes_max ? left : nodes_max;
    WbRoofSearch search = {
        .run = {.control = prover->control, .at_most = n, .step_budget = steps_of(nodes)},
        .log = &log};
    if (status == WB_OK)
        status = wb_roof_search_init(&search, grid);
    if (status == WB_OK) {
        wb_roof_search_corners(&search);
        if (search.run.best < n) {
            search.run.best = n - 1;
            wb_roof_search_prove(&search, prover->plain);
        }
        status = conclude(prover, &search.run, &log);
    }
    wb_roof_search_free(&search);
    wb_proof_log_free(&log);
    return status;
}

/* No two panels start at one point. */
static WbStatus tell_places_are_few(Prover *prover, const WbRoofGrid *grid)
{
    WbProofLog log;
    WbStatus status = wb_proof_log_init(&log, grid, prover->proof);
    wb_proof_log_few_points(&log);
    if (status == WB_OK && log.full)
        status = WB_BUDGET;
    wb_proof_log_free(&log);
    return status;
}

typedef WbStatus Way(Prover *prover, WbRoofGrid *grid, uint64_t nodes_max);

/* On the grid of the plain roof, pruned. */
static WbStatus prove_by(Way *way, Prover *prover, uint64_t nodes_max)
{
    WbRoofGrid grid;
    WbStatus status =
        wb_grid_build(&grid, prover->plain, prover->panel_length_mm, prover->panel_width_mm, false);
    if (status != WB_OK)
        return status;
    status = wb_grid_prune(&grid, prover->plain);
    if (status == WB_OK)
        status = way(prover, &grid, nodes_max);
    wb_grid_free(&grid);
    if (status == WB_OK)
        prover->proof->kind = WB_PROOF_WEIGHTS;
    else
        drop_steps(prover->proof);
    return status;
}

static WbStatus by_weights(Prover *prover, WbRoofGrid *grid, uint64_t nodes_max)
{
    return prover->proof->n_panels > grid->points ? tell_places_are_few(prover, grid)
                                                  : search_with_log(prover, grid, nodes_max);
}

static WbStatus search_graph_with_log(Prover *prover, const WbRoofGrid *grid,
                                      const WbCliques *cliques, uint64_t step_budget)
{
    int n = prover->proof->n_panels;
    WbProofLog log;
    WbStatus status = wb_proof_log_init(&log, grid, prover->proof);
    WbCliqueSearch search = {.run = {.control = prover->control,
                                     .step_budget = step_budget,
                                     .at_most = n,
                                     .best = n - 1},
                             .cliques = cliques,
                             .log = &log,
                             .root_aim = ROOT_AIM};
    if (status == WB_OK)
        status = wb_clique_search_init(&search);
    if (status == WB_OK) {
        wb_clique_search_prove(&search);
        status = conclude(prover, &search.run, &log);
    }
    wb_clique_search_free(&search);
    wb_proof_log_free(&log);
    return status;
}

static int count_open(const WbRoofGrid *grid)
{
    int n = 0;
    for (int place = 0; place < wb_grid_places(grid); place++)
        n += grid->open[place];
    return n;
}

/* By the places that no other can stand for. */
static WbStatus by_graph(Prover *prover, WbRoofGrid *grid, uint64_t nodes_max)
{
    WbCliques cliques;
    uint64_t visits = 0;
    if (count_open(grid) > WB_PROOF_KEEP_MAX)
        return WB_BUDGET;
    WbStatus status = wb_grid_dominate(grid, prover->plain);
    if (status == WB_OK)
        status = wb_cliques_make(&cliques, grid, prover->plain->gap_mm, GRAPH_PLACES_MAX, &visits);
    if (status != WB_OK)
        return status;
    prover->nodes += visits / WB_ROOF_NODE_STEPS + 1;
    status = search_graph_with_log(prover, grid, &cliques, steps_of(nodes_max));
    wb_cliques_free(&cliques);
    return status;
}

static WbStatus prove_by_search(Prover *prover)
{
    if (prover->nodes >= prover->node_budget)
        return WB_BUDGET;
    WbRoofFit fit;
    int n = prover->proof->n_panels;
    WbStatus status =
        wb_plain_most(prover->plain, prover->panel_length_mm, prover->panel_width_mm, NULL, 0, n,
                      prover->node_budget - prover->nodes, prover->control, &fit);
    if (status != WB_OK)
        return status;
    prover->nodes += fit.nodes;
    if (fit.bound < n)
        prover->proof->kind = WB_PROOF_SEARCH;
    else
        status = WB_BUDGET;
    wb_roof_fit_free(&fit);
    return status;
}

/* Nearly always one set of weights does, soon; the graph settles what takes many cases, unless it
 * is too large. */
static WbStatus prove_with_strips(Prover *prover)
{
    WbStatus status = prove_by(by_weights, prover, prover->node_budget / WEIGHTS_FIRST_SHARE);
    if (status == WB_BUDGET && prover->nodes < prover->node_budget)
        status = prove_by(by_graph, prover, prover->node_budget - prover->nodes);
    return status == WB_BUDGET && prover->nodes < prover->node_budget
               ? prove_by(by_weights, prover, UINT64_MAX)
               : status;
}

static WbStatus prove_plain(Prover *prover)
{
    int n = prover->proof->n_panels;
    if (wb_control_stopped(prover->control))
        return WB_STOPPED;
    if (!wb_panel_enters(prover->plain, prover->panel_length_mm, prover->panel_width_mm)) {
        prover->proof->kind = WB_PROOF_SIZE;
        return WB_OK;
    }
    int bound =
        wb_roof_area_bound(prover->plain, prover->panel_length_mm, prover->panel_width_mm, n);
    if (bound < 0)
        return WB_NO_MEMORY;
    if (bound < n) {
        prover->proof->kind = WB_PROOF_AREA;
        return WB_OK;
    }
    if (prover->nodes >= prover->node_budget)
        return WB_BUDGET;
    if (strips_within(prover->plain))
        return prove_with_strips(prover);
    WbStatus status = prove_by(by_weights, prover, prover->node_budget / WEIGHTS_SHARE);
    return status == WB_BUDGET ? prove_by_search(prover) : status;
}

static WbStatus keep_strips(WbRoofProof *proof, const WbRoof *plain)
{
    free(proof->strips);
    proof->n_strips = 0;
    proof->strips = malloc((plain->n_obstacles + 1) * sizeof *proof->strips);
    if (!proof->strips)
        return WB_NO_MEMORY;
    for (size_t i = 0; i < plain->n_obstacles; i++) {
        const WbObstacle *o = &plain->obstacles[i];
        proof->strips[proof->n_strips++] =
            (WbProofStrip){{o->x_mm, o->y_mm, o->length_mm, o->width_mm}, o->clearance_mm};
    }
    return WB_OK;
}

static WbStatus prove_on(Prover *prover, const WbPlainRoof *outer)
{
    prover->plain = &outer->roof;
    WbStatus status = prove_plain(prover);
    return status == WB_OK ? keep_strips(prover->proof, &outer->roof) : status;
}

/* WB_BUDGET too where so many lie, or may. The search that refuted them is made anew, and has its
 * budget beside the proof's. */
static WbStatus prove_by_cuts(Prover *prover, const WbRoof *roof)
{
    int n = prover->proof->n_panels;
    uint64_t whole_budget = prover->node_budget;
    WbPlainRoof outer;
    WbTrueFit fit = {.roof = roof,
                     .panel_length_mm = prover->panel_length_mm,
                     .panel_width_mm = prover->panel_width_mm,
                     .node_budget = whole_budget,
                     .control = prover->control,
                     .found = {.bound = n, .mm_bound = n}};
    WbStatus status = wb_slanted_most(&fit, &outer);
    if (status == WB_OK) {
        prover->proof->step_mm = 1;
        prover->node_budget = whole_budget - whole_budget / STAIRS_SHARE;
        status = fit.found.bound < n ? prove_on(prover, &outer) : WB_BUDGET;
        wb_plain_roof_free(&outer);
    }
    prover->node_budget = whole_budget;
    free(fit.found.layout);
    return status;
}

static WbStatus prove_at_step(Prover *prover, const WbRoof *roof, int64_t step_mm)
{
    WbPlainRoof outer;
    WbStatus status = wb_plain_roof(roof, NULL, 0, WB_PLAIN_OUTER, step_mm, &outer);
    if (status != WB_OK)
        return status;
    prover->proof->step_mm = wb_roof_needs_steps(roof) ? step_mm : 0;
    status = prove_on(prover, &outer);
    wb_plain_roof_free(&outer);
    return status;
}

WbStatus wb_roof_prove(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                       int n_panels, uint64_t node_budget, WbControl *control, WbRoofProof *proof)
{
    static const int64_t steps_mm[] = {64, 16, 4, 1};
    size_t n_steps = sizeof steps_mm / sizeof *steps_mm;
    if (!wb_roof_valid(roof) || !wb_roof_length_valid(panel_length_mm) ||
        !wb_roof_length_valid(panel_width_mm) || n_panels < 1)
        return WB_BAD_INPUT;
    WbRoofProof made = {.n_panels = n_panels};
    Prover prover = {.panel_length_mm = panel_length_mm,
                     .panel_width_mm = panel_width_mm,
                     .node_budget = node_budget,
                     .control = control,
                     .proof = &made};
    bool slanted = wb_roof_needs_steps(roof);
    WbStatus status = slanted ? prove_by_cuts(&prover, roof) : WB_BUDGET;
    size_t first = slanted ? 0 : n_steps - 1;
    uint64_t whole_budget = node_budget;
    if (prover.nodes > whole_budget)
        prover.nodes = whole_budget;
    for (size_t i = first; i < n_steps && status == WB_BUDGET; i++) {
        /* A coarse staircase that says too little must leave something for the next. */
        prover.node_budget = prover.nodes + (whole_budget - prover.nodes) / (n_steps - i);
        status = prove_at_step(&prover, roof, steps_mm[i]);
        if (prover.nodes > whole_budget)
            prover.nodes = whole_budget;
    }
    if (status == WB_OK)
        *proof = made;
    else
        wb_roof_proof_free(&made);
    return status;
}

void wb_roof_proof_free(WbRoofProof *proof)
{
    drop_steps(proof);
    free(proof->strips);
    *proof = (WbRoofProof){0};
}
