/* How firmly the first stands: shares and ranges against exact worked examples, the least move of
 * weight against random ones. */
#include "firm.h"
#include "gen.h"
#include "published.h"
#include "random.h"
#include "rank_firm.h"

static const double equal[WB_N_CRITERIA] = {1. / 3, 1. / 3, 1. / 3};

static double share_of(const double (*u)[WB_N_CRITERIA], size_t n, size_t first, int d)
{
    /* Any weights at which it is first will do. */
    WbRandom random;
    wb_random_seed(&random, 5);
    for (int i = 0; i < 20000; i++) {
        double weight[WB_N_CRITERIA] = {0}, sum = 0;
        for (int c = 0; c < d; c++)
            sum += weight[c] = -log(1 - wb_random_unit(&random));
        for (int c = 0; c < d; c++)
            weight[c] /= sum;
        WbFirmness firmness;
        if (wb_firmness(u, n, first, weight, 127, 1, NULL, &firmness) == WB_OK) {
            g_assert_cmpint(firmness.share_error > 0, ==, d > 3);
            return firmness.share;
        }
    }
    return 0;
}

/* Worked exactly in rationals by clipping the simplex. */
static void test_shares_of_three(void)
{
    static const double five[5][WB_N_CRITERIA] = {
        {9, 2, 4}, {5, 7, 5}, {2, 9, 3}, {4, 4, 9}, {6, 5, 4}};
    static const double shares[] = {271. / 990, 232. / 1485, 292. / 1485, 1109. / 2970, 0};
    for (size_t i = 0; i < 5; i++)
        published("worked example, five options", share_of(five, 5, i, 3), shares[i], 1e-12);
    static const double units[3][WB_N_CRITERIA] = {{1}, {0, 1}, {0, 0, 1}};
    for (size_t i = 0; i < 3; i++)
        published("largest of three spacings", share_of(units, 3, i, 3), 1. / 3, 1e-12);
}

static void test_shares_of_two(void)
{
    static const double three[3][WB_N_CRITERIA] = {{1, 0}, {0, 1}, {0.6, 0.6}};
    static const double shares[] = {0.4, 0.4, 0.2};
    for (size_t i = 0; i < 3; i++)
        published("by hand, C first from 0.4 to 0.6", share_of(three, 3, i, 2), shares[i], 1e-12);
}

static void test_shares_of_draws(void)
{
    static const double units[4][WB_N_CRITERIA] = {{1}, {0, 1}, {0, 0, 1}, {0, 0, 0, 1}};
    for (size_t i = 0; i < 4; i++)
        published("largest of four spacings", share_of(units, 4, i, 4), 0.25, 0.0098);
}

/* B and D level at equal weights: B keeps the first place for w1 in [1/3, 3/7], w2 in [1/3, 5/9],
 * w3 in [0, 1/3]. */
static void test_ranges(void)
{
    static const double five[5][WB_N_CRITERIA] = {
        {9, 2, 4}, {5, 7, 5}, {2, 9, 3}, {4, 4, 9}, {6, 5, 4}};
    static const double ends[3][2] = {{1. / 3, 3. / 7}, {1. / 3, 5. / 9}, {0, 1. / 3}};
    WbFirmness firmness;
    g_assert_cmpint(wb_firmness(five, 5, 1, equal, 7, 1, NULL, &firmness), ==, WB_OK);
    for (int c = 0; c < 3; c++) {
        published("worked example, lower end", firmness.range[c].low, ends[c][0], 1e-12);
        published("worked example, upper end", firmness.range[c].high, ends[c][1], 1e-12);
    }
    g_assert_cmpint(firmness.range[0].above, ==, 0);
    g_assert_cmpint(firmness.range[2].above, ==, 3);
    g_assert_cmpint(firmness.range[2].below, ==, -1);
    g_assert_cmpfloat(firmness.moved, ==, 0); /* D is level already */
    g_assert_cmpint(firmness.by, ==, 3);
    g_assert_cmpint(firmness.range[3].above, ==, -1);
}

/* By hand: A (1, 0) leads B (0, 1) at 0.7 and 0.3 by 0.4; each unit moved closes 2: 0.2. */
static void test_least_move(void)
{
    static const double two[2][WB_N_CRITERIA] = {{1, 0}, {0, 1}};
    static const double weight[WB_N_CRITERIA] = {0.7, 0.3};
    WbFirmness firmness;
    g_assert_cmpint(wb_firmness(two, 2, 0, weight, 3, 1, NULL, &firmness), ==, WB_OK);
    g_assert_cmpfloat_with_epsilon(firmness.moved, 0.2, 1e-12);
    g_assert_cmpfloat_with_epsilon(firmness.weight[0], 0.5, 1e-12);
    g_assert_cmpint(firmness.by, ==, 1);
    static const double beaten[2][WB_N_CRITERIA] = {{1, 1}, {0.5, 0.5}};
    g_assert_cmpint(wb_firmness(beaten, 2, 0, weight, 3, 1, NULL, &firmness), ==, WB_OK);
    g_assert_true(isnan(firmness.moved));
    g_assert_cmpint(firmness.by, ==, -1);
    g_assert_cmpfloat(firmness.share, ==, 1);
}

