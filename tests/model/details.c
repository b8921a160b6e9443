/* Findings opened and circuits told: each rule says what to change, each detail has its numbers and
 * its source, and the cautions stand with the circuit or figure they concern. */
#include "brief_file.h"
#include "database.h"
#include "document.h"
#include "result.h"
#include "rules.h"
#include "words.h"
#include "words_detail.h"

#include <math.h>
#include <string.h>

static WbResult *result;
static WbVerdict verdict;

static void make_result(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = wb_database_open(":memory:", FALSE, &error);
    g_assert_no_error(error);
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    g_assert_no_error(error);
    g_autoptr(WbDocument) document = wb_document_new(view);
    g_assert_true(wb_document_begin_demo(document, &error));
    g_assert_true(wb_document_set_json(
        document, "Small", "/largest",
        "{\"series\": 2, \"parallel\": 1, \"bank_series\": 1, \"bank_parallel\": 2}", &error));
    result = wb_result_make(wb_document_get_file(document), view, NULL, NULL, &error);
    g_assert_no_error(error);
    g_assert_true(wb_result_judge(result, NULL, &verdict));
}

static const char *line_of(const WbReckoning *detail, const char *label)
{
    for (gsize i = 0; i < detail->n; i++)
        if (g_str_equal(detail->line[i].label, label))
            return detail->line[i].text;
    return NULL;
}

static void test_changes(void)
{
    for (int rule = 0; rule < WB_N_RULES; rule++) {
        const char *change = wb_words_change((WbRule)rule);
        g_test_message("%s: %s", wb_rule_info((WbRule)rule)->code, change);
        g_assert_nonnull(change);
        g_assert_cmpint(change[strlen(change) - 1], ==, '.');
    }
}

static void test_details(void)
{
    const WbProblem *problem = wb_result_get_problem(result);
    for (int rule = 0; rule < WB_N_RULES; rule++) {
        const WbFinding *finding = &verdict.finding[rule];
        const WbRuleInfo *info = wb_rule_info((WbRule)rule);
        g_autoptr(WbReckoning) detail = wb_finding_detail(problem, &verdict, finding);
        g_assert_cmpstr(line_of(detail, "Formula"), ==, info->formula);
        g_assert_cmpstr(line_of(detail, "Source"), ==, info->source);
        g_assert_cmpint(line_of(detail, "Comes to") != NULL, ==,
                        !isnan(finding->value) && !isnan(finding->limit));
        g_assert_cmpint(line_of(detail, "Assumed") != NULL, ==, finding->assumed != 0);
        g_assert_nonnull(line_of(detail, finding->holds ? "To keep farther from it" : "To change"));
    }
}

/* The numbers put in are the kit's own. */
static void test_numbers(void)
{
    const WbProblem *problem = wb_result_get_problem(result);
    const WbPanel *panel = problem->panels[verdict.kit.panel].panel;
    g_autoptr(WbReckoning) detail =
        wb_finding_detail(problem, &verdict, &verdict.finding[WB_RULE_COLD_VOC]);
    const char *numbers = line_of(detail, "Numbers put in");
    g_autofree char *series = g_strdup_printf("panels in series %d;", verdict.kit.n_series);
    g_autofree char *voc = g_strdup_printf("panel’s Voc %.1f V", panel->voc_v);
    g_test_message("%s", numbers);
    g_assert_nonnull(strstr(numbers, series));
    g_assert_nonnull(strstr(numbers, voc));
    g_assert_nonnull(strstr(numbers, "design cold"));
}

static void test_margins(void)
{
    static const struct {
        WbFinding finding;
        gboolean at_most;
        const char *words;
    } rows[] = {
        {{WB_RULE_COLD_VOC, WB_STOP, true, 47, 50, 0.06, -1, 0}, TRUE, "6 % left of 50 V"},
        {{WB_RULE_COLD_VOC, WB_STOP, false, 56, 50, -0.12, -1, 0}, TRUE, "12 % over 50 V"},
        {{WB_RULE_HOT_VMP, WB_STOP, true, 20, 16, 0.25, -1, 0}, FALSE, "25 % more than 16 V"},
        {{WB_RULE_HOT_VMP, WB_STOP, false, 12, 16, -0.25, -1, 0}, FALSE, "25 % short of 16 V"},
        {{WB_RULE_COLD_CHARGE, WB_STOP, false, -12, 0, NAN, -1, 0}, FALSE, NULL},
        {{WB_RULE_COLD_VOC, WB_STOP, true, NAN, NAN, NAN, -1, 0}, TRUE, NULL},
        {{WB_RULE_MONEY, WB_STOP, true, 90000, 100000, 0.1, -1, 0}, TRUE, "10 % left of the limit"},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        g_autofree char *words = wb_words_margin(&rows[i].finding);
        g_assert_cmpstr(words, ==, rows[i].words);
        if (words != NULL)
            g_assert_cmpint(wb_finding_is_at_most(&rows[i].finding), ==, rows[i].at_most);
    }
}

