/* Edits, undo and redo: every state comes back byte by byte. */
#include "problem.h"
#include "rig.h"

typedef struct {
    guint changed, replaced;
} Heard;

static void on_changed(WbDocument *document, Heard *heard)
{
    heard->changed++;
}

static void on_replaced(WbDocument *document, Heard *heard)
{
    heard->replaced++;
}

typedef enum { SET, INSERT, REMOVE, MOVE } Kind;

typedef struct {
    Kind kind;
    const char *pointer, *json;
    int from, to;
} Step;

/* One of each kind of edit, on the new brief. */
static const Step steps[] = {
    {SET, "/name", "\"Harbour hut\"", 0, 0},
    {SET, "/loads/0/watts", "7.5", 0, 0},
    {INSERT, "/loads/-",
     "{\"name\": \"Pump\", \"watts\": 60, \"supply\": \"dc\", "
     "\"hours_per_day\": 0.5}",
     0, 0},
    {INSERT, "/loads/0",
     "{\"name\": \"Radio\", \"watts\": 6, \"supply\": \"dc\", "
     "\"hours_per_day\": 3}",
     0, 0},
    {MOVE, "/loads", NULL, 0, 2},
    {SET, "/site/months", "[6, 7, 8]", 0, 0},
    {SET, "/notes", "\"with \\u00fcmlauts and a \\\"quote\\\"\"", 0, 0},
    {REMOVE, "/loads/1", NULL, 0, 0},
    {SET, "/limits/money_minor/value", "150000", 0, 0},
    {SET, "/bay", "{\"length_mm\": 600, \"width_mm\": 400, \"height_mm\": 300}", 0, 0},
};

static gboolean perform(WbDocument *document, const Step *step, GError **error)
{
    switch (step->kind) {
    case SET:
        return wb_document_set_json(document, "Set", step->pointer, step->json, error);
    case INSERT:
        return wb_document_insert(document, "Insert", step->pointer, step->json, error);
    case REMOVE:
        return wb_document_remove(document, "Remove", step->pointer, error);
    case MOVE:
        return wb_document_move(document, "Move", step->pointer, step->from, step->to, error);
    }
    g_assert_not_reached();
}

static void expect_text(WbDocument *document, const char *expected)
{
    g_autofree char *text = rig_text(document);
    g_assert_cmpstr(text, ==, expected);
}

/* After each edit: undo and redo give the two texts; at the end all the way back and forth. */
static void test_round_trips(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autoptr(GPtrArray) texts = g_ptr_array_new_with_free_func(g_free);
    g_ptr_array_add(texts, rig_text(document));
    for (gsize i = 0; i < G_N_ELEMENTS(steps); i++) {
        g_autoptr(GError) error = NULL;
        g_assert_true(perform(document, &steps[i], &error));
        g_assert_no_error(error);
        g_ptr_array_add(texts, rig_text(document));
        g_assert_cmpstr(texts->pdata[i], !=, texts->pdata[i + 1]);
        g_assert_true(wb_document_undo(document));
        expect_text(document, texts->pdata[i]);
        g_assert_true(wb_document_redo(document));
        expect_text(document, texts->pdata[i + 1]);
        g_assert_false(wb_document_redo(document));
    }
    for (guint i = G_N_ELEMENTS(steps); i-- > 0;) {
        g_assert_true(wb_document_undo(document));
        expect_text(document, texts->pdata[i]);
    }
    g_assert_false(wb_document_undo(document));
    for (guint i = 0; i < G_N_ELEMENTS(steps); i++) {
        g_assert_true(wb_document_redo(document));
        expect_text(document, texts->pdata[i + 1]);
    }
}

static void test_labels(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_assert_null(wb_document_get_undo_label(document));
    wb_document_set_text(document, "Rename", "/name", "A", NULL);
    wb_document_set_number(document, "Change target", "/targets/autonomy_days", 3, NULL);
    g_assert_cmpstr(wb_document_get_undo_label(document), ==, "Change target");
    g_assert_null(wb_document_get_redo_label(document));
    wb_document_undo(document);
    g_assert_cmpstr(wb_document_get_undo_label(document), ==, "Rename");
    g_assert_cmpstr(wb_document_get_redo_label(document), ==, "Change target");
    wb_document_set_text(document, "Note", "/notes", "x", NULL);
    g_assert_null(wb_document_get_redo_label(document)); /* what was undone is gone */
    g_assert_cmpstr(wb_document_get_undo_label(document), ==, "Note");
}

