#include "rows.h"
#include "carry.h"
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
    wb_judge_without_year(problem, kit, &verdict);
    *row = (WbRanked){.kit = *kit, .figures = verdict.figures, .score = verdict.score};
    memcpy(row->u, verdict.u, sizeof row->u);
}

/* Dark hours of every row, and what follows from them. */
static WbStatus fill_dark_hours(const WbProblem *problem, WbControl *control, WbRanked *rows,
                                size_t n)
{
    const WbKit **kits = calloc(n + 1, sizeof *kits);
    double *dark_h = malloc((n + 1) * sizeof *dark_h);
    WbStatus status = kits && dark_h ? WB_OK : WB_NO_MEMORY;
    for (size_t i = 0; status == WB_OK && i < n; i++)
        kits[i] = &rows[i].kit;
    if (status == WB_OK)
        status = wb_carry_figures(problem, kits, n, control, dark_h);
    for (size_t i = 0; status == WB_OK && i < n; i++) {
        rows[i].figures.dark_h = dark_h[i];
        rows[i].score = wb_score(problem, &rows[i].figures, rows[i].u);
    }
    free(kits);
    free(dark_h);
    return status;
}

/* Rows for the kits of a spent heap, best first. */
static WbStatus rows_of(const WbProblem *problem, WbControl *control, WbBest *best, WbRanked **rows)
{
    *rows = calloc(best->n + 1, sizeof **rows);
    if (!*rows)
        return WB_NO_MEMORY;
    wb_best_sort(best);
    for (size_t i = 0; i < best->n; i++)
        fill_row(problem, &best->heap[i].kit, &(*rows)[i]);
    return fill_dark_hours(problem, control, *rows, best->n);
}

/* Members of the front in the order of the ranking; `by_score` has room for all of them. */
static WbStatus order_front(const WbProblem *problem, const WbFront *front, WbControl *control,
                            WbRanked *by_score, WbBest *order)
{
    WbStatus status = WB_OK;
    for (size_t i = 0; i < front->n_front; i++)
        fill_row(problem, &front->kits[i].kit, &by_score[i]);
    if (problem->weight[WB_CRITERION_DARK] > 0.0)
        status = fill_dark_hours(problem, control, by_score, front->n_front);
    for (size_t i = 0; i < front->n_front && status == WB_OK; i++)
        if (!wb_best_put(order, &by_score[i].kit, by_score[i].score))
            status = WB_NO_MEMORY;
    return status;
}

static WbStatus fill_front(const WbProblem *problem, const WbFront *front, size_t most,
                           WbControl *control, WbRanking *ranking)
{
    WbBest order;
    wb_best_init(&order, problem, most);
    WbRanked *by_score = malloc((front->n_front + 1) * sizeof *by_score);
    WbStatus status =
        by_score ? order_front(problem, front, control, by_score, &order) : WB_NO_MEMORY;
    free(by_score);
    if (status == WB_OK) {
        ranking->n_front = order.n;
        ranking->front_count = front->n_front;
        status = rows_of(problem, control, &order, &ranking->front);
    }
    wb_best_free(&order);
    return status;
}

WbStatus wb_fill_chemistries(const WbProblem *problem, const WbTally *tally, WbControl *control,
                             WbRanking *ranking)
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
        if (of->feasible == 0)
            continue;
        fill_row(problem, &tally[i].best.heap[0].kit, &of->best);
        WbStatus status = fill_dark_hours(problem, control, &of->best, 1);
        if (status != WB_OK)
            return status;
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
                      WbFront *front, WbControl *control, WbRanking *ranking)
{
    WbStatus status = fill_front(problem, front, options->front_most, control, ranking);
    if (status == WB_OK)
        status = rows_of(problem, control, best, &ranking->top);
    if (status != WB_OK)
        return status;
    for (size_t i = 0; i < ranking->n_front; i++)
        ranking->front[i].on_front = true;
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
