#include "branch.h"
#include <stdlib.h>
#include <string.h>

enum {
    ROOT_EVALUATIONS = 4000,
    NODE_EVALUATIONS = 60,
    ROUND = 20, /* evaluations between greedies */
    LEVEL_BYTES_MAX = 1 << 27,
};

void wb_roof_search_free(WbRoofSearch *search)
{
    for (int i = 0; search->level && i < search->n_levels; i++) {
        free(search->level[i].open);
        free(search->level[i].weight);
    }
    free(search->level);
    wb_run_free(&search->run);
    free(search->scratch);
    free(search->queue);
    wb_weights_free(&search->weights);
}

WbStatus wb_roof_search_init(WbRoofSearch *search, const WbRoofGrid *grid)
{
    int places = wb_grid_places(grid), room = search->run.at_most;
    search->grid = grid;
    search->n_levels = room + 1;
    search->level = calloc(search->n_levels, sizeof *search->level);
    search->scratch = malloc(places);
    search->queue = malloc(places * sizeof *search->queue);
    if (!wb_run_open(&search->run) || !search->level || !search->scratch || !search->queue)
        return WB_NO_MEMORY;
    return wb_weights_init(&search->weights, grid);
}

void wb_roof_search_corners(WbRoofSearch *search)
{
    const WbRoofGrid *grid = search->grid;
    for (int way = 0; way < WB_GREEDY_CORNERS && !wb_run_all_found(&search->run); way++) {
        memcpy(search->scratch, grid->open, wb_grid_places(grid));
        wb_run_keep(&search->run, wb_greedy_corner(grid, search->scratch, way, search->run.picked,
                                                   search->run.at_most));
        if (!wb_run_spend(&search->run, grid->points))
            return;
    }
}

/* The four orders in turn. */
static void greedy_weights(WbRoofSearch *search, int depth, int round)
{
    WbGreedyKey key = round & 1 ? WB_GREEDY_SHARE : WB_GREEDY_WEIGHT;
    memcpy(search->scratch, search->level[depth].open, wb_grid_places(search->grid));
    int n = wb_greedy_weights(&search->weights, search->scratch, key, round & 2, search->queue,
                              search->run.picked + depth, search->run.at_most - depth);
    wb_run_keep(&search->run, depth + n);
}

/* The bound of this subproblem in whole panels, after as many evaluations as it takes to close it
 * or as seem worth while. Closes places and finds layouts on the way. */
static int settle(WbRoofSearch *search, int depth)
{
    WbWeights *weights = &search->weights;
    wb_proof_log_case(search->log, search->level[depth].open);
    wb_weights_restart(weights, search->level[depth].weight, search->level[depth].open);
    int evaluations = depth ? NODE_EVALUATIONS : ROOT_EVALUATIONS;
    for (int k = 1; k <= evaluations; k++) {
        wb_weights_evaluate(weights);
        int need = search->run.best + 1 - depth;
        if (weights->total < need * WB_WEIGHT_ONE) {
            wb_proof_log_refute(search->log, weights, need);
            break;
        }
        if (k % ROUND == 0 || k == ROUND / 2 || k == evaluations) {
            greedy_weights(search, depth, k / ROUND);
            if (wb_run_all_found(&search->run))
                break;
            need = search->run.best + 1 - depth;
            if (wb_weights_close(weights, need) > 0)
                wb_proof_log_close(search->log, weights);
        }
        if (!wb_run_spend(&search->run, 4 * (uint64_t)search->grid->points) || k == evaluations ||
            !wb_weights_step(weights, need))
            break;
    }
    return (int)(weights->best / WB_WEIGHT_ONE);
}

/* The heaviest point, or one under an open place where no weight is left. -1: no place is open. */
static int branching_point(const WbRoofSearch *search, int depth)
{
    const WbRoofGrid *grid = search->grid;
    const WbBranchLevel *level = &search->level[depth];
    int heaviest = 0;
    for (int point = 1; point < grid->points; point++)
        if (level->weight[point] > level->weight[heaviest])
            heaviest = point;
    if (level->weight[heaviest] > 0)
        return heaviest;
    for (int place = 0; place < wb_grid_places(grid); place++)
        if (level->open[place])
            return place % grid->points;
    return -1;
}

