/* The search against brute force on thousands of small catalogues: every subset of the limits, any
 * weights and fronts of two to all criteria, every list up to the best fifty, some workers, the
 * catalogue in another order, and the pool. One program, run once for each part of the catalogues:
 * its argument. */
#include "brute.h"
#include "gen.h"
#include "second_order.h"
#include <glib.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define CATALOGUES 1250
#define LIMITS 5
#define MOST_TOP 50 /* equal rows up to here are equal lists for every smaller count too */

static guint64 part_seed = 1;

/* Of two to all criteria. */
static uint32_t random_front(WbRandom *random)
{
    uint64_t wanted = 2 + wb_random_below(random, WB_N_CRITERIA - 1);
    uint32_t front = 0;
    while (wanted > 0) {
        uint32_t bit = 1u << wb_random_below(random, WB_N_CRITERIA);
        wanted -= !(front & bit);
        front |= bit;
    }
    return front;
}

static void fill_wishes(WbBrief *brief, WbRandom *random, int i)
{
    brief->money_minor.on = i & 1;
    brief->weight_kg.on = i >> 1 & 1;
    brief->dark_hours.on = i >> 2 & 1;
    brief->roof_on = i >> 3 & 1;
    brief->bay_on = i >> 4 & 1;
    brief->front = random_front(random);
    bool none_weighs = wb_random_below(random, 40) == 0;
    for (int c = 0; c < WB_N_CRITERIA; c++)
        brief->weight[c] = none_weighs ? 0 : (double)wb_random_below(random, 4);
    if (wb_random_below(random, 20) ==
        0) /* more dark hours are worth more: no sense, but allowed */
        brief->anchor[WB_CRITERION_DARK] = (WbAnchor){.full = 300, .none = 0};
}

/* Now and then one with hundreds of kits that work. */
static void fill_catalogue(Gen *gen, WbRandom *random, int i)
{
    GenSize size = gen_small(random);
    if (i % 50 == 7)
        size = (GenSize){4, 3, 3, 2, 1, 3, 3, 1, 2, 2};
    gen_fill(gen, random, &size);
    fill_wishes(&gen->brief, random, i);
    WbRandom aside = *random; /* all other draws stay what they were */
    random_way(&aside, &gen->brief);
}

static int by_kit(gconstpointer left, gconstpointer right)
{
    const WbVerdict *a = left, *b = right;
    return wb_kit_compare(NULL, &a->kit, &b->kit);
}

/* Exactly the kits that work and those that money or weight alone stops, with their figures. */
static void compare_pool(const WbPool *pool, const Brute *brute)
{
    GArray *kits = g_array_new(FALSE, FALSE, sizeof(WbVerdict));
    g_array_append_vals(kits, brute->kits, (guint)brute->n);
    g_array_append_vals(kits, brute->beyond->data, brute->beyond->len);
    g_array_sort(kits, by_kit);
    g_assert_true(pool->whole);
    g_assert_cmpuint(pool->n, ==, kits->len);
    for (size_t i = 0; i < pool->n; i++) {
        WbVerdict wanted = {.kit = wb_pooled_kit(&pool->kit[i])};
        guint at;
        g_assert_true(g_array_binary_search(kits, &wanted, by_kit, &at));
        const WbVerdict *found = &g_array_index(kits, WbVerdict, at);
        int stop = found->feasible ? WB_N_RULES : __builtin_ctzll(found->broken);
        g_assert_cmpint(pool->kit[i].stop, ==, stop);
        for (int c = 0; c < WB_N_CRITERIA; c++) {
            double figure = pool->figure[c][i];
            if (c != WB_CRITERION_DARK || !isnan(figure))
                g_assert_cmpfloat(figure, ==, wb_figure(&found->figures, (WbCriterion)c));
        }
    }
    g_array_unref(kits);
}

static void append_rows(GString *text, const WbProblem *problem, const WbRanked *rows, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        char id[WB_KIT_ID];
        wb_kit_id(problem, &rows[i].kit, id);
        g_string_append_printf(text, "%s %a %a %d\n", id, rows[i].score, rows[i].figures.dark_h,
                               rows[i].on_front);
    }
}

/* All that a ranking says, by part ids. */
static char *text_of(const WbProblem *problem, const WbRanking *ranking)
{
    GString *text = g_string_new(NULL);
    append_rows(text, problem, ranking->top, ranking->n_top);
    append_rows(text, problem, ranking->front, ranking->n_front);
    for (int r = 0; r < WB_N_RULES; r++) {
        const WbRuledOut *out = &ranking->ruled_out[r];
        char id[WB_KIT_ID] = "";
        if (out->alone > 0)
            wb_kit_id(problem, &out->nearest, id);
        g_string_append_printf(text, "%d %" G_GUINT64_FORMAT " %" G_GUINT64_FORMAT " %s\n", r,
                               out->first, out->alone, id);
    }
    return g_string_free(text, FALSE);
}

