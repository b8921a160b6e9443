/* The search against a separate brute force (tests/support/brute.h), and what it promises besides.
 */
#include "rank.h"
#include "brute.h"
#include "gen.h"
#include "second_order.h"
#include <glib.h>
#include <string.h>

#define CATALOGUES 1200

static void test_equal_to_brute_force(void)
{
    WbRandom random;
    wb_random_seed(&random, 20261124);
    Gen *gen = g_new(Gen, 1);
    guint64 raw = 0, feasible = 0, with_feasible = 0, wired = 0, broken_rules = 0;
    guint64 first[WB_N_RULES] = {0};
    for (int i = 0; i < CATALOGUES; i++) {
        GenSize size = gen_small(&random);
        gen_fill(gen, &random, &size);
        WbRandom aside = random; /* all other draws stay what they were */
        random_way(&aside, &gen->brief);
        WbProblem *problem;
        g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
        WbRankOptions options = wb_rank_options_default();
        static const int workers[] = {1, 2, 4};
        options.top = 1 + wb_random_below(&random, 50);
        options.workers = workers[i % 3];
        WbRanking ranking;
        g_assert_cmpint(wb_rank(problem, &options, NULL, &ranking), ==, WB_OK);
        Brute brute;
        brute_force(problem, &brute);
        brute_compare(problem, &ranking, &brute, options.top);
        raw += ranking.raw;
        feasible += ranking.feasible;
        with_feasible += ranking.feasible > 0;
        wired += ranking.feasible > 0 && gen->brief.wiring.on;
        for (int r = 0; r < WB_N_RULES; r++)
            first[r] += ranking.ruled_out[r].first;
        wb_ranking_free(&ranking);
        wb_problem_free(problem);
        brute_free(&brute);
    }
    for (int r = 0; r < WB_N_RULES; r++)
        broken_rules += first[r] > 0;
    g_test_message("%d catalogues, %" G_GUINT64_FORMAT " kits, %" G_GUINT64_FORMAT
                   " work, in %" G_GUINT64_FORMAT " catalogues; %" G_GUINT64_FORMAT
                   " rules were a first broken rule",
                   CATALOGUES, raw, feasible, with_feasible, broken_rules);
    /* A generator under which nothing works or few rules break would prove little. */
    g_assert_cmpuint(with_feasible, >, CATALOGUES / 10);
    g_assert_cmpuint(broken_rules, >, 15);
    g_test_message("wired in %" G_GUINT64_FORMAT " catalogues; circuits %" G_GUINT64_FORMAT
                   ", of chargers %" G_GUINT64_FORMAT,
                   wired, first[WB_RULE_SOURCE_CIRCUITS], first[WB_RULE_BANK_CIRCUITS]);
    g_assert_cmpuint(wired, >, CATALOGUES / 30);
    g_assert_cmpuint(first[WB_RULE_SOURCE_CIRCUITS], >, 0);
    g_assert_cmpuint(first[WB_RULE_BANK_CIRCUITS], >, 0);
    g_free(gen);
}

/* Kits whose only fault is an undecided roof are counted apart and never called working. Small
 * roofs are always decided, so the bounds are raised by hand. */
static void test_undecided(void)
{
    WbRandom random;
    wb_random_seed(&random, 11);
    Gen *gen = g_new(Gen, 1);
    guint64 undecided = 0;
    for (int i = 0; i < 200; i++) {
        GenSize size = gen_small(&random);
        gen_fill(gen, &random, &size);
        WbProblem *problem;
        g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
        for (size_t p = 0; p < problem->n_panels; p++) {
            WbRoofFit *fit = &problem->panels[p].fit;
            fit->most -= fit->most > 1;
            fit->bound = fit->most + 2;
        }
        WbRankOptions options = wb_rank_options_default();
        WbRanking ranking;
        g_assert_cmpint(wb_rank(problem, &options, NULL, &ranking), ==, WB_OK);
        Brute brute;
        brute_force(problem, &brute);
        brute_compare(problem, &ranking, &brute, options.top);
        undecided += ranking.undecided;
        wb_ranking_free(&ranking);
        wb_problem_free(problem);
        brute_free(&brute);
    }
    g_assert_cmpuint(undecided, >, 50);
    g_free(gen);
}

