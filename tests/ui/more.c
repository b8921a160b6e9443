/* What more would buy, on its pane: sentence, picture and table say the same, by key and by click.
 * Runs under Xvfb. */
#include "brief_file.h"
#include "database.h"
#include "document.h"
#include "more_pane.h"
#include "resources.h"
#include "step_chart.h"
#include "wb-resources.h"
#include "words_more.h"
#include <math.h>

/* Made once: the demo with few counts to try; the tests only read them. */
static WbResult *result;
static WbMoreCurve curve; /* usable capacity for money */

static WbResult *make_result(const char *largest)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = wb_database_open(":memory:", FALSE, &error);
    g_assert_no_error(error);
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    g_assert_no_error(error);
    g_autoptr(WbDocument) document = wb_document_new(view);
    g_assert_true(wb_document_begin_demo(document, &error));
    g_assert_true(wb_document_set_json(document, "Small", "/largest", largest, &error));
    WbResult *made = wb_result_make(wb_document_get_file(document), view, NULL, NULL, &error);
    g_assert_no_error(error);
    return made;
}

typedef struct {
    GtkWidget *window;
    WbMorePane *pane;
    WbSession *session;
} Fixture;

static void wait_for(WbMorePane *pane)
{
    gint64 end = g_get_monotonic_time() + 60 * G_USEC_PER_SEC;
    while (!gtk_widget_get_mapped(GTK_WIDGET(pane)) || wb_more_pane_get_busy(pane)) {
        g_assert_cmpint(g_get_monotonic_time(), <, end);
        if (!g_main_context_iteration(NULL, FALSE))
            g_usleep(1000);
    }
}

static void set_up(Fixture *fixture, gconstpointer data)
{
    fixture->window = gtk_window_new();
    fixture->pane = g_object_new(WB_TYPE_MORE_PANE, NULL);
    fixture->session = wb_session_new();
    wb_more_pane_set_session(fixture->pane, fixture->session);
    gtk_window_set_default_size(GTK_WINDOW(fixture->window), 320, 700);
    gtk_window_set_child(GTK_WINDOW(fixture->window), GTK_WIDGET(fixture->pane));
    gtk_window_present(GTK_WINDOW(fixture->window));
}

static void tear_down(Fixture *fixture, gconstpointer data)
{
    gtk_window_destroy(GTK_WINDOW(fixture->window));
    while (g_main_context_iteration(NULL, FALSE))
        ;
    g_object_unref(fixture->session);
}

static GtkWidget *part(Fixture *fixture, const char *name)
{
    GObject *found =
        gtk_widget_get_template_child(GTK_WIDGET(fixture->pane), WB_TYPE_MORE_PANE, name);
    g_assert_nonnull(found);
    return GTK_WIDGET(found);
}

static const char *sentence_shown(Fixture *fixture)
{
    return gtk_label_get_text(GTK_LABEL(part(fixture, "words")));
}

static void assert_described(GtkWidget *widget, const char *text)
{
    g_autofree char *other = gtk_test_accessible_check_property(
        GTK_ACCESSIBLE(widget), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text);
    g_assert_cmpstr(other, ==, NULL);
}

static gboolean press_in(GListModel *shortcuts, GtkWidget *widget, guint key)
{
    for (guint i = 0; i < g_list_model_get_n_items(shortcuts); i++) {
        g_autoptr(GtkShortcut) shortcut = g_list_model_get_item(shortcuts, i);
        GtkShortcutTrigger *trigger = gtk_shortcut_get_trigger(shortcut);
        if (GTK_IS_KEYVAL_TRIGGER(trigger) &&
            gtk_keyval_trigger_get_keyval(GTK_KEYVAL_TRIGGER(trigger)) == key)
            return gtk_shortcut_action_activate(gtk_shortcut_get_action(shortcut), 0, widget,
                                                gtk_shortcut_get_arguments(shortcut));
    }
    return FALSE;
}

static gboolean press(GtkWidget *widget, guint key)
{
    gboolean taken = FALSE;
    g_autoptr(GListModel) controllers = gtk_widget_observe_controllers(widget);
    for (guint i = 0; i < g_list_model_get_n_items(controllers); i++) {
        g_autoptr(GtkEventController) controller = g_list_model_get_item(controllers, i);
        if (GTK_IS_SHORTCUT_CONTROLLER(controller))
            taken |= press_in(G_LIST_MODEL(controller), widget, key);
    }
    return taken;
}

static char *step_words(size_t i)
{
    const WbCurveStep *step = &curve.step[i];
    g_autofree char *needs = wb_words_curve_figure(curve.resource, step->resource, "EUR");
    g_autofree char *gives = wb_words_curve_figure(curve.gain, step->gain, "EUR");
    return g_strdup_printf("%s: %s%s", needs, gives,
                           step->resource > curve.limit ? "\nbeyond your limit" : "");
}

static void show(Fixture *fixture)
{
    wb_more_pane_show(fixture->pane, result);
    wait_for(fixture->pane);
}

static void test_empty(Fixture *fixture, gconstpointer data)
{
    g_assert_cmpstr(sentence_shown(fixture), ==, "Nothing has been ranked yet.");
    assert_described(part(fixture, "chart"), "Nothing has been ranked yet.");
    g_assert_false(press(part(fixture, "chart"), GDK_KEY_Right));
}

