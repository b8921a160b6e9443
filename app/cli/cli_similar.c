#include "cli_similar.h"

#include "cli_job.h"
#include "cli_ranking.h"
#include "words_similar.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static WbCliKit from_row(const WbRanked *row)
{
    return (WbCliKit){row->kit, row->figures.cost_minor, row->figures.weight_g, row};
}

/* The rows of the ranking are the first of the pool in order. */
static bool starts_as(const WbRanking *ranking, const uint32_t *order, size_t n)
{
    for (size_t i = 0; i < ranking->n_top; i++) {
        WbKit kit = i < n ? wb_pooled_kit(&ranking->pool->kit[order[i]]) : (WbKit){0};
        if (i >= n || wb_kit_compare(NULL, &kit, &ranking->top[i].kit) != 0)
            return false;
    }
    return true;
}

/* Everything that works in order, where the ranking keeps fewer rows: out of its pool. */
static bool take_pool(const WbProblem *problem, const WbRanking *ranking, WbCliSimilar *similar)
{
    const WbPool *pool = ranking->pool;
    uint32_t *order;
    size_t n;
    if (ranking->n_top >= ranking->feasible || pool == NULL ||
        wb_pool_order(problem, pool, &order, &n) != WB_OK)
        return false;
    if (!starts_as(ranking, order, n)) {
        free(order);
        return false;
    }
    similar->n = MIN(n, MAX(WB_CLI_SIMILAR_ROWS, ranking->n_top));
    similar->whole = similar->n == n;
    similar->kits = g_new(WbCliKit, similar->n + 1);
    for (size_t i = 0; i < similar->n; i++) {
        if (i < ranking->n_top) {
            similar->kits[i] = from_row(&ranking->top[i]);
            continue;
        }
        similar->kits[i] = (WbCliKit){
            .kit = wb_pooled_kit(&pool->kit[order[i]]),
            .cost_minor = (int64_t)pool->figure[WB_CRITERION_COST][order[i]],
            .weight_g = llround(pool->figure[WB_CRITERION_WEIGHT][order[i]] * 1e3),
        };
    }
    free(order);
    return true;
}

static void take_rows(const WbRanked *rows, size_t n, uint64_t of, WbCliSimilar *similar)
{
    similar->n = n;
    similar->whole = n == of;
    similar->kits = g_new(WbCliKit, n + 1);
    for (size_t i = 0; i < n; i++)
        similar->kits[i] = from_row(&rows[i]);
}

int wb_cli_similar(const WbProblem *problem, const WbRanking *ranking, bool front,
                   WbCliSimilar *similar)
{
    if (front)
        take_rows(ranking->front, ranking->n_front, ranking->front_count, similar);
    else if (!take_pool(problem, ranking, similar))
        take_rows(ranking->top, ranking->n_top, ranking->feasible, similar);
    similar->rows = g_new0(WbSimilarRow, similar->n + 1);
    g_autofree const WbKit **kits = g_new(const WbKit *, similar->n + 1);
    for (size_t i = 0; i < similar->n; i++)
        kits[i] = &similar->kits[i].kit;
    WbStatus status = wb_similar_group(kits, similar->n, similar->rows, &similar->n_groups);
    return status == WB_OK ? WB_EXIT_DONE : wb_cli_fail_status(status);
}

void wb_cli_similar_clear(WbCliSimilar *similar)
{
    g_free(similar->rows);
    g_free(similar->kits);
    *similar = (WbCliSimilar){0};
}

static char *like_line(const WbProblem *problem, const WbCliSimilar *similar, const uint64_t *ranks,
                       size_t i)
{
    size_t n = 0, n_like = similar->rows[i].n_like;
    if (n_like == 0)
        return NULL;
    g_autofree WbLike *like = g_new(WbLike, n_like);
    for (size_t j = i + 1; n < n_like; j++)
        if (similar->rows[j].leader == i)
            like[n++] = (WbLike){similar->kits[j].cost_minor, similar->kits[j].weight_g, ranks[j],
                                 similar->rows[j].differs};
    g_autofree char *sentence = wb_words_like_it(problem, like, n);
    return g_strdup_printf("+ %s", sentence);
}

