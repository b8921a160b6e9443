/* How a kit's parts are joined, in words; and the notes of each rule set. */
#include "outline.h"
#include "rig.h"
#include "words.h"

static const struct {
    WbKit kit;
    const char *panels, *bank, *words;
} rows[] = {
    {{.n_series = 1, .n_parallel = 1, .n_controllers = 1, .bank_series = 1, .bank_parallel = 1},
     "one panel by itself",
     "one battery by itself",
     " W, "},
    {{.n_series = 2, .n_parallel = 1, .n_controllers = 1, .bank_series = 1, .bank_parallel = 3},
     "2 panels in series",
     "3 batteries in parallel",
     " W in series, "},
    {{.n_series = 1, .n_parallel = 2, .n_controllers = 1, .bank_series = 2, .bank_parallel = 1},
     "2 panels, joined in parallel",
     "2 batteries in series",
     " W in parallel, "},
    {{.n_series = 2, .n_parallel = 2, .n_controllers = 1, .bank_series = 2, .bank_parallel = 2},
     "2 strings of 2 panels in series, joined in parallel",
     "2 strings of 2 batteries in series, joined in parallel",
     " W, 2 strings of 2, "},
    {{.n_series = 1, .n_parallel = 2, .n_controllers = 2, .bank_series = 1, .bank_parallel = 1},
     "2 panels, one on each of the 2 controllers",
     "one battery by itself",
     " W, one on each controller, "},
    {{.n_series = 1, .n_parallel = 4, .n_controllers = 2, .bank_series = 1, .bank_parallel = 1},
     "4 panels, 2 in parallel on each of the 2 controllers",
     "one battery by itself",
     " W, 2 in parallel on each controller, "},
};

static WbResult *demo_result(const char *rule_set)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autoptr(GError) error = NULL;
    g_assert_true(wb_document_begin_demo(document, NULL));
    if (rule_set)
        wb_document_set_json(document, "Edit", "/rule_set", rule_set, &error);
    g_assert_no_error(error);
    return wb_result_make(wb_document_get_file(document), wb_document_get_view(document), NULL,
                          NULL, NULL);
}

static void test_joined(void)
{
    WbResult *result = demo_result(NULL);
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        g_autofree char *panels = wb_words_panel_wiring(&rows[i].kit);
        g_autofree char *bank = wb_words_bank_wiring(&rows[i].kit);
        g_autofree char *words = wb_words_kit(wb_result_get_problem(result), &rows[i].kit);
        g_test_message("%s", words);
        g_assert_cmpstr(panels, ==, rows[i].panels);
        g_assert_cmpstr(bank, ==, rows[i].bank);
        g_assert_nonnull(strstr(words, rows[i].words));
    }
    wb_result_unref(result);
}

/* Words of the road belong to a vehicle only. */
static void test_rule_sets(void)
{
    static const struct {
        const char *json, *has, *lacks;
    } sets[] = {
        {"\"road-vehicle\"", "axle", "stability"},
        {"\"boat\"", "stability", "axle"},
        {"\"building\"", "floor", "vehicle"},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(sets); i++) {
        WbResult *result = demo_result(sets[i].json);
        WbVerdict *verdict = g_new(WbVerdict, 1);
        g_assert_true(wb_result_judge(result, "", verdict));
        const WbFinding heavy = {.rule = WB_RULE_WEIGHT, .value = 130, .limit = 120};
        g_autofree char *text = wb_words_safety(wb_result_get_problem(result), verdict, &heavy);
        g_assert_nonnull(strstr(text, sets[i].has));
        g_assert_null(strstr(text, sets[i].lacks));
        g_free(verdict);
        wb_result_unref(result);
    }
}

/* The rule most fail alone decides; only where none does, the one most fail first. */
static void test_decisive(void)
{
    g_autofree WbRanking *ranking = g_new0(WbRanking, 1);
    ranking->raw = 100;
    ranking->ruled_out[WB_RULE_ROOF_FIT].first = 60;
    ranking->ruled_out[WB_RULE_MONEY].first = 40;
    g_assert_cmpint(wb_outline_decisive_rule(ranking), ==, WB_RULE_ROOF_FIT);
    ranking->ruled_out[WB_RULE_MONEY].alone = 12;
    g_assert_cmpint(wb_outline_decisive_rule(ranking), ==, WB_RULE_MONEY);
    g_autofree char *why = wb_outline_why_none_works(ranking);
    g_assert_cmpstr(
        why, ==, "Of 100 combinations, 12 would work but for one thing: the kit costs too much.");
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/wiring/joined", test_joined);
    g_test_add_func("/wiring/rule-sets", test_rule_sets);
    g_test_add_func("/wiring/decisive", test_decisive);
    return g_test_run();
}
