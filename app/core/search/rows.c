#include "rows.h"
#include <stdlib.h>
#include <string.h>

static int by_kit(const void *left, const void *right)
{
    const WbFrontKit *a = left, *b = right;
    return wb_kit_compare(NULL, &a->kit, &b->kit);
}

static void fill_row(const WbProblem *problem, const WbKit *kit, WbRanked *row)
{
    WbVerdict verdict;
    wb_judge(problem, kit, &verdict);
    *row = (WbRanked){.kit = *kit, .figures = verdict.figures, .score = verdict.score};
    memcpy(row->u, verdict.u, sizeof row->u);
}

/* Rows for the kits of a spent heap, best first. NULL: out of memory. */
static WbRanked *rows_of(const WbProblem *problem, WbBest *best)
{
    WbRanked *rows = calloc(best->n + 1, sizeof *rows);
    if (!rows)
        return NULL;
    wb_best_sort(best);
    for (size_t i = 0; i < best->n; i++)
        fill_row(problem, &best->heap[i].kit, &rows[i]);
    return rows;
}

/* Members of the front in the order of the ranking. */
static WbStatus fill_front(const WbProblem *problem, const WbFront *front, size_t most,
                           WbRanking *ranking)
{
    WbBest order;
    wb_best_init(&order, problem, most);
    WbStatus status = WB_OK;
    for (size_t i = 0; i < front->n_front && status == WB_OK; i++) {
        WbVerdict verdict;
        wb_judge(problem, &front->kits[i].kit, &verdict);
        if (!wb_best_put(&order, &front->kits[i].kit, verdict.score))
            status = WB_NO_MEMORY;
    }
    if (status == WB_OK) {
        ranking->n_front = order.n;
        ranking->front_count = front->n_front;
        ranking->front = rows_of(problem, &order);
        if (!ranking->front)
            status = WB_NO_MEMORY;
    }
    wb_best_free(&order);
    return status;
}

WbStatus wb_fill_chemistries(const WbProblem *problem, const WbTally *tally, WbRanking *ranking)
{
    size_t n = problem->catalogue->n_chemistries;
    ranking->chemistries = calloc(n + 1, sizeof *ranking->chemistries);
    if (!ranking->chemistries)
        return WB_NO_MEMORY;
    ranking->n_chemistries = n;
    for (size_t i = 0; i < n; i++) {
        WbChemistryRank *of = &ranking->chemistries[i];
        of->chemistry = &problem->catalogue->chemistries[i];
        of->feasible = tally[i].feasible;
        if (of->feasible > 0)
            fill_row(problem, &tally[i].best.heap[0].kit, &of->best);
    }
    return WB_OK;
}

/* Is the kit in the front, sorted by_kit? */
static bool is_on(const WbFront *front, const WbKit *kit)
{
    WbFrontKit wanted = {.kit = *kit};
    return front->n_front &&
           bsearch(&wanted, front->kits, front->n_front, sizeof wanted, by_kit) != NULL;
}

WbStatus wb_fill_rows(const WbProblem *problem, const WbRankOptions *options, WbBest *best,
                      WbFront *front, WbRanking *ranking)
{
    WbStatus status = fill_front(problem, front, options->front_most, ranking);
    if (status != WB_OK)
        return status;
    for (size_t i = 0; i < ranking->n_front; i++)
        ranking->front[i].on_front = true;
    ranking->top = rows_of(problem, best);
    if (!ranking->top)
        return WB_NO_MEMORY;
    ranking->n_top = best->n;
    if (front->n_front)
        qsort(front->kits, front->n_front, sizeof *front->kits, by_kit);
    for (size_t i = 0; i < ranking->n_top; i++)
        ranking->top[i].on_front = is_on(front, &ranking->top[i].kit);
    for (size_t i = 0; i < ranking->n_chemistries; i++)
        ranking->chemistries[i].best.on_front =
            ranking->chemistries[i].feasible > 0 && is_on(front, &ranking->chemistries[i].best.kit);
    return WB_OK;
}
