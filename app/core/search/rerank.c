/* Ranks the kits of a pool anew. One pass over their figures: keys, best list, front where its
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
    WbCarry carry;
    WbDarkMemo memo;
    WbLate late;
    WbKnownRows known; /* of the last ranking */
} Rerank;

static bool dark_hours_order(const WbProblem *problem)
{
    return wb_rank_asks(problem, WB_CRITERION_DARK) ||
           problem->brief->front >> WB_CRITERION_DARK & 1;
}

static WbStatus put(Rerank *rerank, size_t i)
{
    const WbPooled *pooled = &rerank->pool->kit[i];
    if (pooled->stop != WB_N_RULES)
        return WB_OK;
    WbKit kit = wb_pooled_kit(pooled);
    double figure[WB_N_CRITERIA];
    for (int c = 0; c < WB_N_CRITERIA; c++)
        figure[c] = rerank->pool->figure[c][i];
    const WbChemistry *chemistry = rerank->problem->storage[kit.storage].chemistry;
    WbTally *tally = &rerank->tally[chemistry - rerank->problem->catalogue->chemistries];
    tally->feasible++;
    return wb_late_take(&rerank->late, &kit, figure);
}

static WbStatus put_all(Rerank *rerank, bool new_front)
{
    WbStatus status = WB_OK;
    for (size_t i = 0; i < rerank->pool->n && status == WB_OK; i++) {
        if (i % 4096 == 0 && wb_control_stopped(rerank->control))
            return WB_STOPPED;
        status = put(rerank, i);
    }
    if (status == WB_OK)
        status = wb_late_finish(&rerank->late);
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
    front->too_many = base->front_too_many;
    return WB_OK;
}

/* Dark hours that the last ranking's rows know. */
static bool remember(Rerank *rerank)
{
    for (size_t i = 0; i < rerank->known.n; i++) {
        const WbRanked *row = rerank->known.row[i];
        if (isnan(row->figures.dark_h))
            continue;
        WbDarkKey key = wb_dark_key(rerank->problem, &row->kit);
        if (!wb_dark_memo_put(&rerank->memo, &key, row->figures.dark_h))
            return false;
    }
    return true;
}

static bool begin(Rerank *rerank, const WbRankOptions *options, const WbRanking *base,
                  bool new_front)
{
    const WbProblem *problem = rerank->problem;
    size_t n = problem->catalogue->n_chemistries;
    wb_best_init(&rerank->best, problem, options->top);
    wb_front_init(&rerank->front, problem->brief->front, rerank->control);
    rerank->tally = calloc(n + 1, sizeof *rerank->tally);
    for (size_t i = 0; rerank->tally && i < n; i++)
        wb_best_init(&rerank->tally[i].best, problem, 1);
    bool begun = wb_carry_init(&rerank->carry, problem, rerank->control);
    wb_late_init(&rerank->late, &rerank->carry, &rerank->memo);
    rerank->late.best = &rerank->best;
    rerank->late.tally = rerank->tally;
    rerank->late.front = new_front ? &rerank->front : NULL;
    rerank->late.in_front &= new_front;
    begun = wb_known_rows_init(&rerank->known, base) && begun && rerank->tally != NULL;
    rerank->known.memo = &rerank->memo;
    return begun && (!dark_hours_order(problem) || remember(rerank));
}

static void end(Rerank *rerank)
{
    for (size_t i = 0; rerank->tally && i < rerank->problem->catalogue->n_chemistries; i++)
        wb_best_free(&rerank->tally[i].best);
    free(rerank->tally);
    wb_known_rows_free(&rerank->known);
    wb_late_free(&rerank->late);
    wb_dark_memo_free(&rerank->memo);
    wb_carry_free(&rerank->carry);
    wb_best_free(&rerank->best);
    wb_front_free(&rerank->front);
}

static WbStatus fill(Rerank *rerank, const WbRankOptions *options, WbRanking *found)
{
    WbStatus status = wb_fill_chemistries(rerank->problem, options, &rerank->known, rerank->tally,
                                          rerank->control, found);
    return status == WB_OK ? wb_fill_rows(rerank->problem, options, &rerank->known, &rerank->best,
                                          &rerank->front, rerank->control, found)
                           : status;
}

WbStatus wb_rerank(const WbProblem *problem, const WbRankOptions *options, const WbRanking *base,
                   uint32_t base_front, WbControl *control, WbRanking *ranking)
{
    if (options->top < 1 || !base->pool || !base->pool->whole)
        return WB_BAD_INPUT;
    if (dark_hours_order(problem) && (options->hurried || !base->proved))
        return WB_BAD_INPUT;
    bool new_front = problem->brief->front != base_front || base->front_count != base->n_front;
    Rerank rerank = {.problem = problem, .pool = base->pool, .control = control};
    WbRanking found = *base;
    found.pool = wb_pool_ref(base->pool);
    found.top = found.front = NULL;
    found.chemistries = NULL;
    WbStatus status = begin(&rerank, options, base, new_front) ? WB_OK : WB_NO_MEMORY;
    if (status == WB_OK)
        status = put_all(&rerank, new_front);
    if (status == WB_OK && !new_front)
        status = keep_front(&rerank, base);
    if (status == WB_OK)
        status = fill(&rerank, options, &found);
    end(&rerank);
    if (status == WB_OK)
        *ranking = found;
    else
        wb_ranking_free(&found);
    return status;
}