static void test_bad_input(void)
{
    static const double two[2][WB_N_CRITERIA] = {{1, 0}, {0, 1}};
    static const double none[WB_N_CRITERIA] = {0}, wrong[WB_N_CRITERIA] = {0.3, 0.7};
    static const double negative[WB_N_CRITERIA] = {1.5, -0.5};
    WbFirmness firmness;
    g_assert_cmpint(wb_firmness(two, 2, 0, none, 3, 1, NULL, &firmness), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_firmness(two, 2, 0, wrong, 3, 1, NULL, &firmness), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_firmness(two, 2, 0, negative, 3, 1, NULL, &firmness), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_firmness(two, 2, 0, equal, 3, 1, NULL, &firmness), ==, WB_BAD_INPUT);
}

static double score(const double u[WB_N_CRITERIA], const double weight[WB_N_CRITERIA])
{
    double sum = 0;
    for (int c = 0; c < WB_N_CRITERIA; c++)
        sum += u[c] * weight[c];
    return sum;
}

static void random_weights(WbRandom *random, int d, double weight[WB_N_CRITERIA])
{
    double sum = 0;
    for (int c = 0; c < WB_N_CRITERIA; c++)
        sum += weight[c] = c < d ? -log(1 - wb_random_unit(random)) : 0;
    for (int c = 0; c < d; c++)
        weight[c] /= sum;
}

static double half_of_change(const double a[WB_N_CRITERIA], const double b[WB_N_CRITERIA])
{
    double sum = 0;
    for (int c = 0; c < WB_N_CRITERIA; c++)
        sum += fabs(a[c] - b[c]);
    return sum / 2;
}

#define ROWS 12

static gboolean is_best(const double (*u)[WB_N_CRITERIA], size_t first, const double *weight)
{
    for (size_t j = 0; j < ROWS; j++)
        if (score(u[j], weight) > score(u[first], weight) + 1e-9)
            return FALSE;
    return TRUE;
}

/* The change makes the rival level; no random weights nearer dethrone, inside each range it stays
 * first and just beyond it does not. */
static void check(const double (*u)[WB_N_CRITERIA], size_t first, const double *weight, int d,
                  WbRandom *random)
{
    WbFirmness firmness;
    g_assert_cmpint(wb_firmness(u, ROWS, first, weight, (1u << d) - 1, 1, NULL, &firmness), ==,
                    WB_OK);
    if (firmness.by >= 0) {
        g_assert_cmpfloat_with_epsilon(half_of_change(weight, firmness.weight), firmness.moved,
                                       1e-9);
        g_assert_cmpfloat_with_epsilon(score(u[first], firmness.weight),
                                       score(u[firmness.by], firmness.weight), 1e-9);
    }
    for (int i = 0; i < 50; i++) {
        double other[WB_N_CRITERIA];
        random_weights(random, d, other);
        for (int c = 0; c < d; c++)
            other[c] = 0.8 * weight[c] + 0.2 * other[c];
        if (firmness.by < 0 || half_of_change(weight, other) < firmness.moved - 1e-9)
            g_assert_true(is_best(u, first, other));
    }
    for (int c = 0; c < d; c++) {
        const WbWeightRange *range = &firmness.range[c];
        const double at[] = {range->low - 1e-6, range->low + 1e-6, range->high - 1e-6,
                             range->high + 1e-6};
        for (int i = 0; i < 4; i++) {
            double other[WB_N_CRITERIA] = {0};
            for (int k = 0; k < d; k++)
                other[k] = k == c ? at[i] : weight[k] * (1 - at[i]) / (1 - weight[c]);
            if (at[i] >= 0 && at[i] <= 1 && range->high - range->low > 1e-5)
                g_assert_cmpint(is_best(u, first, other), ==, i == 1 || i == 2);
        }
    }
}

