/* The pool of a ranking, and rankings made anew from it: each equal to searching again. */
#include "pool.h"
#include "gen.h"
#include "rank.h"
#include "second_order.h"
#include <glib.h>
#include <math.h>
#include <string.h>

#define CATALOGUES 300

static WbRankOptions pooled(int workers)
{
    WbRankOptions options = wb_rank_options_default();
    options.pool = true;
    options.workers = workers;
    return options;
}

/* Every kit of the pool is what its judge says it is, and none that works is missing. */
static void check_pool(const WbProblem *problem, const WbRanking *ranking)
{
    const WbPool *pool = ranking->pool;
    g_assert_true(pool->whole && pool->beyond);
    guint64 works = 0;
    for (size_t i = 0; i < pool->n; i++) {
        WbVerdict verdict;
        WbKit kit = wb_pooled_kit(&pool->kit[i]);
        wb_judge_without_year(problem, &kit, &verdict);
        bool working = pool->kit[i].stop == WB_N_RULES;
        works += working;
        if (working)
            g_assert_true(verdict.feasible);
        else
            g_assert_cmphex(verdict.broken, ==, UINT64_C(1) << pool->kit[i].stop);
        for (int c = 0; c < WB_N_CRITERIA; c++)
            if (c != WB_CRITERION_DARK)
                g_assert_cmpfloat(pool->figure[c][i], ==, wb_figure(&verdict.figures, c));
    }
    g_assert_cmpuint(works, ==, ranking->feasible);
}

static void check_beyond(const WbProblem *problem, const WbRanking *ranking)
{
    const WbBrief *brief = problem->brief;
    guint64 beyond[2] = {0};
    for (size_t i = 0; i < ranking->pool->n; i++) {
        const WbPooled *kit = &ranking->pool->kit[i];
        if (kit->stop == WB_N_RULES)
            continue;
        bool money = kit->stop == WB_RULE_MONEY;
        double limit = money ? brief->money_minor.value : brief->weight_kg.value;
        double x = ranking->pool->figure[money ? WB_CRITERION_COST : WB_CRITERION_WEIGHT][i];
        g_assert_cmpfloat(x, >, limit);
        g_assert_cmpfloat(x, <=, WB_POOL_BEYOND * limit);
        beyond[money]++;
    }
    g_assert_cmpuint(beyond[1], <=, ranking->ruled_out[WB_RULE_MONEY].alone);
    g_assert_cmpuint(beyond[0], <=, ranking->ruled_out[WB_RULE_WEIGHT].alone);
}

static void check_same_rows(const WbRanked *a, size_t n_a, const WbRanked *b, size_t n_b)
{
    g_assert_cmpuint(n_a, ==, n_b);
    for (size_t i = 0; i < n_a; i++) {
        g_assert_cmpint(wb_kit_compare(NULL, &a[i].kit, &b[i].kit), ==, 0);
        g_assert_true(a[i].on_front == b[i].on_front);
        g_assert_cmpfloat(a[i].score, ==, b[i].score);
        for (int c = 0; c < WB_N_CRITERIA; c++)
            g_assert_true(a[i].u[c] == b[i].u[c] || (isnan(a[i].u[c]) && isnan(b[i].u[c])));
    }
}

static void check_same(const WbRanking *a, const WbRanking *b)
{
    check_same_rows(a->top, a->n_top, b->top, b->n_top);
    check_same_rows(a->front, a->n_front, b->front, b->n_front);
    g_assert_cmpuint(a->front_count, ==, b->front_count);
    g_assert_cmpuint(a->feasible, ==, b->feasible);
    g_assert_cmpuint(a->raw, ==, b->raw);
    for (size_t i = 0; i < a->n_chemistries; i++) {
        g_assert_cmpuint(a->chemistries[i].feasible, ==, b->chemistries[i].feasible);
        if (a->chemistries[i].feasible)
            check_same_rows(&a->chemistries[i].best, 1, &b->chemistries[i].best, 1);
    }
    for (int r = 0; r < WB_N_RULES; r++)
        g_assert_cmpuint(a->ruled_out[r].alone, ==, b->ruled_out[r].alone);
}

/* Other weights, another way to rank; now and then another front, other anchors. */
static void change_mind(WbRandom *random, WbBrief *brief)
{
    for (int c = 0; c < WB_N_CRITERIA; c++)
        brief->weight[c] = (double)wb_random_below(random, 5);
    brief->weight[WB_CRITERION_COST] += 1;
    if (wb_random_below(random, 2))
        brief->front = 1 + (uint32_t)wb_random_below(random, (1u << WB_N_CRITERIA) - 1);
    random_way(random, brief);
    if (wb_random_below(random, 3) == 0)
        brief->anchor[WB_CRITERION_USABLE] =
            (WbAnchor){.full = 1000.0 + (double)wb_random_below(random, 4000), .none = 0.0};
}

static bool dark_hours_order(const WbBrief *brief)
{
    const WbRankBy *by = &brief->rank_by;
    for (int i = 0; by->way == WB_WAY_IMPORTANCE && i < by->n_important; i++)
        if (by->important[i].criterion == WB_CRITERION_DARK)
            return true;
    return brief->weight[WB_CRITERION_DARK] > 0 || brief->front >> WB_CRITERION_DARK & 1;
}