/* The place in the list is the rank, but for the front. */
static uint64_t *find_ranks(const WbProblem *problem, const WbRanking *ranking,
                            const WbCliSimilar *similar, bool front)
{
    uint64_t *ranks = g_new0(uint64_t, similar->n + 1);
    g_autofree WbStanding *standings =
        front ? wb_cli_standings(problem, ranking, ranking->front, similar->n) : NULL;
    for (size_t i = 0; i < similar->n; i++)
        ranks[i] = front ? standings[i].rank : i + 1;
    return ranks;
}

/* Worked out in full where the ranking keeps no row of it. */
static WbRanked full_row(const WbProblem *problem, const WbRanking *ranking, const WbCliKit *kit)
{
    if (kit->row != NULL)
        return *kit->row;
    WbVerdict verdict;
    wb_judge(problem, &kit->kit, &verdict);
    WbRanked row = {.kit = kit->kit, .figures = verdict.figures, .score = verdict.score};
    memcpy(row.u, verdict.u, sizeof row.u);
    row.on_front = wb_cli_standing(problem, ranking, &kit->kit).on_front > 0;
    return row;
}

WbCliLeaders wb_cli_leaders(const WbProblem *problem, const WbRanking *ranking,
                            const WbCliSimilar *similar, bool front, size_t top)
{
    WbCliLeaders leaders = {0};
    size_t most = MIN(top, similar->n_groups);
    g_autofree uint64_t *ranks = find_ranks(problem, ranking, similar, front);
    bool known = !ranking->front_too_many;
    leaders.kits = g_new0(WbRanked, most + 1);
    leaders.standings = g_new0(WbStanding, most + 1);
    leaders.like = g_new0(char *, most + 1);
    for (size_t i = 0; leaders.n < most; i++) {
        if (similar->rows[i].leader != i)
            continue;
        size_t at = leaders.n++;
        leaders.kits[at] = full_row(problem, ranking, &similar->kits[i]);
        leaders.standings[at] =
            (WbStanding){.rank = ranks[i], .on_front = known ? leaders.kits[at].on_front : -1};
        leaders.like[at] = like_line(problem, similar, ranks, i);
    }
    return leaders;
}

void wb_cli_leaders_clear(WbCliLeaders *leaders)
{
    for (size_t i = 0; i < leaders->n; i++)
        g_free(leaders->like[i]);
    g_free(leaders->like);
    g_free(leaders->kits);
    g_free(leaders->standings);
    *leaders = (WbCliLeaders){0};
}

/* As data/FORMATS.md and the man page name them. */
static const char *choice_name(WbKitChoice choice)
{
    static const char *const names[WB_N_KIT_CHOICES + 1] = {
        [WB_KIT_PANELS] = "panels", [WB_KIT_CONTROLLERS] = "controllers",
        [WB_KIT_BANK] = "bank",     [WB_KIT_INVERTER] = "inverter",
        [WB_KIT_DCDC] = "dcdc",     [WB_N_KIT_CHOICES] = "panel-wiring",
    };
    return names[choice];
}

void wb_cli_similar_json(WbJsonOut *json, const WbProblem *problem, const WbCliSimilar *similar,
                         size_t i)
{
    const WbSimilarRow *row = &similar->rows[i];
    char id[WB_KIT_ID];
    bool leads = row->leader == i;
    wb_kit_id(problem, &similar->kits[row->leader].kit, id);
    wb_out_object(json, "similar");
    wb_out_text(json, "leader", id);
    wb_out_text(json, "differs_in", leads ? NULL : choice_name(row->differs));
    wb_out_count(json, "like_leader", similar->rows[row->leader].n_like);
    wb_out_end_object(json);
}