/* ---- cautions ---- */

static void test_circuit_cautions(void)
{
    static const struct {
        WbCircuitKind kind;
        const char *words;
    } rows[] = {
        {WB_CIRCUIT_INVERTER, "changeover"},
        {WB_CIRCUIT_INVERTER, "neutral bond"},
        {WB_CIRCUIT_INVERTER, "residual-current"},
        {WB_CIRCUIT_MAIN, "first fuse"},
        {WB_CIRCUIT_STRING, "live"},
        {WB_CIRCUIT_ARRAY, "DC"},
        {WB_CIRCUIT_SHORE, "licensed"},
        {WB_CIRCUIT_BATTERY, "fuse each"},
    };
    const WbProblem *problem = wb_result_get_problem(result);
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        const char *text = wb_words_circuit_safety(problem, &verdict.kit, rows[i].kind);
        g_assert_nonnull(text);
        g_assert_nonnull(strstr(text, rows[i].words));
    }
    for (gsize i = 0; i < problem->n_storage; i++) {
        WbKit kit = verdict.kit;
        kit.storage = (int)i;
        gboolean lithium = problem->storage[i].chemistry->family == WB_FAMILY_LITHIUM;
        const char *text = wb_words_circuit_safety(problem, &kit, WB_CIRCUIT_DCDC_OUT);
        g_autofree char *shipping = wb_words_shipping(problem, &kit);
        g_assert_cmpint(text != NULL && strstr(text, "alternator") != NULL, ==, lithium);
        g_assert_cmpint(shipping != NULL, ==, lithium);
    }
}

static void test_fuse_places(void)
{
    WbBrief brief = {.rule_set = WB_RULES_BOAT};
    const WbProblem problem = {.brief = &brief};
    WbCircuit circuit = {.ask = {.kind = WB_CIRCUIT_MAIN, .fused = true}};
    g_autofree char *boat = wb_words_fuse_place(&problem, &circuit);
    g_assert_nonnull(strstr(boat, "178 mm"));
    g_assert_nonnull(strstr(boat, "33 CFR 183.455"));
    brief.rule_set = WB_RULES_BUILDING;
    g_autofree char *land = wb_words_fuse_place(&problem, &circuit);
    g_assert_nonnull(strstr(land, "NEC 240.21"));
    g_assert_nonnull(strstr(land, "battery"));
    circuit.ask.fused = false;
    g_assert_null(wb_words_fuse_place(&problem, &circuit));
    for (int rules = 0; rules <= WB_RULES_BUILDING; rules++) {
        g_assert_nonnull(strstr(wb_words_earthing(rules), "licensed"));
        g_assert_nonnull(strstr(wb_words_polarity(rules), "red"));
    }
}

/* Next to the figures: what draws much from lithium, and hydrogen with its figure. */
static void test_beside_figures(void)
{
    const WbProblem *problem = wb_result_get_problem(result);
    const WbFinding draw = {.rule = WB_RULE_PEAK_DRAW, .holds = true, .value = 80, .limit = 100};
    for (gsize i = 0; i < problem->n_storage; i++) {
        WbVerdict other = verdict;
        other.kit.storage = (int)i;
        other.finding[WB_RULE_VENTILATION].value = 0.48;
        const WbChemistry *chemistry = problem->storage[i].chemistry;
        g_autofree char *text = wb_words_safety(problem, &other, &draw);
        g_auto(GStrv) notes = wb_words_safety_notes(problem, &other);
        g_autofree char *all = g_strjoinv(" ", notes);
        g_assert_cmpint(strstr(text, "cut off under load") != NULL, ==,
                        chemistry->family == WB_FAMILY_LITHIUM);
        g_assert_cmpint(strstr(all, "0.48 m³ of fresh air an hour (IEC 62485-2)") != NULL, ==,
                        chemistry->gassing != WB_GAS_NONE);
        g_assert_null(strstr(all, "not sized"));
    }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    make_result();
    g_test_add_func("/details/changes", test_changes);
    g_test_add_func("/details/details", test_details);
    g_test_add_func("/details/numbers", test_numbers);
    g_test_add_func("/details/margins", test_margins);
    g_test_add_func("/details/circuit-cautions", test_circuit_cautions);
    g_test_add_func("/details/fuse-places", test_fuse_places);
    g_test_add_func("/details/beside-figures", test_beside_figures);
    int failed = g_test_run();
    wb_result_unref(result);
    return failed;
}
