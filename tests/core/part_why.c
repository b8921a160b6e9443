/* The answer about one part against a separate brute force: every kit that holds it, judged alone,
 * over random small catalogues. */
#include "part_why.h"
#include "gen.h"
#include <glib.h>
#include <string.h>

typedef struct {
    guint64 raw, works;
    WbRuledOut ruled_out[WB_N_RULES];
    WbKit best;
    double score;
} Brute;

static void count_failed(const WbProblem *problem, const WbVerdict *verdict, Brute *brute)
{
    int first = -1, broken = 0;
    for (int r = 0; r < WB_N_RULES; r++)
        if (verdict->broken >> r & 1) {
            first = first < 0 ? r : first;
            broken++;
        }
    WbRuledOut *out = &brute->ruled_out[first];
    out->first++;
    if (broken != 1)
        return;
    const WbFinding *finding = &verdict->finding[first];
    double miss = fabs(finding->value - finding->limit), least = fabs(out->value - out->limit);
    if (out->alone++ == 0 || miss < least ||
        (miss == least && wb_kit_compare(problem, &verdict->kit, &out->nearest) < 0)) {
        out->nearest = verdict->kit;
        out->value = finding->value;
        out->limit = finding->limit;
    }
}

static void count_one(const WbProblem *problem, const WbKit *kit, Brute *brute)
{
    WbVerdict verdict;
    wb_judge_without_year(problem, kit, &verdict);
    if (verdict.feasible)
        g_assert_cmpint(wb_judge(problem, kit, &verdict), ==, WB_OK);
    brute->raw++;
    if (!verdict.feasible) {
        count_failed(problem, &verdict, brute);
        return;
    }
    if (brute->works++ == 0 || verdict.score > brute->score ||
        (verdict.score == brute->score && wb_kit_compare(problem, kit, &brute->best) < 0)) {
        brute->best = *kit;
        brute->score = verdict.score;
    }
}

/* All kits, one number for each: mixed radix over the ten members of a kit. */
static void brute_force(const WbProblem *problem, const WbPartChoice *choice, Brute *brute)
{
    const WbLargest *most = &problem->brief->largest;
    const int radix[10] = {
        (int)problem->n_panels,      most->series,        most->parallel,
        (int)problem->n_controllers, most->controllers,   (int)problem->n_storage,
        most->bank_series,           most->bank_parallel, (int)problem->n_inverters,
        (int)problem->n_dcdc};
    guint64 all = 1;
    for (int i = 0; i < 10; i++)
        all *= (guint64)radix[i];
    memset(brute, 0, sizeof *brute);
    for (guint64 number = 0; number < all; number++) {
        int digit[10];
        guint64 rest = number;
        for (int i = 0; i < 10; i++) {
            digit[i] = (int)(rest % (guint64)radix[i]);
            rest /= (guint64)radix[i];
        }
        WbKit kit = {.panel = digit[0],
                     .n_series = digit[1] + 1,
                     .n_parallel = digit[2] + 1,
                     .controller = digit[3],
                     .n_controllers = digit[4] + 1,
                     .storage = digit[5],
                     .bank_series = digit[6] + 1,
                     .bank_parallel = digit[7] + 1,
                     .inverter = digit[8],
                     .dcdc = digit[9]};
        const int held[] = {kit.panel, kit.controller, kit.storage, kit.inverter, kit.dcdc};
        if (held[choice->kind] == choice->index)
            count_one(problem, &kit, brute);
    }
}

static void compare(const WbProblem *problem, const WbPartWhy *why, const Brute *brute)
{
    g_assert_cmpuint(why->with.raw, ==, brute->raw);
    g_assert_cmpuint(why->with.feasible, ==, brute->works);
    for (int r = 0; r < WB_N_RULES; r++) {
        const WbRuledOut *a = &why->with.ruled_out[r], *b = &brute->ruled_out[r];
        g_assert_cmpuint(a->first, ==, b->first);
        g_assert_cmpuint(a->alone, ==, b->alone);
        if (a->alone == 0)
            continue;
        g_assert_cmpint(wb_kit_compare(problem, &a->nearest, &b->nearest), ==, 0);
        g_assert_true(a->value == b->value);
        g_assert_true(a->limit == b->limit);
    }
    g_assert_cmpuint(why->with.n_top, ==, brute->works > 0);
    if (brute->works > 0)
        g_assert_cmpint(wb_kit_compare(problem, &why->with.top[0].kit, &brute->best), ==, 0);
}

