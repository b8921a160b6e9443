#include "proof_log.h"
#include <stdlib.h>
#include <string.h>

enum { POINTS_MAX = 1 << 22, FIRST_ROOM = 64 };

WbStatus wb_proof_log_init(WbProofLog *log, const WbRoofGrid *grid, WbRoofProof *proof)
{
    *log = (WbProofLog){.grid = grid, .proof = proof, .open_before = malloc(wb_grid_places(grid))};
    return log->open_before ? WB_OK : WB_NO_MEMORY;
}

void wb_proof_log_free(WbProofLog *log)
{
    free(log->open_before);
    free(log->kept_before);
    *log = (WbProofLog){0};
}

/* Room for `more` items behind the first n. The array as it was where there is no memory. */
static void *grown(WbProofLog *log, void *items, size_t size, size_t n, size_t more, size_t *room)
{
    if (n + more <= *room)
        return items;
    size_t wanted = 2 * *room > n + more ? 2 * *room : n + more + FIRST_ROOM;
    void *bigger = realloc(items, wanted * size);
    if (!bigger) {
        log->full = true;
        return items;
    }
    *room = wanted;
    return bigger;
}

void wb_proof_log_step(WbProofLog *log, WbProofStep step)
{
    WbRoofProof *proof = log->proof;
    proof->steps =
        grown(log, proof->steps, sizeof *proof->steps, proof->n_steps, 1, &log->steps_room);
    if (!log->full)
        proof->steps[proof->n_steps++] = step;
}

void wb_proof_log_point(WbProofLog *log, int point, int64_t weight)
{
    const WbRoofGrid *grid = log->grid;
    WbRoofProof *proof = log->proof;
    proof->points =
        grown(log, proof->points, sizeof *proof->points, proof->n_points, 1, &log->points_room);
    log->full = log->full || proof->n_points == POINTS_MAX;
    if (!log->full)
        proof->points[proof->n_points++] =
            (WbProofPoint){grid->usable.left_mm + grid->x.at_mm[point % grid->x.n],
                           grid->usable.front_mm + grid->y.at_mm[point / grid->x.n], weight};
}

void wb_proof_log_place(WbProofLog *log, int place)
{
    WbRoofProof *proof = log->proof;
    proof->places =
        grown(log, proof->places, sizeof *proof->places, proof->n_places, 1, &log->places_room);
    log->full = log->full || proof->n_places == POINTS_MAX;
    if (!log->full)
        proof->places[proof->n_places++] = wb_grid_rect(log->grid, place);
}

static void add_weights(WbProofLog *log, WbProofStepKind kind, const WbWeights *weights)
{
    size_t first = log->proof->n_points;
    for (int point = 0; point < log->grid->points; point++)
        if (weights->weight[point] > 0)
            wb_proof_log_point(log, point, weights->weight[point]);
    wb_proof_log_step(
        log, (WbProofStep){.kind = kind, .first = first, .n = log->proof->n_points - first});
}

void wb_proof_log_few_points(WbProofLog *log)
{
    for (int point = 0; point < log->grid->points; point++)
        wb_proof_log_point(log, point, WB_WEIGHT_ONE);
    wb_proof_log_step(log, (WbProofStep){.kind = WB_STEP_REFUTE, .n = log->proof->n_points});
}

void wb_proof_log_case(WbProofLog *log, const uint8_t *open)
{
    if (!log)
        return;
    memcpy(log->open_before, open, wb_grid_places(log->grid));
    log->steps_before = log->proof->n_steps;
    log->points_before = log->proof->n_points;
}

void wb_proof_log_close(WbProofLog *log, const WbWeights *weights)
{
    if (log && !log->full)
        add_weights(log, WB_STEP_CLOSE, weights);
}

/* The same weights over the places that were open before anything was closed. */
static int64_t total_before(const WbProofLog *log, const WbWeights *weights)
{
    int64_t total = 0;
    for (int point = 0; point < log->grid->points; point++)
        total += weights->weight[point];
    for (int place = 0; place < wb_grid_places(log->grid); place++)
        if (log->open_before[place] && wb_weights_under(weights, place) < WB_WEIGHT_ONE)
            total += WB_WEIGHT_ONE - wb_weights_under(weights, place);
    return total;
}

void wb_proof_log_refute(WbProofLog *log, const WbWeights *weights, int need)
{
    if (!log || log->full)
        return;
    if (total_before(log, weights) < need * WB_WEIGHT_ONE) {
        log->proof->n_steps = log->steps_before;
        log->proof->n_points = log->points_before;
    }
    add_weights(log, WB_STEP_REFUTE, weights);
}

void wb_proof_log_split(WbProofLog *log, int point, const int *over, int n)
{
    if (!log || log->full)
        return;
    WbRoofProof *proof = log->proof;
    const WbRoofGrid *grid = log->grid;
    size_t first = proof->n_places;
    for (int i = 0; i < n; i++)
        wb_proof_log_place(log, over[i]);
    wb_proof_log_step(
        log, (WbProofStep){.kind = WB_STEP_SPLIT,
                           .x_mm = grid->usable.left_mm + grid->x.at_mm[point % grid->x.n],
                           .y_mm = grid->usable.front_mm + grid->y.at_mm[point / grid->x.n],
                           .first_place = first,
                           .n_places = n});
}

void wb_proof_log_empty(WbProofLog *log)
{
    if (log && !log->full)
        wb_proof_log_step(log, (WbProofStep){.kind = WB_STEP_EMPTY});
}
