/* Kits whose place hangs on their dark hours: settled a few at a time, in any order, they stand
 * where a plain sort and a comparison of all pairs puts them; and few of them are balanced. */
#include "late.h"
#include "gen.h"
#include "rank.h"
#include <glib.h>
#include <math.h>
#include <string.h>

typedef struct {
    WbProblem *problem;
    WbCarry carry;
    WbDarkMemo memo;
    WbBest best;
    WbFront front;
    WbTally *tally;
    WbLate late;
} Settled;

static void begin(WbProblem *problem, size_t top, size_t most_waiting, Settled *settled)
{
    size_t n = problem->catalogue->n_chemistries;
    *settled = (Settled){.problem = problem};
    g_assert_true(wb_carry_init(&settled->carry, problem, NULL));
    wb_best_init(&settled->best, problem, top);
    wb_front_init(&settled->front, problem->brief->front, NULL);
    settled->tally = g_new0(WbTally, n + 1);
    for (size_t i = 0; i < n; i++)
        wb_best_init(&settled->tally[i].best, problem, 1);
    wb_late_init(&settled->late, &settled->carry, &settled->memo);
    settled->late.best = &settled->best;
    settled->late.front = &settled->front;
    settled->late.tally = settled->tally;
    settled->late.most_waiting = most_waiting;
}

static void end(Settled *settled)
{
    for (size_t i = 0; i < settled->problem->catalogue->n_chemistries; i++)
        wb_best_free(&settled->tally[i].best);
    g_free(settled->tally);
    wb_late_free(&settled->late);
    wb_carry_free(&settled->carry);
    wb_dark_memo_free(&settled->memo);
    wb_best_free(&settled->best);
    wb_front_free(&settled->front);
}

/* Kits that work, with all figures, dark hours too. */
typedef struct {
    WbKit kit;
    double figure[WB_N_CRITERIA];
    double score;
} Full;

static GArray *full_kits(const WbProblem *problem, const WbPool *pool)
{
    GArray *kits = g_array_new(FALSE, FALSE, sizeof(Full));
    for (size_t i = 0; i < pool->n; i++) {
        if (pool->kit[i].stop != WB_N_RULES)
            continue;
        WbVerdict verdict;
        Full full = {.kit = wb_pooled_kit(&pool->kit[i])};
        g_assert_cmpint(wb_judge(problem, &full.kit, &verdict), ==, WB_OK);
        for (int c = 0; c < WB_N_CRITERIA; c++)
            full.figure[c] = wb_figure(&verdict.figures, (WbCriterion)c);
        full.score = verdict.score;
        g_array_append_val(kits, full);
    }
    return kits;
}

static void shuffle(WbRandom *random, GArray *kits)
{
    for (guint i = kits->len; i > 1; i--) {
        guint j = (guint)wb_random_below(random, i);
        Full held = g_array_index(kits, Full, i - 1);
        g_array_index(kits, Full, i - 1) = g_array_index(kits, Full, j);
        g_array_index(kits, Full, j) = held;
    }
}

static int by_score(gconstpointer left, gconstpointer right)
{
    const Full *a = left, *b = right;
    if (a->score != b->score)
        return a->score > b->score ? -1 : 1;
    return wb_kit_compare(NULL, &a->kit, &b->kit);
}

static gboolean beats(uint32_t front, const Full *a, const Full *b)
{
    gboolean better = FALSE;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        double sign = wb_criterion_less_is_better((WbCriterion)c) ? 1 : -1;
        if (!(front >> c & 1))
            continue;
        if (sign * a->figure[c] > sign * b->figure[c])
            return FALSE;
        better |= sign * a->figure[c] < sign * b->figure[c];
    }
    return better;
}

static gboolean is_on_front(const WbFront *front, const WbKit *kit)
{
    for (size_t i = 0; i < front->n_front; i++)
        if (wb_kit_compare(NULL, &front->kits[i].kit, kit) == 0)
            return TRUE;
    return FALSE;
}

static void compare(Settled *settled, GArray *kits)
{
    g_array_sort(kits, by_score);
    wb_best_sort(&settled->best);
    g_assert_cmpuint(settled->best.n, ==, MIN(settled->best.most, kits->len));
    for (size_t i = 0; i < settled->best.n; i++) {
        const Full *full = &g_array_index(kits, Full, i);
        g_assert_cmpint(wb_kit_compare(NULL, &settled->best.heap[i].kit, &full->kit), ==, 0);
        g_assert_true(settled->best.heap[i].key[0] == full->score);
    }
    size_t front = 0;
    for (guint i = 0; i < kits->len; i++) {
        gboolean beaten = FALSE;
        for (guint j = 0; j < kits->len && !beaten; j++)
            beaten = beats(settled->front.criteria, &g_array_index(kits, Full, j),
                           &g_array_index(kits, Full, i));
        front += !beaten;
        g_assert_true(is_on_front(&settled->front, &g_array_index(kits, Full, i).kit) == !beaten);
    }
    g_assert_cmpuint(front, ==, settled->front.n_front);
}