/* A slider drag is one step; another field, or a seal, begins the next. */
static void test_merge(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autofree char *before = rig_text(document);
    for (int i = 1; i <= 40; i++)
        g_assert_true(wb_document_set_number(document, "Weigh", "/weights/cost", i / 10.0, NULL));
    g_assert_true(wb_document_undo(document));
    expect_text(document, before);
    g_assert_false(wb_document_can_undo(document));
    wb_document_redo(document);
    wb_document_set_number(document, "Weigh", "/weights/cost", 9, NULL);
    wb_document_seal(document);
    wb_document_set_number(document, "Weigh", "/weights/cost", 8, NULL);
    wb_document_set_number(document, "Weigh", "/weights/weight", 8, NULL);
    wb_document_set_number(document, "Weigh", "/weights/cost", 7, NULL);
    int steps_back = 0;
    while (wb_document_undo(document))
        steps_back++;
    g_assert_cmpint(steps_back, ==, 5);
    expect_text(document, before);
}

static void test_merge_by_time(void)
{
    g_autoptr(WbDocument) document = rig_document();
    wb_document_set_merge_ms(document, 0);
    wb_document_set_number(document, "Weigh", "/weights/cost", 2, NULL);
    wb_document_set_number(document, "Weigh", "/weights/cost", 3, NULL);
    wb_document_undo(document);
    g_autofree char *cost = wb_document_get_json(document, "/weights/cost");
    g_assert_cmpstr(cost, ==, "2");
}

/* Each of these must change nothing and say one sentence with the value in it. */
static void test_refused(void)
{
    static const struct {
        const char *pointer, *json, *names;
    } cases[] = {
        {"/loads/0/hours_per_day", "25", "25"}, {"/loads/0/watts", "-4", "-4"},
        {"/loads/0/supply", "\"gas\"", "gas"},  {"/site/months", "[13]", "13"},
        {"/site/months", "[]", "months"},       {"/currency", "\"euro\"", "euro"},
        {"/roof/length_mm", "-1", "-1"},        {"/loads/0/watts", "NaN", NULL},
        {"/loads/0/watts", "1 2", NULL},        {"/targets/autonomy_days", "\"two\"", "two"},
        {"/largest/series", "99", "99"},        {"/loads/0/name", "12", "12"},
    };
    g_autoptr(WbDocument) document = rig_document();
    Heard heard = {0};
    g_autofree char *before = rig_text(document);
    guint64 revision = wb_document_get_revision(document);
    g_signal_connect(document, "changed", G_CALLBACK(on_changed), &heard);
    for (gsize i = 0; i < G_N_ELEMENTS(cases); i++) {
        g_autoptr(GError) error = NULL;
        g_test_message("%s = %s", cases[i].pointer, cases[i].json);
        g_assert_false(
            wb_document_set_json(document, "Try", cases[i].pointer, cases[i].json, &error));
        g_assert_nonnull(error);
        g_assert_cmpuint(strlen(error->message), >, 10);
        if (cases[i].names)
            g_assert_nonnull(strstr(error->message, cases[i].names));
        expect_text(document, before);
    }
    g_assert_cmpuint(heard.changed, ==, 0);
    g_assert_cmpuint(wb_document_get_revision(document), ==, revision);
    g_assert_false(wb_document_can_undo(document));
    g_assert_false(wb_document_get_modified(document));
}

/* Several edits are one step, or none of them happens. */
static void test_apply(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autoptr(GError) error = NULL;
    g_autofree char *before = rig_text(document);
    const WbEdit good[] = {{WB_EDIT_SET, "/name", "\"Both\""},
                           {WB_EDIT_INSERT, "/loads/-",
                            "{\"name\": \"Fan\", \"watts\": 20, \"supply\": \"dc\", "
                            "\"hours_per_day\": 2}"},
                           {WB_EDIT_REMOVE, "/loads/0", NULL}};
    const WbEdit bad[] = {{WB_EDIT_SET, "/name", "\"Neither\""},
                          {WB_EDIT_SET, "/loads/0/watts", "-1"}};
    g_assert_false(wb_document_apply(document, "Bad", bad, G_N_ELEMENTS(bad), &error));
    g_assert_nonnull(error);
    expect_text(document, before);
    g_assert_true(wb_document_apply(document, "Good", good, G_N_ELEMENTS(good), NULL));
    g_assert_cmpstr(wb_document_get_brief(document)->loads[0].name, ==, "Fan");
    g_assert_true(wb_document_undo(document));
    expect_text(document, before);
}

