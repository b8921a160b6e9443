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
    WbPool **pool; /* of each kind, in their order; NULL: none is kept */
    atomic_size_t pooled;
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

static bool make_pools(Kinds *kinds)
{
    kinds->pool = calloc(kinds->n + 1, sizeof(WbPool *));
    bool made = kinds->pool != NULL;
    for (size_t i = 0; made && i < kinds->n; i++)
        made = (kinds->pool[i] = wb_pool_new(&kinds->pooled)) != NULL;
    return made;
}

static void drop_pool(Kinds *kinds, size_t i)
{
    wb_pool_unref(kinds->pool[i]);
    kinds->pool[i] = NULL;
}

static void free_kinds(Kinds *kinds)
{
    for (size_t i = 0; kinds->pool && i < kinds->n; i++)
        drop_pool(kinds, i);
    free(kinds->pool);
    free(kinds->kind);
}

/* In the order of the kinds, so that no worker's pace shows. */
static WbStatus pour_pools(Kinds *kinds, bool beyond, WbRanking *found)
{
    if (!kinds->pool)
        return WB_OK;
    found->pool = wb_pool_new(NULL);
    bool poured = found->pool != NULL;
    if (poured)
        found->pool->beyond = beyond;
    for (size_t i = 0; poured && i < kinds->n; i++) {
        poured = wb_pool_append(found->pool, kinds->pool[i]);
        drop_pool(kinds, i);
    }
    return poured ? WB_OK : WB_NO_MEMORY;
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
        worker->join.pool = kinds->pool ? kinds->pool[i] : NULL;
        worker->status = wb_join_kind(&worker->join, &kinds->kind[i].kind);
        if (kinds->control)
            atomic_fetch_add(&kinds->control->done, 1);
    }
    if (worker->status == WB_OK)
        worker->status = wb_join_finish(&worker->join);
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
    const WbKnownRows known = {.memo = &join->memo};
    status = pour_pools(workers[0].kinds, join->beyond, found);
    if (status == WB_OK)
        status = wb_fill_chemistries(problem, options, &known, join->tally, join->control, found);
    return status == WB_OK ? wb_fill_rows(problem, options, &known, &join->best, &join->front,
                                          join->control, found)
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
        workers[i].join.beyond = !options->hurried;
        workers[i].join.least_dark = options->least_dark;
    }
    if (status == WB_OK) {
        work_all(workers, options->workers);
        status = rank_into(problem, options, workers, found);
    }
    for (int i = 0; i < options->workers; i++)
        wb_join_free(&workers[i].join);
    return status;
}

static bool options_are_sound(const WbRankOptions *options)
{
    return options->top >= 1 && options->top <= 1000000 && options->workers >= 1 &&
           options->workers <= WB_MOST_WORKERS;
}

static WbStatus rank(const WbProblem *problem, const WbRankOptions *options, WbControl *control,
                     WbRanking *ranking)
{
    Kinds kinds = {.control = control};
    WbArrays arrays = {0};
    WbRanking found = {.proved = true};
    WbStatus status = list_kinds(problem, &kinds) ? WB_OK : WB_NO_MEMORY;
    if (status == WB_OK && options->pool && !make_pools(&kinds))
        status = WB_NO_MEMORY;
    if (control)
        atomic_store(&control->todo, kinds.n);
    if (status == WB_OK)
        status = wb_arrays_list(problem, options->holding, control, &arrays);
    if (status == WB_OK)
        status = rank_with(problem, options, control, &kinds, &arrays, &found);
    wb_arrays_free(&arrays);
    free_kinds(&kinds);
    if (status == WB_OK)
        *ranking = found;
    else
        wb_ranking_free(&found);
    return status;
}

/* Do dark hours decide what works or in which order? */
static bool dark_hours_matter(const WbProblem *problem)
{
    const WbBrief *brief = problem->brief;
    return brief->dark_hours.on || wb_rank_asks(problem, WB_CRITERION_DARK) ||
           brief->front >> WB_CRITERION_DARK & 1;
}

WbStatus wb_rank(const WbProblem *problem, const WbRankOptions *options, WbControl *control,
                 WbRanking *ranking)
{
    if (!options_are_sound(options))
        return WB_BAD_INPUT;
    if (!options->hurried)
        return rank(problem, options, control, ranking);
    WbBrief brief = *problem->brief;
    WbProblem eased = *problem;
    brief.dark_hours.on = false;
    brief.front &= ~(1u << WB_CRITERION_DARK);
    eased.brief = &brief;
    wb_rank_leave_out(&eased, WB_CRITERION_DARK);
    WbStatus status = rank(&eased, options, control, ranking);
    if (status == WB_OK)
        ranking->proved = !dark_hours_matter(problem);
    return status;
}

void wb_ranking_free(WbRanking *ranking)
{
    free(ranking->top);
    free(ranking->front);
    free(ranking->chemistries);
    wb_pool_unref(ranking->pool);
    *ranking = (WbRanking){0};
}