static size_t settle(WbProblem *problem, GArray *kits, size_t top, size_t most_waiting)
{
    Settled settled;
    begin(problem, top, most_waiting, &settled);
    for (guint i = 0; i < kits->len; i++) {
        Full full = g_array_index(kits, Full, i);
        full.figure[WB_CRITERION_DARK] = NAN;
        g_assert_cmpint(wb_late_take(&settled.late, &full.kit, full.figure), ==, WB_OK);
    }
    g_assert_cmpint(wb_late_finish(&settled.late), ==, WB_OK);
    g_assert_cmpint(wb_front_finish(&settled.front), ==, WB_OK);
    compare(&settled, kits);
    size_t known = settled.memo.n;
    end(&settled);
    return known;
}

static WbProblem *new_problem(Gen *gen, WbRandom *random)
{
    GenSize size = {6, 4, 5, 3, 2, 3, 3, 1, 2, 3};
    gen_fill(gen, random, &size);
    WbBrief *brief = &gen->brief;
    brief->money_minor.on = brief->weight_kg.on = brief->dark_hours.on = false;
    brief->weight[WB_CRITERION_DARK] = (double)wb_random_below(random, 4);
    brief->front = (uint32_t)wb_random_below(random, 1u << WB_N_CRITERIA) | 1;
    WbProblem *problem;
    g_assert_cmpint(wb_problem_new(brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
    return problem;
}

static void test_settled(void)
{
    WbRandom random;
    wb_random_seed(&random, 20261130);
    Gen *gen = g_new(Gen, 1);
    guint64 kits_seen = 0, ordered = 0, known = 0;
    for (int i = 0; i < 60; i++) {
        WbProblem *problem = new_problem(gen, &random);
        WbRankOptions options = wb_rank_options_default();
        WbRanking ranking;
        options.pool = true;
        g_assert_cmpint(wb_rank(problem, &options, NULL, &ranking), ==, WB_OK);
        GArray *kits = full_kits(problem, ranking.pool);
        shuffle(&random, kits);
        size_t top = 1 + (size_t)wb_random_below(&random, 8);
        settle(problem, kits, top, 1 + (size_t)wb_random_below(&random, 20));
        shuffle(&random, kits);
        size_t now_known = settle(problem, kits, top, 1000000);
        kits_seen += kits->len;
        if (gen->brief.weight[WB_CRITERION_DARK] > 0 &&
            !(gen->brief.front >> WB_CRITERION_DARK & 1)) {
            ordered += kits->len;
            known += now_known;
        }
        g_array_unref(kits);
        wb_ranking_free(&ranking);
        wb_problem_free(problem);
    }
    g_test_message("%" G_GUINT64_FORMAT " kits; of %" G_GUINT64_FORMAT
                   " that only the score orders %" G_GUINT64_FORMAT " figures were needed",
                   kits_seen, ordered, known);
    g_assert_cmpuint(kits_seen, >, 5000);
    g_assert_cmpuint(ordered, >, 1000);
    g_assert_cmpuint(4 * known, <, ordered);
    g_free(gen);
}

/* Kits of one key share a figure; what is asked again is not worked out again. */
static void test_memo(void)
{
    WbDarkMemo memo = {0}, other = {0};
    WbDarkKey key;
    memset(&key, 0, sizeof key);
    for (int i = 0; i < 5000; i++) {
        key.storage = i;
        g_assert_true(isnan(wb_dark_memo_find(&memo, &key)));
        g_assert_true(wb_dark_memo_put(i % 2 ? &memo : &other, &key, 0.5 * i));
    }
    g_assert_true(wb_dark_memo_merge(&memo, &other));
    g_assert_cmpuint(memo.n, ==, 5000);
    for (int i = 0; i < 5000; i++) {
        key.storage = i;
        g_assert_cmpfloat(wb_dark_memo_find(&memo, &key), ==, 0.5 * i);
    }
    key.inverter = 1;
    g_assert_true(isnan(wb_dark_memo_find(&memo, &key)));
    wb_dark_memo_free(&memo);
    wb_dark_memo_free(&other);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/late/settled", test_settled);
    g_test_add_func("/late/memo", test_memo);
    return g_test_run();
}