static void kit_texts(const WbProblem *problem, const WbRanking *ranking, GString *texts)
{
    for (size_t i = 0; i < ranking->n_top; i++) {
        char id[WB_KIT_ID];
        wb_kit_id(problem, &ranking->top[i].kit, id);
        g_string_append_printf(texts, "%s %a\n", id, ranking->top[i].score);
    }
}

static int fit_of_first_panel(const Gen *gen)
{
    WbProblem *problem;
    g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
    int most = problem->panels[0].fit.most;
    g_assert_cmpint(problem->panels[0].fit.bound, ==, most);
    wb_problem_free(problem);
    return most;
}

/* A roof of exactly four panels: one pinned 1 mm off its corner leaves 899 mm beside it, enough for
 * one that is turned, and 499 mm behind it. A pin that does not stand free, or of another panel,
 * holds nothing.
 */
static void test_pins(void)
{
    WbRandom random;
    wb_random_seed(&random, 13);
    Gen *gen = g_new(Gen, 1);
    GenSize size = gen_small(&random);
    gen_fill(gen, &random, &size);
    WbPanel *panel = &gen->panel[0];
    panel->length_mm = 900;
    panel->width_mm = 500;
    gen->brief.roof = (WbRoof){.length_mm = 1800, .width_mm = 1000, .max_load_kg = NAN};
    gen->brief.largest.series = gen->brief.largest.parallel = 2;
    gen->brief.candidates = NULL;
    int first = fit_of_first_panel(gen);
    WbPin pin = {panel->part.id, 0, 0, false};
    gen->brief.roof.pins = &pin;
    gen->brief.roof.n_pins = 1;
    g_assert_cmpint(first, ==, 4);
    g_assert_cmpint(fit_of_first_panel(gen), ==, 4);
    pin.x_mm = pin.y_mm = 1;
    g_assert_cmpint(fit_of_first_panel(gen), ==, 2);
    pin.x_mm = 901;
    g_assert_cmpint(fit_of_first_panel(gen), ==, 4);
    pin.x_mm = 1;
    pin.part_id = "another";
    g_assert_cmpint(fit_of_first_panel(gen), ==, 4);
    g_free(gen);
}

/* The answer does not depend on the catalogue's order. */
static void test_shuffled(void)
{
    WbRandom random;
    wb_random_seed(&random, 7);
    Gen *gen = g_new(Gen, 1);
    size_t compared = 0;
    for (int i = 0; i < 100; i++) {
        GenSize size = gen_small(&random);
        gen_fill(gen, &random, &size);
        GString *texts[2];
        for (int turn = 0; turn < 2; turn++) {
            WbProblem *problem;
            WbRanking ranking;
            WbRankOptions options = wb_rank_options_default();
            wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem);
            g_assert_cmpint(wb_rank(problem, &options, NULL, &ranking), ==, WB_OK);
            texts[turn] = g_string_new(NULL);
            kit_texts(problem, &ranking, texts[turn]);
            wb_ranking_free(&ranking);
            wb_problem_free(problem);
            gen_shuffle(gen, &random);
        }
        g_assert_cmpstr(texts[0]->str, ==, texts[1]->str);
        compared += texts[0]->len;
        g_string_free(texts[0], TRUE);
        g_string_free(texts[1], TRUE);
    }
    g_assert_cmpuint(compared, >, 1000);
    g_free(gen);
}