static void test_read_out(Fixture *fixture, gconstpointer data)
{
    GtkWidget *chart = part(fixture, "chart");
    show(fixture);
    const WbFigures *first = &wb_result_get_ranking(result)->top[0].figures;
    g_autofree char *sentence = wb_words_curve(wb_result_get_problem(result), &curve,
                                               (double)first->cost_minor, first->usable_wh);
    g_assert_cmpstr(sentence_shown(fixture), ==, sentence);
    assert_described(chart, sentence);
    g_assert_cmpuint(curve.n, >, 3);
    const struct {
        guint key;
        size_t step;
    } presses[] = {{GDK_KEY_Right, 0},          {GDK_KEY_Right, 1},
                   {GDK_KEY_Left, 0},           {GDK_KEY_Left, 0},
                   {GDK_KEY_End, curve.n - 1},  {GDK_KEY_Right, curve.n - 1},
                   {GDK_KEY_Left, curve.n - 2}, {GDK_KEY_Home, 0}};
    for (gsize i = 0; i < G_N_ELEMENTS(presses); i++) {
        g_autofree char *text = step_words(presses[i].step);
        g_assert_true(press(chart, presses[i].key));
        assert_described(chart, text);
    }
}

/* Enter on the picture and a row of the table take the kit of a step in hand. */
static void test_choose(Fixture *fixture, gconstpointer data)
{
    GtkWidget *chart = part(fixture, "chart");
    char id[WB_KIT_ID];
    show(fixture);
    g_assert_false(press(chart, GDK_KEY_Return)); /* none is shown */
    press(chart, GDK_KEY_End);
    g_assert_true(press(chart, GDK_KEY_Return));
    wb_kit_id(wb_result_get_problem(result), &curve.step[curve.n - 1].kit, id);
    g_assert_cmpstr(wb_session_get_kit(fixture->session), ==, id);
    GtkColumnView *view = GTK_COLUMN_VIEW(part(fixture, "view"));
    g_signal_emit_by_name(view, "activate", 1);
    wb_kit_id(wb_result_get_problem(result), &curve.step[1].kit, id);
    g_assert_cmpstr(wb_session_get_kit(fixture->session), ==, id);
    wb_more_pane_show(fixture->pane, result); /* as the page does on another kit */
    GtkSingleSelection *rows = GTK_SINGLE_SELECTION(gtk_column_view_get_model(view));
    g_assert_cmpuint(g_list_model_get_n_items(G_LIST_MODEL(rows)), ==, curve.n);
    g_assert_cmpuint(gtk_single_selection_get_selected(rows), ==, 1);
}

/* Dark hours come in the background, can be stopped, and go on. */
static void test_stop(Fixture *fixture, gconstpointer data)
{
    show(fixture);
    gtk_drop_down_set_selected(GTK_DROP_DOWN(part(fixture, "gain")), 1);
    g_assert_true(wb_more_pane_get_busy(fixture->pane));
    GtkWidget *work = part(fixture, "work");
    GtkWidget *go_on = part(fixture, "go_on"), *stop = part(fixture, "stop");
    g_assert_true(gtk_widget_get_visible(work) && gtk_widget_get_visible(stop));
    g_signal_emit_by_name(stop, "clicked");
    g_assert_false(wb_more_pane_get_busy(fixture->pane));
    g_assert_true(gtk_widget_get_visible(work) && gtk_widget_get_visible(go_on));
    g_signal_emit_by_name(go_on, "clicked");
    wait_for(fixture->pane);
    g_assert_false(gtk_widget_get_visible(work));
    GtkColumnView *view = GTK_COLUMN_VIEW(part(fixture, "view"));
    g_autoptr(GtkColumnViewColumn) gives =
        g_list_model_get_item(gtk_column_view_get_columns(view), 1);
    g_assert_cmpstr(gtk_column_view_column_get_title(gives), ==, "Dark, h");
}

/* Gone while its answer is on the way: nothing is shown and nothing is kept. */
static void test_gone_meanwhile(Fixture *fixture, gconstpointer data)
{
    wait_for(fixture->pane);
    WbMorePane *pane = fixture->pane;
    g_object_add_weak_pointer(G_OBJECT(pane), (gpointer *)&pane);
    wb_more_pane_show(pane, result);
    gtk_window_set_child(GTK_WINDOW(fixture->window), NULL);
    while (g_main_context_iteration(NULL, FALSE))
        ;
    g_assert_null(pane);
}

int main(int argc, char **argv)
{
    gtk_test_init(&argc, &argv, NULL);
    g_resources_register(wb_get_resource());
    result = make_result("{\"series\": 2, \"parallel\": 2, \"bank_series\": 1, "
                         "\"bank_parallel\": 2}");
    g_assert_cmpint(wb_more_curve(wb_result_get_problem(result),
                                  wb_result_get_ranking(result)->pool, true, WB_CRITERION_COST,
                                  WB_CRITERION_USABLE, NULL, &curve),
                    ==, WB_OK);
    g_test_add("/more/empty", Fixture, NULL, set_up, test_empty, tear_down);
    g_test_add("/more/read-out", Fixture, NULL, set_up, test_read_out, tear_down);
    g_test_add("/more/choose", Fixture, NULL, set_up, test_choose, tear_down);
    g_test_add("/more/stop", Fixture, NULL, set_up, test_stop, tear_down);
    g_test_add("/more/gone-meanwhile", Fixture, NULL, set_up, test_gone_meanwhile, tear_down);
    int failed = g_test_run();
    wb_more_curve_free(&curve);
    wb_result_unref(result);
    return failed;
}
