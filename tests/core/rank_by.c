/* Ways to rank: worked examples, and that no kit's presence moves two others. */
#include "rank_by.h"
#include "gen.h"
#include "published.h"
#include "rank.h"
#include "second_order.h"
#include <glib.h>
#include <math.h>

/* A problem of two criteria in which less is better, equal weights, anchors none at 10. */
static WbProblem two_criteria(WbWay way)
{
    WbProblem problem = {.rank_by = {.way = way}};
    for (int c = 0; c < WB_N_CRITERIA; c++)
        problem.anchor[c] = (WbAnchor){.full = 0, .none = 10};
    problem.weight[WB_CRITERION_COST] = problem.weight[WB_CRITERION_WEIGHT] = 0.5;
    return problem;
}

static gboolean is_before(const WbProblem *problem, const double *a, const double *b)
{
    const WbKit same = {0};
    double key_a[WB_RANK_KEYS], key_b[WB_RANK_KEYS];
    double figure_a[WB_N_CRITERIA] = {a[0], a[1]}, figure_b[WB_N_CRITERIA] = {b[0], b[1]};
    wb_rank_key_of(problem, figure_a, key_a);
    wb_rank_key_of(problem, figure_b, key_b);
    return wb_rank_key_before(wb_rank_keys(problem), key_a, &same, key_b, &same);
}

/* More is better: the first `n` of the options on a scale from the least to the most of them. */
static double min_max_sum(const double (*options)[2], int n, int which)
{
    double sum = 0;
    for (int c = 0; c < 2; c++) {
        double low = INFINITY, high = -INFINITY;
        for (int i = 0; i < n; i++) {
            low = fmin(low, options[i][c]);
            high = fmax(high, options[i][c]);
        }
        sum += 0.5 * (options[which][c] - low) / (high - low);
    }
    return sum;
}

/* Ranks that reverse (Belton & Gear 1983; example of our own, exact in fractions): measured on the
 * span of the list itself, the first two swap once C joins, which all others beat. On anchors that
 * are fixed, nothing another option does can show. */
static void test_no_rank_reversal(void)
{
    enum { A, B, D, C, N };
    static const double options[N][2] = {{9, 2}, {5, 6}, {1, 9}, {1, 0}};
    static const double sums_of_three[] = {1. / 2, 15. / 28, 1. / 2};
    static const double sums_of_four[] = {11. / 18, 7. / 12, 1. / 2, 0};
    for (int i = 0; i < 3; i++)
        published("min-max, three options", min_max_sum(options, 3, i), sums_of_three[i], 1e-12);
    for (int i = 0; i < N; i++)
        published("min-max, four options", min_max_sum(options, N, i), sums_of_four[i], 1e-12);
    g_assert_true(min_max_sum(options, 3, B) > min_max_sum(options, 3, A));
    g_assert_true(min_max_sum(options, N, A) > min_max_sum(options, N, B));

    static const WbAnchor anchors[2] = {{.full = 9, .none = 1}, {.full = 9, .none = 2}};
    double score[N] = {0};
    for (int i = 0; i < N; i++)
        for (int c = 0; c < 2; c++)
            score[i] += 0.5 * wb_worth(&anchors[c], WB_CRITERION_USABLE, options[i][c]);
    for (int i = 0; i < 3; i++)
        published("fixed anchors, with C as without", score[i], sums_of_three[i], 1e-12);
    g_assert_cmpfloat(score[C], <, score[D]);
}

/* The middle of three on the front lies above the line between the others: no weights put it
 * first, for 6 <= min(10 w, 10 - 10 w) has no answer. The distance from the goal 0, 0 does
 * (Wierzbicki 1980; Steuer & Choo 1983). */
static void test_unsupported(void)
{
    static const double p[2] = {0, 10}, q[2] = {6, 6}, r[2] = {10, 0};
    WbProblem by_score = two_criteria(WB_WAY_SCORE), by_goals = two_criteria(WB_WAY_GOALS);
    for (int i = 0; i <= 1000; i++) {
        by_score.weight[WB_CRITERION_COST] = i / 1000.;
        by_score.weight[WB_CRITERION_WEIGHT] = 1 - i / 1000.;
        g_assert_true(is_before(&by_score, p, q) || is_before(&by_score, r, q));
    }
    g_assert_true(is_before(&by_goals, q, p));
    g_assert_true(is_before(&by_goals, q, r));
    static const double figure[WB_N_CRITERIA] = {6, 6};
    /* 0.5 x 0.6, and a thousandth of twice that */
    g_assert_cmpfloat_with_epsilon(wb_distance(&by_goals, figure), 0.3006, 1e-12);
}