static void test_random(void)
{
    WbRandom random;
    wb_random_seed(&random, 77);
    for (int i = 0; i < 2000; i++) {
        double u[ROWS][WB_N_CRITERIA] = {{0}}, weight[WB_N_CRITERIA];
        int d = 2 + (int)wb_random_below(&random, 4);
        size_t first = 0;
        for (int j = 0; j < ROWS; j++)
            for (int c = 0; c < d; c++)
                u[j][c] = wb_random_unit(&random);
        random_weights(&random, d, weight);
        for (size_t j = 1; j < ROWS; j++)
            if (score(u[j], weight) > score(u[first], weight))
                first = j;
        check(u, first, weight, d, &random);
    }
}

/* The same shares asked of every row, first now or not. */
static void test_shares_of_all(void)
{
    static const double five[5][WB_N_CRITERIA] = {
        {9, 2, 4}, {5, 7, 5}, {2, 9, 3}, {4, 4, 9}, {6, 5, 4}};
    static const double shares[] = {271. / 990, 232. / 1485, 292. / 1485, 1109. / 2970, 0};
    double share, error, sum = 0;
    for (size_t i = 0; i < 5; i++) {
        g_assert_cmpint(wb_first_share(five, 5, i, equal, 1, NULL, &share, &error), ==, WB_OK);
        published("worked example, five options, any row", share, shares[i], 1e-12);
        g_assert_cmpfloat(error, ==, 0);
        sum += share;
    }
    g_assert_cmpfloat_with_epsilon(sum, 1, 1e-12);
    static const double none[WB_N_CRITERIA] = {0};
    g_assert_cmpint(wb_first_share(five, 5, 0, none, 1, NULL, &share, &error), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_first_share(five, 5, 5, equal, 1, NULL, &share, &error), ==, WB_BAD_INPUT);
}

/* A front of one criterion while four weigh: asked of the pool it is what the front of all says. */
static void test_from_the_pool(void)
{
    guint asked = 0, others = 0;
    for (guint seed = 1; seed <= 250; seed++) {
        WbRandom random;
        wb_random_seed(&random, seed);
        g_autofree Gen *gen = g_new(Gen, 1);
        GenSize size = gen_small(&random);
        gen_fill(gen, &random, &size);
        for (int c = 0; c < WB_N_CRITERIA; c++)
            gen->brief.weight[c] = c < 3 ? 1 + c : 0;
        WbRankFirm firm[2];
        WbRanking ranking[2];
        WbProblem *problem[2];
        WbBrief brief[2] = {gen->brief, gen->brief};
        brief[0].front = 7;
        brief[1].front = 1;
        for (int i = 0; i < 2; i++) {
            WbRankOptions options = wb_rank_options_default();
            options.pool = i == 1;
            g_assert_cmpint(wb_problem_new(&brief[i], &gen->catalogue, NULL, &problem[i]), ==,
                            WB_OK);
            g_assert_cmpint(wb_rank(problem[i], &options, NULL, &ranking[i]), ==, WB_OK);
            g_assert_cmpint(wb_rank_firm(problem[i], &ranking[i], NULL, &firm[i]), ==, WB_OK);
            g_assert_cmpint(firm[i].known, ==, ranking[i].feasible > 0);
        }
        g_assert_cmpint(firm[0].n_first, ==, firm[1].n_first);
        for (int i = 0; i < firm[0].n_first; i++) {
            g_assert_cmpuint(firm[0].first[i].rank, ==, firm[1].first[i].rank);
            g_assert_cmpfloat_with_epsilon(firm[0].first[i].share, firm[1].first[i].share, 1e-9);
            others += firm[0].first[i].rank > 1;
        }
        if (firm[0].known) {
            g_assert_cmphex(firm[1].criteria, ==, 7);
            g_assert_cmpfloat_with_epsilon(firm[0].firmness.share, firm[1].firmness.share, 1e-9);
            g_assert_cmpint(firm[0].by == NULL, ==, firm[1].by == NULL);
            asked++;
        }
        for (int i = 0; i < 2; i++) {
            wb_rank_firm_free(&firm[i]);
            wb_ranking_free(&ranking[i]);
            wb_problem_free(problem[i]);
        }
    }
    g_assert_cmpuint(asked, >, 20);
    g_assert_cmpuint(others, >, 20);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/firm/shares-of-three", test_shares_of_three);
    g_test_add_func("/firm/shares-of-two", test_shares_of_two);
    g_test_add_func("/firm/shares-of-draws", test_shares_of_draws);
    g_test_add_func("/firm/ranges", test_ranges);
    g_test_add_func("/firm/least-move", test_least_move);
    g_test_add_func("/firm/bad-input", test_bad_input);
    g_test_add_func("/firm/random", test_random);
    g_test_add_func("/firm/shares-of-all", test_shares_of_all);
    g_test_add_func("/firm/from-the-pool", test_from_the_pool);
    g_test_add_func("/firm/published-count", published_count);
    return g_test_run();
}
