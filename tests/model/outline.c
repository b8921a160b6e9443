/* The side and the foot, without a window. */
#include "outline.h"
#include "rig.h"

typedef struct {
    WbDocument *document;
    WbResult *result;
    WbOutlineLine line[WB_N_STEPS];
} Fixture;

static void rank(Fixture *fixture)
{
    g_clear_pointer(&fixture->result, wb_result_unref);
    fixture->result = wb_result_make(wb_document_get_file(fixture->document),
                                     wb_document_get_view(fixture->document), NULL, NULL, NULL);
    g_assert_nonnull(fixture->result);
}

static void outline(Fixture *fixture)
{
    wb_outline_clear(fixture->line);
    wb_outline_make(wb_document_get_brief(fixture->document),
                    wb_document_get_catalogue(fixture->document), fixture->result, "",
                    fixture->line);
}

static void set_up(Fixture *fixture, gconstpointer data)
{
    *fixture = (Fixture){.document = rig_document()};
    g_assert_true(wb_document_begin_demo(fixture->document, NULL));
}

static void tear_down(Fixture *fixture, gconstpointer data)
{
    wb_outline_clear(fixture->line);
    g_clear_pointer(&fixture->result, wb_result_unref);
    g_object_unref(fixture->document);
}

static void edit(Fixture *fixture, const char *pointer, const char *json)
{
    g_autoptr(GError) error = NULL;
    g_assert_true(wb_document_set_json(fixture->document, "Edit", pointer, json, &error));
    g_assert_no_error(error);
}

static void test_before_the_answer(Fixture *fixture, gconstpointer data)
{
    outline(fixture);
    g_assert_nonnull(strstr(fixture->line[WB_STEP_LOADS].line, "Wh/day"));
    g_assert_cmpint(fixture->line[WB_STEP_LOADS].mark, ==, WB_MARK_DONE);
    g_assert_cmpint(fixture->line[WB_STEP_PARTS].mark, ==, WB_MARK_DONE);
    for (int step = WB_STEP_RANKING; step < WB_N_STEPS; step++)
        g_assert_cmpint(fixture->line[step].mark, ==, WB_MARK_WAITING);
}

static void test_demo(Fixture *fixture, gconstpointer data)
{
    rank(fixture);
    outline(fixture);
    for (int step = 0; step < WB_N_STEPS; step++) {
        g_test_message("%s: %s", wb_step_title(step), fixture->line[step].line);
        g_assert_cmpint(fixture->line[step].mark, ==, WB_MARK_DONE);
        g_assert_null(fixture->line[step].what);
        g_assert_cmpuint(strlen(fixture->line[step].line), >, 1);
    }
}

typedef struct {
    const char *pointer, *json;
    WbStep step;
    WbMark mark;
} Wanting;

static const Wanting wanting[] = {
    {"/loads", "[]", WB_STEP_LOADS, WB_MARK_WANTS},
    {"/candidates", "[]", WB_STEP_PARTS, WB_MARK_WANTS},
    {"/candidates", "[]", WB_STEP_RANKING, WB_MARK_CONFLICT},
    {"/limits/money_minor/value", "100", WB_STEP_RANKING, WB_MARK_CONFLICT},
    {"/limits/money_minor/value", "100", WB_STEP_KIT, WB_MARK_WANTS},
    {"/site/months", "[12]", WB_STEP_LOADS, WB_MARK_CONFLICT},
};

static void test_marks(Fixture *fixture, gconstpointer data)
{
    for (gsize i = 0; i < G_N_ELEMENTS(wanting); i++) {
        const Wanting *wants = &wanting[i];
        g_test_message("%s = %s", wants->pointer, wants->json);
        edit(fixture, wants->pointer, wants->json);
        rank(fixture);
        outline(fixture);
        g_assert_cmpint(fixture->line[wants->step].mark, ==, wants->mark);
        g_assert_nonnull(fixture->line[wants->step].what);
        g_assert_true(g_str_has_suffix(fixture->line[wants->step].what, "."));
        g_assert_true(wb_document_undo(fixture->document));
    }
}

static void test_in_hand(Fixture *fixture, gconstpointer data)
{
    WbInHand in_hand;
    char id[WB_KIT_ID];
    g_assert_false(wb_in_hand_make(NULL, "", &in_hand));
    wb_in_hand_clear(&in_hand);
    rank(fixture);
    g_assert_true(wb_in_hand_make(fixture->result, "", &in_hand));
    g_assert_true(in_hand.best);
    for (int i = 0; i < WB_N_GAUGES; i++) {
        g_assert_false(in_hand.gauge[i].breaks); /* the best one works */
        g_assert_null(in_hand.gauge[i].broken_by);
        g_assert_nonnull(in_hand.gauge[i].text);
    }
    wb_in_hand_clear(&in_hand);
    const WbRanking *ranking = wb_result_get_ranking(fixture->result);
    wb_kit_id(wb_result_get_problem(fixture->result), &ranking->top[1].kit, id);
    g_assert_true(wb_in_hand_make(fixture->result, id, &in_hand));
    g_assert_false(in_hand.best);
    g_assert_cmpstr(in_hand.kit_id, ==, id);
    wb_in_hand_clear(&in_hand);
}

/* Over the money limit: the kept kit says by how much, in words. */
static void test_over_the_limit(Fixture *fixture, gconstpointer data)
{
    WbInHand in_hand;
    char id[WB_KIT_ID];
    rank(fixture);
    g_assert_true(wb_result_kit_id(fixture->result, "", id));
    g_assert_true(wb_in_hand_make(fixture->result, id, &in_hand));
    double cost = in_hand.gauge[WB_GAUGE_MONEY].value;
    wb_in_hand_clear(&in_hand);
    g_autofree char *limit = g_strdup_printf("%.0f", (cost - 88) * 100);
    edit(fixture, "/limits/money_minor/value", limit);
    rank(fixture);
    g_assert_true(wb_in_hand_make(fixture->result, id, &in_hand));
    g_assert_true(in_hand.gauge[WB_GAUGE_MONEY].breaks);
    g_assert_nonnull(strstr(in_hand.gauge[WB_GAUGE_MONEY].broken_by, "88 EUR"));
    wb_in_hand_clear(&in_hand);
    edit(fixture, "/limits/money_minor/on", "false");
    rank(fixture);
    g_assert_true(wb_in_hand_make(fixture->result, id, &in_hand));
    g_assert_false(in_hand.gauge[WB_GAUGE_MONEY].breaks);
    wb_in_hand_clear(&in_hand);
}

#define ADD(path, test) g_test_add(path, Fixture, NULL, set_up, test, tear_down)

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    ADD("/outline/before-the-answer", test_before_the_answer);
    ADD("/outline/demo", test_demo);
    ADD("/outline/marks", test_marks);
    ADD("/outline/in-hand", test_in_hand);
    ADD("/outline/over-the-limit", test_over_the_limit);
    return g_test_run();
}