/* Cost before weight: (99, 9), (100, 4), (100, 5). With steps of 50 the three cost 1, 2 and 2. */
static void test_importance(void)
{
    static const double a[2] = {100, 5}, b[2] = {100, 4}, c[2] = {99, 9}, d[2] = {149, 3};
    WbProblem problem = two_criteria(WB_WAY_IMPORTANCE);
    problem.rank_by.n_important = 2;
    problem.rank_by.important[0] = (WbImportant){WB_CRITERION_COST, 0};
    problem.rank_by.important[1] = (WbImportant){WB_CRITERION_WEIGHT, 0};
    g_assert_true(is_before(&problem, c, b));
    g_assert_true(is_before(&problem, b, a));
    g_assert_true(is_before(&problem, a, d));
    problem.rank_by.important[0].step = 50;
    g_assert_true(is_before(&problem, c, d));
    g_assert_true(is_before(&problem, d, b)); /* as dear as that now, and lighter */
    problem.rank_by.important[1].step = 10;   /* all level but c: the score decides */
    g_assert_true(is_before(&problem, b, a));
    g_assert_true(is_before(&problem, a, d));
}

static void test_steps(void)
{
    static const struct {
        WbCriterion criterion;
        double step, x, n;
    } rows[] = {
        {WB_CRITERION_COST, 5000, 4999, 0}, {WB_CRITERION_COST, 5000, 5000, 1},
        {WB_CRITERION_WEIGHT, 0.1, 0.3, 3}, /* 0.3 / 0.1 is a little less in doubles */
        {WB_CRITERION_WEIGHT, 0, 0.3, 0.3}, {WB_CRITERION_USABLE, 4, 9, 2},
        {WB_CRITERION_USABLE, 4, 900, 2}, /* enough at 10 */
        {WB_CRITERION_MARGIN, 4, -1, -1},
    };
    WbProblem problem = two_criteria(WB_WAY_IMPORTANCE);
    problem.anchor[WB_CRITERION_USABLE] = (WbAnchor){.full = 10, .none = 0};
    problem.anchor[WB_CRITERION_MARGIN] = (WbAnchor){.full = 10, .none = 0};
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++) {
        WbImportant important = {rows[i].criterion, rows[i].step};
        g_assert_cmpfloat(wb_step_of(&problem, &important, rows[i].x), ==, rows[i].n);
    }
}

static void test_shortfall(void)
{
    static const struct {
        WbCriterion criterion;
        double full, none, goal, x, shortfall;
    } rows[] = {
        {WB_CRITERION_COST, 0, 2000, 1000, 1500, 0.25},
        {WB_CRITERION_COST, 0, 2000, 1000, 500, -0.25}, /* cheaper is always nearer */
        {WB_CRITERION_USABLE, 3000, 1000, 2500, 2000, 0.25},
        {WB_CRITERION_USABLE, 3000, 1000, 2500, 2800, 0}, /* enough is enough */
        {WB_CRITERION_WEIGHT, 50, 50, 40, 40, 0},         /* anchors that coincide */
        {WB_CRITERION_WEIGHT, 50, 50, 40, 41, 1},
        {WB_CRITERION_SPARE, 50, 50, 40, 41, 0},
    };
    WbProblem problem = two_criteria(WB_WAY_GOALS);
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++) {
        problem.anchor[rows[i].criterion] = (WbAnchor){rows[i].full, rows[i].none};
        problem.rank_by.goal[rows[i].criterion] = rows[i].goal;
        g_assert_cmpfloat_with_epsilon(wb_shortfall(&problem, rows[i].criterion, rows[i].x),
                                       rows[i].shortfall, 1e-12);
    }
}