/* Ids are parsed back to the same kit; another text is refused. */
static void test_kit_ids(void)
{
    WbRandom random;
    wb_random_seed(&random, 3);
    Gen *gen = g_new(Gen, 1);
    GenSize size = {3, 3, 3, 2, 1, 3, 2, 2, 2, 2};
    gen_fill(gen, &random, &size);
    WbProblem *problem;
    wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem);
    WbKit kit = {.panel = 2,
                 .n_series = 3,
                 .n_parallel = 2,
                 .controller = 1,
                 .n_controllers = 2,
                 .storage = 1,
                 .bank_series = 2,
                 .bank_parallel = 1,
                 .inverter = 1,
                 .dcdc = 1};
    WbKit none = kit, back;
    none.inverter = none.dcdc = 0;
    char id[WB_KIT_ID];
    wb_kit_id(problem, &kit, id);
    g_assert_true(wb_kit_parse(problem, id, &back));
    g_assert_cmpint(wb_kit_compare(problem, &kit, &back), ==, 0);
    wb_kit_id(problem, &none, id);
    g_assert_true(g_str_has_suffix(id, "/none/none"));
    g_assert_true(wb_kit_parse(problem, id, &back));
    g_assert_cmpint(wb_kit_compare(problem, &none, &back), ==, 0);
    strcat(id, "x");
    g_assert_false(wb_kit_parse(problem, id, &back));
    g_assert_false(wb_kit_parse(problem, "", &back));
    g_assert_false(wb_kit_parse(problem, "p-01:0s1p/c-04:1/b-07:1s1p/none/none", &back));
    wb_problem_free(problem);
    g_free(gen);
}

static void test_options(void)
{
    WbRandom random;
    wb_random_seed(&random, 5);
    Gen *gen = g_new(Gen, 1);
    GenSize size = gen_small(&random);
    gen_fill(gen, &random, &size);
    WbProblem *problem;
    wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem);
    WbRanking ranking;
    WbRankOptions options = wb_rank_options_default();
    options.top = 0;
    g_assert_cmpint(wb_rank(problem, &options, NULL, &ranking), ==, WB_BAD_INPUT);
    options.top = 1000000000;
    g_assert_cmpint(wb_rank(problem, &options, NULL, &ranking), ==, WB_BAD_INPUT);
    options = wb_rank_options_default();
    options.workers = 0;
    g_assert_cmpint(wb_rank(problem, &options, NULL, &ranking), ==, WB_BAD_INPUT);
    WbControl control;
    wb_control_init(&control);
    wb_control_stop(&control);
    options = wb_rank_options_default();
    g_assert_cmpint(wb_rank(problem, &options, &control, &ranking), ==, WB_STOPPED);
    wb_problem_free(problem);
    g_free(gen);
}

static void test_worth(void)
{
    static const struct {
        WbCriterion criterion;
        WbAnchor anchor;
        double x, u;
    } rows[] = {
        {WB_CRITERION_COST, {0, 2000}, 500, 0.75},
        {WB_CRITERION_COST, {0, 2000}, 3000, -0.5},  /* not clamped below */
        {WB_CRITERION_COST, {1000, 2000}, 500, 1.5}, /* nor above: cheaper is always worth more */
        {WB_CRITERION_USABLE, {3000, 1000}, 2000, 0.5},
        {WB_CRITERION_USABLE, {3000, 1000}, 5000, 1.0}, /* enough is enough */
        {WB_CRITERION_USABLE, {3000, 1000}, 500, -0.25},
        {WB_CRITERION_AUTONOMY, {6, 2}, 7, 1.0},
        {WB_CRITERION_WEIGHT, {50, 50}, 50, 1.0}, /* anchors that coincide: all or nothing */
        {WB_CRITERION_WEIGHT, {50, 50}, 51, 0.0},
        {WB_CRITERION_SPARE, {0, 0}, 0, 1.0},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++)
        g_assert_cmpfloat_with_epsilon(wb_worth(&rows[i].anchor, rows[i].criterion, rows[i].x),
                                       rows[i].u, 1e-12);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/rank/equal-to-brute-force", test_equal_to_brute_force);
    g_test_add_func("/rank/undecided-apart", test_undecided);
    g_test_add_func("/rank/pins", test_pins);
    g_test_add_func("/rank/shuffled-catalogue", test_shuffled);
    g_test_add_func("/rank/kit-ids", test_kit_ids);
    g_test_add_func("/rank/options-and-stop", test_options);
    g_test_add_func("/rank/worth", test_worth);
    return g_test_run();
}