static WbProblem *new_problem(const Gen *gen)
{
    WbProblem *problem;
    g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
    return problem;
}

static void rank(const WbProblem *problem, size_t top, int workers, WbRanking *ranking)
{
    WbRankOptions options = wb_rank_options_default();
    options.top = top;
    options.workers = workers;
    options.pool = true;
    g_assert_cmpint(wb_rank(problem, &options, NULL, ranking), ==, WB_OK);
}

/* In another order, by other workers: the same to the letter. */
static void check_shuffled(Gen *gen, WbRandom *random, int workers, const char *text)
{
    gen_shuffle(gen, random);
    WbProblem *problem = new_problem(gen);
    WbRanking ranking;
    rank(problem, MOST_TOP, workers, &ranking);
    g_autofree char *again = text_of(problem, &ranking);
    g_assert_cmpstr(again, ==, text);
    wb_ranking_free(&ranking);
    wb_problem_free(problem);
}

typedef struct {
    guint works, long_lists, dark_order;
    guint subset[1 << LIMITS];         /* of limits, with kits that work */
    guint criteria[WB_N_CRITERIA + 1]; /* fronts of so many */
    guint64 front, pool_beyond;
} Seen;

static void check_one(Gen *gen, WbRandom *random, int i, Seen *seen)
{
    static const int workers[] = {1, 2, 4};
    WbProblem *problem = new_problem(gen);
    WbRanking ranking, shorter;
    Brute brute;
    brute_force(problem, &brute);
    rank(problem, MOST_TOP, workers[i % 3], &ranking);
    brute_compare(problem, &ranking, &brute, MOST_TOP);
    compare_pool(ranking.pool, &brute);
    size_t top = 1 + (size_t)wb_random_below(random, MOST_TOP);
    rank(problem, top, workers[(i + 1) % 3], &shorter);
    brute_compare(problem, &shorter, &brute, top);
    wb_ranking_free(&shorter);
    g_autofree char *text = text_of(problem, &ranking);
    seen->works += brute.n > 0;
    seen->long_lists += brute.n > MOST_TOP;
    seen->dark_order += brute.n > 1 && (gen->brief.weight[WB_CRITERION_DARK] > 0 ||
                                        gen->brief.front >> WB_CRITERION_DARK & 1);
    seen->subset[i % (1 << LIMITS)] += brute.n > 0;
    seen->criteria[__builtin_popcount(gen->brief.front)] += brute.n > 0;
    seen->front += brute.front;
    seen->pool_beyond += brute.beyond->len;
    wb_ranking_free(&ranking);
    wb_problem_free(problem);
    brute_free(&brute);
    check_shuffled(gen, random, workers[(i + 2) % 3], text);
}

static void test_many(void)
{
    WbRandom random;
    wb_random_seed(&random, 20261129 + part_seed);
    Gen *gen = g_new(Gen, 1);
    Seen seen = {0};
    for (int i = 0; i < CATALOGUES; i++) {
        fill_catalogue(gen, &random, i);
        check_one(gen, &random, i, &seen);
    }
    g_test_message("%d catalogues, kits work in %u, more than %d in %u; dark hours order %u; on "
                   "fronts %" G_GUINT64_FORMAT ", beyond money or weight %" G_GUINT64_FORMAT,
                   CATALOGUES, seen.works, MOST_TOP, seen.long_lists, seen.dark_order, seen.front,
                   seen.pool_beyond);
    /* What never occurred would have proved nothing. */
    g_assert_cmpuint(seen.works, >, CATALOGUES / 8);
    g_assert_cmpuint(seen.long_lists, >, 5);
    g_assert_cmpuint(seen.dark_order, >, CATALOGUES / 16);
    g_assert_cmpuint(seen.pool_beyond, >, 50);
    for (int n = 2; n <= WB_N_CRITERIA; n++)
        g_assert_cmpuint(seen.criteria[n], >, 0);
    for (int s = 0; s < 1 << LIMITS; s++)
        g_assert_cmpuint(seen.subset[s], >, 0);
    g_free(gen);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    if (argc > 1)
        part_seed = g_ascii_strtoull(argv[1], NULL, 10);
    g_test_add_func("/rank/many", test_many);
    return g_test_run();
}