/* Open places over a point into `over`; answers how many. */
static int places_over(const WbRoofGrid *grid, const uint8_t *open, int point, int *over)
{
    int column = point % grid->x.n, row = point / grid->x.n, n = 0;
    for (int turn = 0; turn < grid->turns; turn++)
        for (int j = grid->y.from[turn][row]; j <= row; j++)
            for (int i = grid->x.from[turn][column]; i <= column; i++) {
                int place = turn * grid->points + j * grid->x.n + i;
                if (open[place])
                    over[n++] = place;
            }
    return n;
}

static bool open_level(WbRoofSearch *search, int depth)
{
    WbBranchLevel *level = &search->level[depth];
    size_t places = wb_grid_places(search->grid), points = search->grid->points;
    size_t bytes = places + points * sizeof *level->weight;
    if (level->open)
        return true;
    if (bytes * (depth + 1) > LEVEL_BYTES_MAX) {
        search->run.status = WB_BUDGET;
        return false;
    }
    level->open = malloc(places);
    level->weight = malloc(points * sizeof *level->weight);
    if (!level->open || !level->weight)
        search->run.status = WB_NO_MEMORY;
    return search->run.status == WB_OK;
}

static void branch(WbRoofSearch *search, int depth);

static void take(WbRoofSearch *search, int depth, int place)
{
    if (!open_level(search, depth + 1))
        return;
    WbBranchLevel *from = &search->level[depth], *to = &search->level[depth + 1];
    memcpy(to->open, from->open, wb_grid_places(search->grid));
    memcpy(to->weight, from->weight, search->grid->points * sizeof *to->weight);
    wb_grid_close(search->grid, to->open, place);
    search->run.picked[depth] = place;
    wb_run_keep(&search->run, depth + 1);
    branch(search, depth + 1);
}

/* Most promising first: the largest share. Insertion sort, so that equals keep their order. */
static void sort_by_share(const WbWeights *weights, int *over, int n)
{
    for (int i = 1; i < n; i++) {
        int place = over[i], k = i;
        for (; k > 0 && weights->share[over[k - 1]] < weights->share[place]; k--)
            over[k] = over[k - 1];
        over[k] = place;
    }
}

static void branch_at(WbRoofSearch *search, int depth, int point)
{
    WbBranchLevel *level = &search->level[depth];
    int n = places_over(search->grid, level->open, point, search->queue);
    int *over = malloc((n + 1) * sizeof *over);
    if (!over) {
        search->run.status = WB_NO_MEMORY;
        return;
    }
    memcpy(over, search->queue, n * sizeof *over);
    sort_by_share(&search->weights, over, n);
    wb_proof_log_split(search->log, point, over, n);
    for (int i = 0; i < n && search->run.status == WB_OK && !wb_run_all_found(&search->run); i++) {
        take(search, depth, over[i]);
        level->open[over[i]] = 0;
    }
    free(over);
}

static void branch(WbRoofSearch *search, int depth)
{
    while (search->run.status == WB_OK && !wb_run_all_found(&search->run)) {
        int bound = depth + settle(search, depth);
        if (depth == 0)
            wb_run_lower_bound(&search->run, bound);
        if (search->run.status != WB_OK || bound <= search->run.best)
            return;
        int point = branching_point(search, depth);
        if (point < 0) {
            wb_proof_log_empty(search->log);
            return;
        }
        branch_at(search, depth, point);
    }
}

void wb_roof_search_prove(WbRoofSearch *search, const WbRoof *roof)
{
    if (wb_run_all_found(&search->run) || search->run.status != WB_OK || !open_level(search, 0))
        return;
    memcpy(search->level[0].open, search->grid->open, wb_grid_places(search->grid));
    wb_weights_from_area(search->grid, roof, search->level[0].weight);
    branch(search, 0);
}