static WbPartChoice some_choice(const WbProblem *problem, WbRandom *random)
{
    const size_t n[] = {problem->n_panels, problem->n_controllers, problem->n_storage,
                        problem->n_inverters, problem->n_dcdc};
    WbPartChoice choice = {.kind = (WbPartKind)wb_random_below(random, 5)};
    /* The choice "none" of the last two is no part, but is searched alike. */
    choice.index = (int)wb_random_below(random, (uint32_t)n[choice.kind]);
    return choice;
}

/* Where the best with it stands, by the list of all kits. */
static void check_rank(const WbPartWhy *why, const WbRanking *all)
{
    gboolean on_front = FALSE;
    for (size_t i = 0; i < all->n_front; i++)
        on_front |= wb_kit_holds(&all->front[i].kit, &why->choice);
    g_assert_cmpint(why->on_front, ==, on_front);
    if (why->with.n_top == 0) {
        g_assert_cmpuint(why->rank, ==, 0);
        return;
    }
    g_assert_cmpuint(why->rank, >, 0);
    for (size_t i = 0; i < why->rank; i++)
        g_assert_cmpint(wb_kit_holds(&all->top[i].kit, &why->choice), ==, i + 1 == why->rank);
}

/* The rank without the list: among the kits kept. */
static void check_pool(const WbProblem *problem, const WbPartChoice *choice, uint64_t rank)
{
    WbRankOptions options = wb_rank_options_default();
    options.top = 1;
    options.pool = TRUE;
    WbRanking all;
    WbPartWhy why;
    g_assert_cmpint(wb_rank(problem, &options, NULL, &all), ==, WB_OK);
    g_assert_cmpint(wb_part_why(problem, choice, &all, 1, NULL, &why), ==, WB_OK);
    g_assert_cmpuint(why.rank, ==, rank);
    wb_part_why_free(&why);
    wb_ranking_free(&all);
}

#define CATALOGUES 600

static void test_brute_force(void)
{
    WbRandom random;
    wb_random_seed(&random, 20261128);
    Gen *gen = g_new(Gen, 1);
    guint64 none = 0, some = 0, asked[5] = {0};
    for (int i = 0; i < CATALOGUES; i++) {
        GenSize size = gen_small(&random);
        gen_fill(gen, &random, &size);
        WbProblem *problem;
        g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
        if (problem->n_panels == 0 || problem->n_controllers == 0 || problem->n_storage == 0) {
            wb_problem_free(problem);
            continue;
        }
        WbRankOptions options = wb_rank_options_default();
        options.top = 1000000;
        WbRanking all;
        g_assert_cmpint(wb_rank(problem, &options, NULL, &all), ==, WB_OK);
        WbPartChoice choice = some_choice(problem, &random);
        WbPartWhy why;
        g_assert_cmpint(wb_part_why(problem, &choice, &all, 1 + i % 3, NULL, &why), ==, WB_OK);
        Brute brute;
        brute_force(problem, &choice, &brute);
        compare(problem, &why, &brute);
        check_rank(&why, &all);
        check_pool(problem, &choice, why.rank);
        none += why.with.n_top == 0;
        some += why.with.n_top > 0 && why.rank > 1;
        asked[choice.kind]++;
        wb_part_why_free(&why);
        wb_ranking_free(&all);
        wb_problem_free(problem);
    }
    g_test_message("in no kit %" G_GUINT64_FORMAT ", in some but not the first %" G_GUINT64_FORMAT,
                   none, some);
    for (int k = 0; k < 5; k++)
        g_assert_cmpuint(asked[k], >, CATALOGUES / 20);
    g_assert_cmpuint(none, >, CATALOGUES / 10);
    g_assert_cmpuint(some, >, CATALOGUES / 100);
    g_free(gen);
}

