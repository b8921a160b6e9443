#include "rows.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static int by_kit(const void *left, const void *right)
{
    const WbFrontKit *a = left, *b = right;
    return wb_kit_compare(NULL, &a->kit, &b->kit);
}

static int row_by_kit(const void *left, const void *right)
{
    const WbRanked *const *a = left, *const *b = right;
    return wb_kit_compare(NULL, &(*a)->kit, &(*b)->kit);
}

bool wb_known_rows_init(WbKnownRows *known, const WbRanking *ranking)
{
    known->row = malloc((ranking->n_top + ranking->n_front + 1) * sizeof(WbRanked *));
    known->n = 0;
    if (!known->row)
        return false;
    for (size_t i = 0; i < ranking->n_top; i++)
        known->row[known->n++] = &ranking->top[i];
    for (size_t i = 0; i < ranking->n_front; i++)
        known->row[known->n++] = &ranking->front[i];
    qsort(known->row, known->n, sizeof(WbRanked *), row_by_kit);
    return true;
}

void wb_known_rows_free(WbKnownRows *known)
{
    free(known->row);
    *known = (WbKnownRows){0};
}

static const WbRanked *known_row(const WbKnownRows *known, const WbKit *kit)
{
    if (known->n == 0)
        return NULL;
    const WbRanked wanted = {.kit = *kit}, *key = &wanted;
    const WbRanked **found = bsearch(&key, known->row, known->n, sizeof key, row_by_kit);
    return found ? *found : NULL;
}

static void fill_row(const WbProblem *problem, const WbKnownRows *known, const WbKit *kit,
                     WbRanked *row)
{
    const WbRanked *before = known_row(known, kit);
    if (before) {
        *row = (WbRanked){.kit = *kit, .figures = before->figures};
        row->score = wb_score(problem, &row->figures, row->u);
        return;
    }
    WbVerdict verdict;
    wb_judge_without_year(problem, kit, &verdict);
    *row = (WbRanked){.kit = *kit, .figures = verdict.figures, .score = verdict.score};
    memcpy(row->u, verdict.u, sizeof row->u);
}

/* Dark hours of every row that has none yet, and what follows from them. */
static WbStatus fill_dark_hours(const WbProblem *problem, const WbKnownRows *known,
                                WbControl *control, WbRanked *rows, size_t n)
{
    if (n == 0)
        return WB_OK;
    const WbKit **kits = calloc(n + 1, sizeof *kits);
    double *dark_h = malloc((n + 1) * sizeof *dark_h);
    WbStatus status = kits && dark_h ? WB_OK : WB_NO_MEMORY;
    size_t n_open = 0;
    for (size_t i = 0; status == WB_OK && i < n; i++)
        if (isnan(rows[i].figures.dark_h))
            kits[n_open++] = &rows[i].kit;
    if (status == WB_OK)
        status = wb_dark_memo_figures(known->memo, problem, kits, n_open, control, dark_h);
    n_open = 0;
    for (size_t i = 0; status == WB_OK && i < n; i++) {
        if (!isnan(rows[i].figures.dark_h))
            continue;
        rows[i].figures.dark_h = dark_h[n_open++];
        rows[i].score = wb_score(problem, &rows[i].figures, rows[i].u);
    }
    free(kits);
    free(dark_h);
    return status;
}

/* Rows for the kits of a spent heap, best first; at most so many are told their dark hours. */
static WbStatus rows_of(const WbProblem *problem, const WbKnownRows *known, WbControl *control,
                        WbBest *best, size_t told, WbRanked **rows)
{
    *rows = calloc(best->n + 1, sizeof **rows);
    if (!*rows)
        return WB_NO_MEMORY;
    wb_best_sort(best);
    for (size_t i = 0; i < best->n; i++)
        fill_row(problem, known, &best->heap[i].kit, &(*rows)[i]);
    return fill_dark_hours(problem, known, control, *rows, best->n < told ? best->n : told);
}

/* Members of the front in the order of the ranking; `rows` has room for all of them. */
static WbStatus order_front(const WbProblem *problem, const WbKnownRows *known,
                            const WbFront *front, WbControl *control, WbRanked *rows, WbBest *order)
{
    WbStatus status = WB_OK;
    for (size_t i = 0; i < front->n_front; i++)
        fill_row(problem, known, &front->kits[i].kit, &rows[i]);
    if (wb_rank_asks(problem, WB_CRITERION_DARK))
        status = fill_dark_hours(problem, known, control, rows, front->n_front);
    for (size_t i = 0; i < front->n_front && status == WB_OK; i++) {
        double key[WB_RANK_KEYS];
        wb_rank_key(problem, &rows[i].figures, key);
        if (!wb_best_put(order, &rows[i].kit, key))
            status = WB_NO_MEMORY;
    }
    return status;
}

static WbStatus fill_front(const WbProblem *problem, const WbRankOptions *options,
                           const WbKnownRows *known, const WbFront *front, WbControl *control,
                           WbRanking *ranking)
{
    WbBest order;
    wb_best_init(&order, problem, options->front_most);
    WbRanked *rows = malloc((front->n_front + 1) * sizeof *rows);
    WbStatus status =
        rows ? order_front(problem, known, front, control, rows, &order) : WB_NO_MEMORY;
    free(rows);
    if (status == WB_OK) {
        ranking->n_front = order.n;
        ranking->front_count = front->n_front;
        ranking->front_too_many = front->too_many;
        status = rows_of(problem, known, control, &order, options->hurried ? 0 : SIZE_MAX,
                         &ranking->front);
    }
    wb_best_free(&order);
    return status;
}

WbStatus wb_fill_chemistries(const WbProblem *problem, const WbRankOptions *options,
                             const WbKnownRows *known, const WbTally *tally, WbControl *control,
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
        fill_row(problem, known, &tally[i].best.heap[0].kit, &of->best);
        WbStatus status =
            fill_dark_hours(problem, known, control, &of->best, options->hurried ? 0 : 1);
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

WbStatus wb_fill_rows(const WbProblem *problem, const WbRankOptions *options,
                      const WbKnownRows *known, WbBest *best, WbFront *front, WbControl *control,
                      WbRanking *ranking)
{
    WbStatus status = fill_front(problem, options, known, front, control, ranking);
    if (status == WB_OK)
        status = rows_of(problem, known, control, best,
                         options->hurried ? options->hurried_dark_rows : SIZE_MAX, &ranking->top);
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