static void check_again(const WbProblem *problem, const WbRanking *base, WbRandom *random)
{
    WbBrief other = *problem->brief;
    change_mind(random, &other);
    WbProblem *changed;
    g_assert_cmpint(wb_problem_new(&other, problem->catalogue, NULL, &changed), ==, WB_OK);
    WbRankOptions options = pooled(1);
    options.top = 1 + (size_t)wb_random_below(random, 60);
    WbRanking again, searched;
    WbStatus status = wb_rerank(changed, &options, base, problem->brief->front, NULL, &again);
    if (status == WB_BAD_INPUT)
        g_assert_true(dark_hours_order(&other) && !dark_hours_order(problem->brief));
    else {
        g_assert_cmpint(status, ==, WB_OK);
        g_assert_cmpint(wb_rank(changed, &options, NULL, &searched), ==, WB_OK);
        check_same(&again, &searched);
        wb_ranking_free(&searched);
        wb_ranking_free(&again);
    }
    wb_problem_free(changed);
}

static void check_workers(const WbProblem *problem, const WbRanking *one)
{
    WbRanking three;
    WbRankOptions options = pooled(3);
    g_assert_cmpint(wb_rank(problem, &options, NULL, &three), ==, WB_OK);
    check_same(one, &three);
    g_assert_cmpuint(one->pool->n, ==, three.pool->n);
    g_assert_cmpmem(one->pool->kit, one->pool->n * sizeof(WbPooled), three.pool->kit,
                    three.pool->n * sizeof(WbPooled));
    wb_ranking_free(&three);
}

static void test_again(void)
{
    guint64 kits = 0, beyond = 0;
    for (guint seed = 1; seed <= CATALOGUES; seed++) {
        WbRandom random;
        wb_random_seed(&random, seed);
        g_autofree Gen *gen = g_new(Gen, 1);
        GenSize size = gen_small(&random);
        gen_fill(gen, &random, &size);
        WbProblem *problem;
        g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
        WbRanking base;
        WbRankOptions options = pooled(1);
        g_assert_cmpint(wb_rank(problem, &options, NULL, &base), ==, WB_OK);
        check_pool(problem, &base);
        check_beyond(problem, &base);
        check_workers(problem, &base);
        for (int i = 0; i < 3; i++)
            check_again(problem, &base, &random);
        kits += base.feasible;
        beyond += base.pool->n - base.feasible;
        wb_ranking_free(&base);
        wb_problem_free(problem);
    }
    g_assert_cmpuint(kits, >, 400);
    g_assert_cmpuint(beyond, >, 100);
}

/* In a hurry the dark hours are left for later: all else as in a ranking without that limit. */
static void test_hurried(void)
{
    guint unproved = 0;
    for (guint seed = 1; seed <= 60; seed++) {
        WbRandom random;
        wb_random_seed(&random, seed);
        g_autofree Gen *gen = g_new(Gen, 1);
        GenSize size = gen_small(&random);
        gen_fill(gen, &random, &size);
        gen->brief.weight[WB_CRITERION_DARK] = 0;
        gen->brief.weight[WB_CRITERION_COST] = 1;
        gen->brief.front = 7;
        WbBrief eased = gen->brief;
        eased.dark_hours.on = false;
        WbProblem *whole, *part;
        g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &whole), ==, WB_OK);
        g_assert_cmpint(wb_problem_new(&eased, &gen->catalogue, NULL, &part), ==, WB_OK);
        WbRankOptions options = wb_rank_options_default();
        WbRanking first, second;
        g_assert_cmpint(wb_rank(part, &options, NULL, &second), ==, WB_OK);
        options.hurried = true;
        options.hurried_dark_rows = 4;
        options.pool = true;
        g_assert_cmpint(wb_rank(whole, &options, NULL, &first), ==, WB_OK);
        g_assert_false(first.pool->beyond);
        g_assert_cmpuint(first.pool->n, ==, first.feasible);
        g_assert_true(second.proved);
        g_assert_true(first.proved == !gen->brief.dark_hours.on);
        unproved += !first.proved;
        g_assert_cmpuint(first.n_top, ==, second.n_top);
        for (size_t i = 0; i < first.n_top; i++) {
            g_assert_cmpint(wb_kit_compare(NULL, &first.top[i].kit, &second.top[i].kit), ==, 0);
            g_assert_true(isnan(first.top[i].figures.dark_h) == (i >= 4));
        }
        wb_ranking_free(&first);
        wb_ranking_free(&second);
        wb_problem_free(whole);
        wb_problem_free(part);
    }
    g_assert_cmpuint(unproved, >, 5);
}

static void test_full(void)
{
    WbPool *pool = wb_pool_new(NULL);
    const WbKit kit = {.panel = 1, .n_series = 1, .n_parallel = 1};
    const WbFigures figures = {.cost_minor = 1};
    for (size_t i = 0; i < WB_POOL_MOST; i++)
        g_assert_true(wb_pool_add(pool, &kit, WB_N_RULES, &figures));
    g_assert_true(pool->whole);
    g_assert_cmpuint(pool->n, ==, WB_POOL_MOST);
    g_assert_true(wb_pool_add(pool, &kit, WB_N_RULES, &figures));
    g_assert_false(pool->whole);
    g_assert_cmpuint(pool->n, ==, 0);
    wb_pool_unref(pool);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/pool/again", test_again);
    g_test_add_func("/pool/hurried", test_hurried);
    g_test_add_func("/pool/full", test_full);
    return g_test_run();
}