static int by_number(gconstpointer a, gconstpointer b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* A limit on dark hours that about half of the kits that work would not keep. */
static gboolean limit_dark_hours(Gen *gen, const WbRanking *all)
{
    g_autoptr(GArray) hours = g_array_new(FALSE, FALSE, sizeof(double));
    for (size_t i = 0; i < all->n_top; i++)
        g_array_append_val(hours, all->top[i].figures.dark_h);
    if (hours->len < 2)
        return FALSE;
    g_array_sort(hours, by_number);
    gen->brief.dark_hours = (WbLimit){g_array_index(hours, double, hours->len / 2) - 0.01, TRUE};
    return gen->brief.dark_hours.value >= 0;
}

static void test_least_dark(void)
{
    WbRandom random;
    wb_random_seed(&random, 1128);
    Gen *gen = g_new(Gen, 1);
    guint64 several = 0, asked = 0;
    for (int i = 0; i < 4 * CATALOGUES; i++) {
        GenSize size = gen_small(&random);
        gen_fill(gen, &random, &size);
        gen->brief.dark_hours.on = gen->brief.money_minor.on = gen->brief.weight_kg.on = FALSE;
        gen->brief.autonomy_target_days = 0;
        gen->brief.weight[WB_CRITERION_DARK] = 0;
        gen->brief.front &= ~(1U << WB_CRITERION_DARK);
        WbProblem *problem;
        g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
        WbRankOptions options = wb_rank_options_default();
        WbRanking all, limited;
        g_assert_cmpint(wb_rank(problem, &options, NULL, &all), ==, WB_OK);
        gboolean usable = limit_dark_hours(gen, &all);
        const WbPartChoice choice = {WB_KIND_STORAGE, usable ? all.top[0].kit.storage : 0};
        wb_ranking_free(&all);
        if (usable) {
            WbPartWhy why;
            Brute brute;
            g_assert_cmpint(wb_rank(problem, &options, NULL, &limited), ==, WB_OK);
            g_assert_cmpint(wb_part_why(problem, &choice, &limited, 1 + i % 3, NULL, &why), ==,
                            WB_OK);
            brute_force(problem, &choice, &brute);
            compare(problem, &why, &brute);
            asked++;
            several += why.with.ruled_out[WB_RULE_DARK_HOURS].alone > 1;
            wb_part_why_free(&why);
            wb_ranking_free(&limited);
        }
        wb_problem_free(problem);
    }
    g_test_message("several stopped by dark hours alone in %" G_GUINT64_FORMAT
                   " of %" G_GUINT64_FORMAT,
                   several, asked);
    g_assert_cmpuint(several, >, 15);
    g_free(gen);
}

static void test_choices(void)
{
    WbRandom random;
    wb_random_seed(&random, 7);
    Gen *gen = g_new(Gen, 1);
    GenSize size = gen_small(&random);
    gen_fill(gen, &random, &size);
    WbProblem *problem;
    g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
    const size_t n[] = {problem->n_panels, problem->n_controllers, problem->n_storage,
                        problem->n_inverters, problem->n_dcdc};
    WbPartChoice found;
    for (int kind = 0; kind < 5; kind++)
        for (size_t i = kind >= WB_KIND_INVERTER; i < n[kind]; i++) {
            const WbPartChoice choice = {(WbPartKind)kind, (int)i};
            const WbPart *part = wb_choice_part(problem, &choice);
            g_assert_true(wb_part_choice(problem, part->id, &found));
            g_assert_cmpint(found.kind, ==, choice.kind);
            g_assert_cmpint(found.index, ==, choice.index);
        }
    g_assert_false(wb_part_choice(problem, "no-such-part", &found));
    g_assert_false(wb_part_choice(problem, "", &found));
    wb_problem_free(problem);
    g_free(gen);
}

static void test_stops(void)
{
    WbRandom random;
    wb_random_seed(&random, 9);
    Gen *gen = g_new(Gen, 1);
    GenSize size = gen_small(&random);
    gen_fill(gen, &random, &size);
    WbProblem *problem;
    g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
    WbRanking all = {0};
    WbControl control;
    wb_control_init(&control);
    wb_control_stop(&control);
    const WbPartChoice choice = {WB_KIND_PANEL, 0};
    WbPartWhy why = {.rank = 77};
    g_assert_cmpint(wb_part_why(problem, &choice, &all, 1, &control, &why), ==, WB_STOPPED);
    g_assert_cmpuint(why.rank, ==, 77);
    wb_problem_free(problem);
    g_free(gen);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/part-why/brute-force", test_brute_force);
    g_test_add_func("/part-why/least-dark", test_least_dark);
    g_test_add_func("/part-why/choices", test_choices);
    g_test_add_func("/part-why/stops", test_stops);
    return g_test_run();
}
