/* Ranks the kits of a pool anew. One pass over their figures: score, best list, front where its
 * criteria are others. What the rows of the last ranking know is kept. O(kits), some milliseconds
 * for tens of thousands. */
#include "join.h"
#include "rank.h"
#include "rows.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    const WbProblem *problem;
    const WbPool *pool;
    WbControl *control;
    WbBest best;
    WbFront front;
    WbTally *tally; /* one for each chemistry of the catalogue */
} Rerank;

static bool dark_hours_order(const WbProblem *problem)
{
    return problem->weight[WB_CRITERION_DARK] > 0.0 ||
           problem->brief->front >> WB_CRITERION_DARK & 1;
}

static bool all_dark_hours_known(const WbPool *pool)
{
    for (size_t i = 0; i < pool->n; i++)
        if (pool->kit[i].stop == WB_N_RULES && isnan(pool->figure[WB_CRITERION_DARK][i]))
            return false;
    return true;
}

static WbStatus put(Rerank *rerank, size_t i, bool new_front)
{
    const WbPooled *pooled = &rerank->pool->kit[i];
    if (pooled->stop != WB_N_RULES)
        return WB_OK;
    WbKit kit = wb_pooled_kit(pooled);
    double figure[WB_N_CRITERIA], u[WB_N_CRITERIA];
    for (int c = 0; c < WB_N_CRITERIA; c++)
        figure[c] = rerank->pool->figure[c][i];
    double score = wb_score_of(rerank->problem, figure, u);
    const WbChemistry *chemistry = rerank->problem->storage[kit.storage].chemistry;
    WbTally *tally = &rerank->tally[chemistry - rerank->problem->catalogue->chemistries];
    tally->feasible++;
    if (!wb_best_put(&rerank->best, &kit, score) || !wb_best_put(&tally->best, &kit, score))
        return WB_NO_MEMORY;
    return new_front ? wb_front_offer_of(&rerank->front, &kit, figure) : WB_OK;
}

static WbStatus put_all(Rerank *rerank, bool new_front)
{
    WbStatus status = WB_OK;
    for (size_t i = 0; i < rerank->pool->n && status == WB_OK; i++) {
        if (i % 4096 == 0 && wb_control_stopped(rerank->control))
            return WB_STOPPED;
        status = put(rerank, i, new_front);
    }
    return status == WB_OK && new_front ? wb_front_finish(&rerank->front) : status;
}

/* The front's kits are the same: they need only another order. */
static WbStatus keep_front(Rerank *rerank, const WbRanking *base)
{
    WbFront *front = &rerank->front;
    front->kits = calloc(base->n_front + 1, sizeof *front->kits);
    if (!front->kits)
        return WB_NO_MEMORY;
    for (size_t i = 0; i < base->n_front; i++)
        front->kits[i].kit = base->front[i].kit;
    front->n = front->n_front = base->n_front;
    return WB_OK;
}

static bool begin(Rerank *rerank, const WbRankOptions *options)
{
    const WbProblem *problem = rerank->problem;
    size_t n = problem->catalogue->n_chemistries;
    wb_best_init(&rerank->best, problem, options->top);
    wb_front_init(&rerank->front, problem->brief->front, rerank->control);
    rerank->tally = calloc(n + 1, sizeof *rerank->tally);
    for (size_t i = 0; rerank->tally && i < n; i++)
        wb_best_init(&rerank->tally[i].best, problem, 1);
    return rerank->tally != NULL;
}

static void end(Rerank *rerank)
{
    for (size_t i = 0; rerank->tally && i < rerank->problem->catalogue->n_chemistries; i++)
        wb_best_free(&rerank->tally[i].best);
    free(rerank->tally);
    wb_best_free(&rerank->best);
    wb_front_free(&rerank->front);
}

static WbStatus fill(Rerank *rerank, const WbRankOptions *options, const WbRanking *base,
                     WbRanking *found)
{
    WbKnownRows known;
    WbStatus status = wb_known_rows_init(&known, base) ? WB_OK : WB_NO_MEMORY;
    if (status == WB_OK)
        status = wb_fill_chemistries(rerank->problem, options, &known, rerank->tally,
                                     rerank->control, found);
    if (status == WB_OK)
        status = wb_fill_rows(rerank->problem, options, &known, &rerank->best, &rerank->front,
                              rerank->control, found);
    wb_known_rows_free(&known);
    return status;
}

WbStatus wb_rerank(const WbProblem *problem, const WbRankOptions *options, const WbRanking *base,
                   uint32_t base_front, WbControl *control, WbRanking *ranking)
{
    if (options->top < 1 || !base->pool || !base->pool->whole)
        return WB_BAD_INPUT;
    if (dark_hours_order(problem) && !all_dark_hours_known(base->pool))
        return WB_BAD_INPUT;
    bool new_front = problem->brief->front != base_front || base->front_count != base->n_front;
    Rerank rerank = {.problem = problem, .pool = base->pool, .control = control};
    WbRanking found = *base;
    found.pool = wb_pool_ref(base->pool);
    found.top = found.front = NULL;
    found.chemistries = NULL;
    WbStatus status = begin(&rerank, options) ? WB_OK : WB_NO_MEMORY;
    if (status == WB_OK)
        status = put_all(&rerank, new_front);
    if (status == WB_OK && !new_front)
        status = keep_front(&rerank, base);
    if (status == WB_OK)
        status = fill(&rerank, options, base, &found);
    end(&rerank);
    if (status == WB_OK)
        *ranking = found;
    else
        wb_ranking_free(&found);
    return status;
}
