/* Which lengths of the wiring are assumed, and taking them as measured. */
#include "wiring_edit.h"
#include "brief_file.h"
#include "rig.h"
#include <math.h>

static void set(WbDocument *document, const char *pointer, const char *json)
{
    g_autoptr(GError) error = NULL;
    g_assert_true(wb_document_set_json(document, "Set", pointer, json, &error));
    g_assert_no_error(error);
}

static guint assumed(WbDocument *document)
{
    return wb_wiring_count_assumed(wb_document_get_file(document));
}

static void test_assumed(void)
{
    g_autoptr(WbDocument) document = rig_document();
    set(document, "/wiring", "{\"lengths_m\": {\"main\": 0.5, \"load\": null}}");
    WbBriefFile *file = wb_document_get_file(document);
    for (WbCircuitKind kind = 0; kind < WB_N_CIRCUITS; kind++)
        g_assert_true(wb_wiring_is_assumed(file, kind) == (kind != WB_CIRCUIT_MAIN));
    /* Measured, though it is as long as would have been assumed. */
    g_assert_cmpfloat(wb_circuit_usual_m(WB_CIRCUIT_MAIN), ==, 0.5);
}

/* What no kit of the brief can have is not to be measured. */
static void test_can_have(void)
{
    g_autoptr(WbDocument) document = rig_document();
    set(document, "/wiring", "{}");
    set(document, "/driving", "null");
    set(document, "/shore", "null");
    g_assert_cmpuint(wb_wiring_count(wb_document_get_file(document)), ==, WB_N_CIRCUITS - 3);
    g_assert_cmpuint(assumed(document), ==, WB_N_CIRCUITS - 3);
    set(document, "/shore", "{\"nights_per_week\": 2, \"charger_a\": 10}");
    g_assert_cmpuint(assumed(document), ==, WB_N_CIRCUITS - 2);
    g_assert_true(wb_wiring_can_have(wb_document_get_brief(document), WB_CIRCUIT_SHORE) &&
                  !wb_wiring_can_have(wb_document_get_brief(document), WB_CIRCUIT_DCDC_IN));
    set(document, "/driving", "{\"alternator_a\": 90, \"alternator_v\": 12, \"hours_per_day\": 1}");
    g_assert_cmpuint(assumed(document), ==, WB_N_CIRCUITS);
    set(document, "/wiring/lengths_m/dcdc_in", "3");
    g_assert_cmpuint(assumed(document), ==, WB_N_CIRCUITS - 1);
}

static void test_take(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autoptr(GError) error = NULL;
    set(document, "/wiring", "{\"lengths_m\": {\"main\": 0.7}, \"mine\": 1}");
    set(document, "/driving", "null");
    set(document, "/shore", "null");
    g_autofree char *before = rig_text(document);
    g_assert_true(wb_wiring_take_assumed(document, &error));
    g_assert_no_error(error);
    g_assert_cmpstr(wb_document_get_undo_label(document), ==, "Take the lengths as measured");
    g_assert_cmpuint(assumed(document), ==, 0);
    const WbBrief *brief = wb_document_get_brief(document);
    for (WbCircuitKind kind = 0; kind < WB_N_CIRCUITS; kind++)
        g_assert_cmpfloat(brief->wiring.length_m[kind], ==,
                          kind == WB_CIRCUIT_MAIN ? 0.7 : wb_circuit_usual_m(kind));
    g_assert_true(wb_wiring_is_assumed(wb_document_get_file(document), WB_CIRCUIT_SHORE));
    g_autofree char *mine = wb_document_get_json(document, "/wiring/mine");
    g_assert_cmpstr(mine, ==, "1");
    /* Nothing is left to take: no step. */
    guint64 revision = wb_document_get_revision(document);
    g_assert_true(wb_wiring_take_assumed(document, &error));
    g_assert_cmpuint(wb_document_get_revision(document), ==, revision);
    g_assert_true(wb_document_undo(document));
    g_autofree char *after = rig_text(document);
    g_assert_cmpstr(after, ==, before);
}

static void test_words(void)
{
    g_assert_cmpstr(wb_wiring_sizes_words(WB_SIZES_ANY), ==, "metric or AWG");
    g_assert_cmpstr(wb_wiring_sizes_words(WB_SIZES_METRIC), ==, "metric");
    g_assert_cmpstr(wb_wiring_rule_set_words(WB_RULES_BOAT), ==, "boat");
    g_assert_cmpstr(wb_wiring_rule_set_words(WB_RULES_BUILDING), ==, "building");
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/wiring-edit/assumed", test_assumed);
    g_test_add_func("/wiring-edit/can-have", test_can_have);
    g_test_add_func("/wiring-edit/take", test_take);
    g_test_add_func("/wiring-edit/words", test_words);
    return g_test_run();
}
