#include "proof_log.h"
#include <stdlib.h>
#include <string.h>

enum { BITS = 64 };

static bool has(const uint64_t *set, int p)
{
    return set[p / BITS] >> (p % BITS) & 1;
}

void wb_proof_log_graph_case(WbProofLog *log, const WbCliques *cliques, const uint64_t *open)
{
    if (!log || log->full)
        return;
    size_t words = (size_t)cliques->words, first = log->proof->n_places;
    if (!log->kept_before)
        log->kept_before = malloc((words + 1) * sizeof *log->kept_before);
    if (!log->kept_before) {
        log->full = true;
        return;
    }
    memcpy(log->kept_before, open, words * sizeof *open);
    for (int p = 0; p < cliques->n; p++)
        if (has(open, p))
            wb_proof_log_place(log, cliques->place[p]);
    wb_proof_log_step(log, (WbProofStep){.kind = WB_STEP_KEEP,
                                         .first_place = first,
                                         .n_places = log->proof->n_places - first});
    log->steps_before = log->proof->n_steps;
    log->points_before = log->proof->n_points;
}

static void add_weights(WbProofLog *log, WbProofStepKind kind, const WbCliques *cliques,
                        const int64_t *weight)
{
    size_t first = log->proof->n_points;
    for (int c = 0; c < cliques->m; c++)
        if (weight[c] > 0)
            wb_proof_log_point(log, cliques->at[c], weight[c]);
    wb_proof_log_step(
        log, (WbProofStep){.kind = kind, .first = first, .n = log->proof->n_points - first});
}

void wb_proof_log_graph_close(WbProofLog *log, const WbCliques *cliques, const int64_t *weight)
{
    if (log && !log->full)
        add_weights(log, WB_STEP_CLOSE, cliques, weight);
}

/* The bound by these weights over what was kept at the begin of the case. */
static int64_t total_before(const WbProofLog *log, const WbCliques *cliques, const int64_t *weight)
{
    int64_t total = 0;
    for (int c = 0; c < cliques->m; c++)
        total += weight[c];
    for (int p = 0; p < cliques->n; p++) {
        int64_t under = has(log->kept_before, p) ? 0 : WB_WEIGHT_ONE;
        for (int k = cliques->first_point[p]; k < cliques->first_point[p + 1]; k++)
            under += weight[cliques->point[k]];
        total += under < WB_WEIGHT_ONE ? WB_WEIGHT_ONE - under : 0;
    }
    return total;
}

void wb_proof_log_graph_refute(WbProofLog *log, const WbCliques *cliques, const int64_t *weight,
                               int need)
{
    if (!log || log->full)
        return;
    if (total_before(log, cliques, weight) < need * WB_WEIGHT_ONE) {
        log->proof->n_steps = log->steps_before;
        log->proof->n_points = log->points_before;
    }
    add_weights(log, WB_STEP_REFUTE, cliques, weight);
}

void wb_proof_log_graph_split(WbProofLog *log, const WbCliques *cliques, int c, const int *over,
                              int n)
{
    if (!log || log->full)
        return;
    const WbRoofGrid *grid = log->grid;
    int point = cliques->at[c];
    size_t first = log->proof->n_places;
    for (int i = 0; i < n; i++)
        wb_proof_log_place(log, cliques->place[over[i]]);
    wb_proof_log_step(
        log, (WbProofStep){.kind = WB_STEP_SPLIT,
                           .x_mm = grid->usable.left_mm + grid->x.at_mm[point % grid->x.n],
                           .y_mm = grid->usable.front_mm + grid->y.at_mm[point / grid->x.n],
                           .first_place = first,
                           .n_places = (size_t)n});
}