/* Setting what is there already is no step. */
static void test_no_change(void)
{
    g_autoptr(WbDocument) document = rig_document();
    Heard heard = {0};
    g_signal_connect(document, "changed", G_CALLBACK(on_changed), &heard);
    g_assert_true(wb_document_set_json(document, "Same", "/loads/0/watts", "5", NULL));
    g_assert_false(wb_document_can_undo(document));
    g_assert_cmpuint(heard.changed, ==, 0);
}

static void test_signals(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_autoptr(WbCatalogueView) view = rig_view();
    Heard heard = {0};
    g_signal_connect(document, "changed", G_CALLBACK(on_changed), &heard);
    g_signal_connect(document, "replaced", G_CALLBACK(on_replaced), &heard);
    wb_document_set_text(document, "Rename", "/name", "A", NULL);
    wb_document_undo(document);
    wb_document_redo(document);
    g_assert_cmpuint(heard.changed, ==, 3);
    g_assert_cmpuint(heard.replaced, ==, 0);
    wb_document_set_view(document, view);
    g_assert_cmpuint(heard.changed, ==, 4);
    g_assert_true(wb_document_begin_demo(document, NULL));
    g_assert_cmpuint(heard.changed, ==, 5);
    g_assert_cmpuint(heard.replaced, ==, 1);
    g_assert_false(wb_document_can_undo(document));
}

static void test_ticks(void)
{
    g_autoptr(WbDocument) document = rig_document();
    const WbCatalogue *catalogue = wb_document_get_catalogue(document);
    const char *panel = catalogue->panels[0].part.id;
    g_autofree char *before = rig_text(document);
    g_assert_true(wb_document_tick(document, panel, FALSE, NULL));
    const WbBrief *brief = wb_document_get_brief(document);
    g_assert_false(wb_brief_ticks(brief, panel));
    g_assert_true(wb_brief_ticks(brief, catalogue->panels[1].part.id));
    g_assert_true(wb_brief_ticks(brief, catalogue->storage[0].part.id));
    g_assert_cmpuint(brief->n_candidates, ==,
                     catalogue->n_panels + catalogue->n_controllers + catalogue->n_storage +
                         catalogue->n_inverters + catalogue->n_dcdc - 1);
    g_assert_true(wb_document_tick(document, panel, TRUE, NULL));
    expect_text(document, before); /* "all" again */
    g_assert_true(wb_document_tick_kind(document, WB_KIND_STORAGE, FALSE, NULL));
    for (gsize i = 0; i < catalogue->n_storage; i++)
        g_assert_false(
            wb_brief_ticks(wb_document_get_brief(document), catalogue->storage[i].part.id));
    g_assert_true(wb_document_undo(document));
    expect_text(document, before);
}

static void test_finalization(void)
{
    WbDocument *document = rig_document();
    wb_document_set_text(document, "Rename", "/name", "A", NULL);
    g_assert_finalize_object(document);
}

static void test_not_read(void)
{
    g_autoptr(WbDocument) document = rig_document();
    g_assert_null(wb_document_not_read(document));
    g_assert_true(wb_document_set_json(document, "Slip", "/taregts", "{}", NULL));
    g_autofree char *sentence = wb_document_not_read(document);
    g_assert_nonnull(strstr(sentence, "/taregts"));
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/document/not-read", test_not_read);
    g_test_add_func("/document/round-trips", test_round_trips);
    g_test_add_func("/document/labels", test_labels);
    g_test_add_func("/document/merge", test_merge);
    g_test_add_func("/document/merge-by-time", test_merge_by_time);
    g_test_add_func("/document/refused", test_refused);
    g_test_add_func("/document/apply", test_apply);
    g_test_add_func("/document/no-change", test_no_change);
    g_test_add_func("/document/signals", test_signals);
    g_test_add_func("/document/ticks", test_ticks);
    g_test_add_func("/document/finalization", test_finalization);
    return g_test_run();
}
