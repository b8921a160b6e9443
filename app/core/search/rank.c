/* The exact ranking. Every kit is an array side (panel, series x parallel, controllers), a bank
 * side (storage, series x parallel, inverter) and a DC-DC side. Most rules look at one side and at
 * what the bank is to a charger (its volts and chemistry), so for each such kind of bank every side
 * is judged once. Sides are then joined:
 *   - two or more broken side rules between them: counted as a product of counts, never visited;
 *   - one: it matters only whether the joint rules hold (then the kit fails by that rule alone);
 *   - none: the joint rules decide.
 * Nothing is sampled or cut short: first-broken counts and the working kits add up to the raw
 * count. Cost: sides judged + pairs with at most one broken side rule. */
#include "rank.h"
#include "join.h"
#include "rows.h"
#include <pthread.h>
#include <stdlib.h>
#include <string.h>

WbRankOptions wb_rank_options_default(void)
{
    return (WbRankOptions){.top = 1000, .front_most = 100000, .workers = 1};
}

/* Every kind of bank once, with how many banks are of it. */
typedef struct {
    WbBankKind kind;
    size_t banks;
} KindCount;

typedef struct {
    KindCount *kind;
    size_t n;
    atomic_size_t next; /* the first kind no worker has taken */
    WbControl *control;
} Kinds;

static void count_bank(Kinds *kinds, const WbBankKind *kind)
{
    for (size_t i = 0; i < kinds->n; i++)
        if (wb_same_bank_kind(&kinds->kind[i].kind, kind)) {
            kinds->kind[i].banks++;
            return;
        }
    kinds->kind[kinds->n++] = (KindCount){.kind = *kind, .banks = 1};
}

static int larger_first(const void *left, const void *right)
{
    const KindCount *a = left, *b = right;
    return a->banks == b->banks ? 0 : a->banks > b->banks ? -1 : 1;
}

/* The largest kinds first, so that no worker is left alone with one at the end. */
static bool list_kinds(const WbProblem *problem, Kinds *kinds)
{
    int series = problem->brief->largest.bank_series;
    kinds->kind = calloc(problem->n_storage * (size_t)series + 1, sizeof *kinds->kind);
    if (!kinds->kind)
        return false;
    for (int i = 0; i < (int)problem->n_storage; i++)
        for (int s = 1; s <= series; s++) {
            WbBankKind kind = wb_bank_kind(problem, i, s);
            count_bank(kinds, &kind);
        }
    qsort(kinds->kind, kinds->n, sizeof *kinds->kind, larger_first);
    return true;
}

typedef struct {
    WbJoin join;
    Kinds *kinds;
    WbStatus status;
    pthread_t thread;
    bool started;
} Worker;

static void *work(void *data)
{
    Worker *worker = data;
    Kinds *kinds = worker->kinds;
    while (worker->status == WB_OK) {
        size_t i = atomic_fetch_add(&kinds->next, 1);
        if (i >= kinds->n)
            break;
        worker->status = wb_join_kind(&worker->join, &kinds->kind[i].kind);
        if (kinds->control)
            atomic_fetch_add(&kinds->control->done, 1);
    }
    return NULL;
}

/* The caller's thread is the first worker; one that cannot be started is done without. */
static void work_all(Worker *workers, int n)
{
    for (int i = 1; i < n; i++)
        workers[i].started = pthread_create(&workers[i].thread, NULL, work, &workers[i]) == 0;
    work(&workers[0]);
    for (int i = 1; i < n; i++)
        if (workers[i].started)
            pthread_join(workers[i].thread, NULL);
}

static WbStatus merge(Worker *workers, int n)
{
    WbStatus status = WB_OK;
    for (int i = 0; i < n && status == WB_OK; i++)
        status = workers[i].status;
    for (int i = 1; i < n && status == WB_OK; i++)
        status = wb_join_merge(&workers[0].join, &workers[i].join);
    return status == WB_OK ? wb_front_finish(&workers[0].join.front) : status;
}

static WbStatus rank_into(const WbProblem *problem, const WbRankOptions *options, Worker *workers,
                          WbRanking *found)
{
    WbStatus status = merge(workers, options->workers);
    if (status != WB_OK)
        return status;
    WbJoin *join = &workers[0].join;
    found->raw = join->raw;
    found->feasible = join->feasible;
    memcpy(found->ruled_out, join->ruled_out, sizeof found->ruled_out);
    found->undecided = found->ruled_out[WB_RULE_ROOF_UNDECIDED].alone;
    status = wb_fill_chemistries(problem, join->tally, join->control, found);
    return status == WB_OK
               ? wb_fill_rows(problem, options, &join->best, &join->front, join->control, found)
               : status;
}

static WbStatus rank_with(const WbProblem *problem, const WbRankOptions *options,
                          WbControl *control, Kinds *kinds, const WbArrays *arrays,
                          WbRanking *found)
{
    Worker workers[WB_MOST_WORKERS] = {0};
    WbStatus status = WB_OK;
    for (int i = 0; i < options->workers; i++) {
        workers[i].kinds = kinds;
        if (!wb_join_init(&workers[i].join, problem, arrays, options->top, control))
            status = WB_NO_MEMORY;
        workers[i].join.holding = options->holding;
    }
    if (status == WB_OK) {
        work_all(workers, options->workers);
        status = rank_into(problem, options, workers, found);
    }
    for (int i = 0; i < options->workers; i++)
        wb_join_free(&workers[i].join);
    return status;
}

WbStatus wb_rank(const WbProblem *problem, const WbRankOptions *options, WbControl *control,
                 WbRanking *ranking)
{
    if (options->top < 1 || options->top > 1000000 || options->workers < 1 ||
        options->workers > WB_MOST_WORKERS)
        return WB_BAD_INPUT;
    Kinds kinds = {.control = control};
    WbArrays arrays = {0};
    WbRanking found = {0};
    WbStatus status = list_kinds(problem, &kinds) ? WB_OK : WB_NO_MEMORY;
    if (control)
        atomic_store(&control->todo, kinds.n);
    if (status == WB_OK)
        status = wb_arrays_list(problem, options->holding, control, &arrays);
    if (status == WB_OK)
        status = rank_with(problem, options, control, &kinds, &arrays, &found);
    wb_arrays_free(&arrays);
    free(kinds.kind);
    if (status == WB_OK)
        *ranking = found;
    else
        wb_ranking_free(&found);
    return status;
}

void wb_ranking_free(WbRanking *ranking)
{
    free(ranking->top);
    free(ranking->front);
    free(ranking->chemistries);
    *ranking = (WbRanking){0};
}