/* Left open, a goal is the anchor "full" and a step a twentieth of the anchors' distance. */
static void test_defaults(void)
{
    WbRandom random;
    wb_random_seed(&random, 4);
    g_autofree Gen *gen = g_new(Gen, 1);
    GenSize size = gen_small(&random);
    gen_fill(gen, &random, &size);
    WbRankBy *by = &gen->brief.rank_by;
    for (int c = 0; c < WB_N_CRITERIA; c++)
        by->goal[c] = WB_MISSING;
    by->goal[WB_CRITERION_WEIGHT] = 12;
    by->n_important = 2;
    by->important[0] = (WbImportant){WB_CRITERION_WEIGHT, WB_MISSING};
    by->important[1] = (WbImportant){WB_CRITERION_COST, 7};
    gen->brief.anchor[WB_CRITERION_WEIGHT] = (WbAnchor){10, 50};
    gen->brief.anchor[WB_CRITERION_ROOF] = (WbAnchor){1, 3};
    WbProblem *problem;
    g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
    g_assert_cmpfloat(problem->rank_by.goal[WB_CRITERION_ROOF], ==, 1);
    g_assert_cmpfloat(problem->rank_by.goal[WB_CRITERION_WEIGHT], ==, 12);
    g_assert_cmpfloat(problem->rank_by.important[0].step, ==, 2);
    g_assert_cmpfloat(problem->rank_by.important[1].step, ==, 7);
    wb_problem_free(problem);
}

/* Two kits of a ranking stand in it as they stand without the third: the whole list with each part
 * of the catalogue left out in turn is the whole list without its kits. */
static void check_without(Gen *gen, const WbProblem *problem, const WbRanking *whole,
                          const char *part_id)
{
    WbBrief brief = gen->brief;
    g_autoptr(GPtrArray) ids = g_ptr_array_new();
    for (size_t i = 0; i < gen->n_ids; i++)
        if (g_strcmp0(gen->id[i], part_id) != 0 &&
            (!brief.candidates || wb_brief_ticks(&brief, gen->id[i])))
            g_ptr_array_add(ids, gen->id[i]);
    brief.candidates = (const char *const *)ids->pdata;
    brief.n_candidates = ids->len;
    WbProblem *less;
    WbRanking part;
    WbRankOptions options = wb_rank_options_default();
    options.top = 100000;
    g_assert_cmpint(wb_problem_new(&brief, &gen->catalogue, NULL, &less), ==, WB_OK);
    g_assert_cmpint(wb_rank(less, &options, NULL, &part), ==, WB_OK);
    size_t j = 0;
    for (size_t i = 0; i < whole->n_top; i++) {
        char id[WB_KIT_ID], other[WB_KIT_ID];
        wb_kit_id(problem, &whole->top[i].kit, id);
        if (j < part.n_top)
            wb_kit_id(less, &part.top[j].kit, other);
        if (strstr(id, part_id) == NULL) {
            g_assert_cmpuint(j, <, part.n_top);
            g_assert_cmpstr(id, ==, other);
            j++;
        }
    }
    g_assert_cmpuint(j, ==, part.n_top);
    wb_ranking_free(&part);
    wb_problem_free(less);
}

static void test_others_do_not_matter(void)
{
    guint64 kits = 0;
    g_autofree Gen *gen = g_new(Gen, 1);
    for (guint seed = 1; seed <= 400; seed++) {
        WbRandom random;
        wb_random_seed(&random, seed);
        GenSize size = gen_small(&random);
        gen_fill(gen, &random, &size);
        random_way(&random, &gen->brief);
        WbProblem *problem;
        WbRanking ranking;
        WbRankOptions options = wb_rank_options_default();
        options.top = 100000;
        g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
        g_assert_cmpint(wb_rank(problem, &options, NULL, &ranking), ==, WB_OK);
        if (ranking.n_top > 1) {
            check_without(gen, problem, &ranking,
                          problem->panels[ranking.top[0].kit.panel].panel->part.id);
            check_without(gen, problem, &ranking,
                          problem->storage[ranking.top[0].kit.storage].storage->part.id);
        }
        kits += ranking.n_top;
        wb_ranking_free(&ranking);
        wb_problem_free(problem);
    }
    g_assert_cmpuint(kits, >, 500);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/rank-by/no-rank-reversal", test_no_rank_reversal);
    g_test_add_func("/rank-by/unsupported", test_unsupported);
    g_test_add_func("/rank-by/importance", test_importance);
    g_test_add_func("/rank-by/steps", test_steps);
    g_test_add_func("/rank-by/shortfall", test_shortfall);
    g_test_add_func("/rank-by/defaults", test_defaults);
    g_test_add_func("/rank-by/others-do-not-matter", test_others_do_not_matter);
    g_test_add_func("/rank-by/published-count", published_count);
    return g_test_run();
}
