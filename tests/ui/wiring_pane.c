/* The wiring on its pane: diagram, table and reckoning tell of the same circuit however it was
 * chosen, files are written, and a question that replaces another wins. Runs under Xvfb. */
#include "wiring_pane.h"
#include "brief_file.h"
#include "circuit_table.h"
#include "database.h"
#include "diagram_view.h"
#include "document.h"
#include "resources.h"
#include "wb-resources.h"
#include "words_circuit.h"

#include <glib/gstdio.h>
#include <string.h>

/* Made once: the demo with few counts to try. */
static WbDocument *document;
static WbResult *result, *unwired;
static WbKitWiring *expected;

static WbResult *make(WbCatalogueView *view)
{
    g_autoptr(GError) error = NULL;
    WbResult *made = wb_result_make(wb_document_get_file(document), view, NULL, NULL, &error);
    g_assert_no_error(error);
    return made;
}

static void make_results(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = wb_database_open(":memory:", FALSE, &error);
    g_assert_no_error(error);
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    g_assert_no_error(error);
    document = wb_document_new(view);
    g_assert_true(wb_document_begin_demo(document, &error));
    g_assert_true(wb_document_set_json(
        document, "Small", "/largest",
        "{\"series\": 1, \"parallel\": 2, \"bank_series\": 1, \"bank_parallel\": 3}", &error));
    result = make(view);
    g_assert_true(wb_document_set_json(document, "Off", "/wiring/on", "false", &error));
    unwired = make(view);
    g_assert_true(wb_document_set_json(document, "On", "/wiring/on", "true", &error));
    expected = wb_kit_wiring_new(result, NULL, &error);
    g_assert_no_error(error);
    g_assert_cmpuint(expected->wiring.n, >, 5);
}

typedef struct {
    WbContext context;
    GtkWidget *window, *pane, *diagram, *table;
} Fixture;

static void spin(void)
{
    while (g_main_context_iteration(NULL, FALSE))
        ;
}

static void show(Fixture *fixture, WbResult *of)
{
    gint64 end = g_get_monotonic_time() + 60 * G_USEC_PER_SEC;
    wb_wiring_pane_show(WB_WIRING_PANE(fixture->pane), of, NULL);
    while (wb_wiring_pane_get_busy(WB_WIRING_PANE(fixture->pane))) {
        g_assert_cmpint(g_get_monotonic_time(), <, end);
        if (!g_main_context_iteration(NULL, FALSE))
            g_usleep(1000);
    }
    spin();
}

static GtkWidget *find(GtkWidget *widget, GType type)
{
    if (G_TYPE_CHECK_INSTANCE_TYPE(widget, type))
        return widget;
    for (GtkWidget *child = gtk_widget_get_first_child(widget); child != NULL;
         child = gtk_widget_get_next_sibling(child)) {
        GtkWidget *found = find(child, type);
        if (found != NULL)
            return found;
    }
    return NULL;
}

/* A label on the screen that holds this text. */
static gboolean says(GtkWidget *widget, const char *text)
{
    if (!gtk_widget_get_visible(widget))
        return FALSE;
    if (GTK_IS_LABEL(widget) && strstr(gtk_label_get_text(GTK_LABEL(widget)), text) != NULL)
        return TRUE;
    for (GtkWidget *child = gtk_widget_get_first_child(widget); child != NULL;
         child = gtk_widget_get_next_sibling(child))
        if (says(child, text))
            return TRUE;
    return FALSE;
}

static void set_up(Fixture *fixture, gconstpointer data)
{
    fixture->context = (WbContext){.document = document};
    fixture->window = gtk_window_new();
    fixture->pane = wb_wiring_pane_new(&fixture->context);
    fixture->diagram = find(fixture->pane, WB_TYPE_DIAGRAM_VIEW);
    fixture->table = find(fixture->pane, WB_TYPE_CIRCUIT_TABLE);
    gtk_window_set_default_size(GTK_WINDOW(fixture->window), 760, 1200);
    gtk_window_set_child(GTK_WINDOW(fixture->window), fixture->pane);
    gtk_window_present(GTK_WINDOW(fixture->window));
    spin();
}

static void tear_down(Fixture *fixture, gconstpointer data)
{
    gtk_window_destroy(GTK_WINDOW(fixture->window));
    spin();
}

static char *described(GtkWidget *widget, int chosen)
{
    const WbProblem *problem = wb_result_get_problem(expected->result);
    g_autofree char *line = wb_words_circuit_line(problem, &expected->wiring.circuit[chosen]);
    return g_strdup_printf("%d circuits; the table below has the same data. Chosen: %s",
                           (int)expected->wiring.n, line);
}

static void assert_chosen(Fixture *fixture, int chosen)
{
    const WbProblem *problem = wb_result_get_problem(expected->result);
    const WbCircuit *circuit = &expected->wiring.circuit[chosen];
    g_autofree char *text = described(fixture->diagram, chosen);
    g_autofree char *title = wb_words_circuit_title(problem, circuit);
    g_autofree char *numbered = g_strdup_printf("%d  %s", chosen + 1, title);
    g_autoptr(WbReckoning) reckoning = wb_reckoning_new(problem, &expected->kit, circuit);
    g_autofree char *other = gtk_test_accessible_check_property(
        GTK_ACCESSIBLE(fixture->diagram), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text);
    g_assert_cmpstr(other, ==, NULL);
    g_assert_true(says(fixture->pane, numbered));
    for (gsize i = 0; i < reckoning->n; i++) {
        g_assert_true(says(fixture->pane, reckoning->line[i].label));
        g_assert_true(says(fixture->pane, reckoning->line[i].text));
    }
}

static void test_keys(Fixture *fixture, gconstpointer data)
{
    int last = (int)expected->wiring.n - 1;
    show(fixture, result);
    const struct {
        int step, chosen;
    } steps[] = {{1, 0}, {1, 1}, {1, 2}, {-1, 1}, {10000, last}, {1, last}, {-10000, 0}, {-1, 0}};
    for (gsize i = 0; i < G_N_ELEMENTS(steps); i++) {
        gtk_widget_activate_action(fixture->diagram, "diagram.choose", "i", steps[i].step);
        spin();
        assert_chosen(fixture, steps[i].chosen);
    }
    gtk_widget_activate_action(fixture->diagram, "diagram.let-go", NULL);
    g_assert_cmpint(wb_diagram_view_get_chosen(WB_DIAGRAM_VIEW(fixture->diagram)), ==, -1);
    g_assert_true(says(fixture->pane, "Choose a circuit"));
}

static void test_rows(Fixture *fixture, gconstpointer data)
{
    show(fixture, result);
    GtkColumnView *view = GTK_COLUMN_VIEW(find(fixture->table, GTK_TYPE_COLUMN_VIEW));
    GtkSelectionModel *rows = gtk_column_view_get_model(view);
    g_assert_cmpuint(g_list_model_get_n_items(G_LIST_MODEL(rows)), ==, expected->wiring.n);
    for (guint i = 0; i < expected->wiring.n; i++) {
        gtk_selection_model_select_item(rows, i, TRUE);
        spin();
        assert_chosen(fixture, (int)i);
        g_assert_cmpint(wb_diagram_view_get_chosen(WB_DIAGRAM_VIEW(fixture->diagram)), ==, (int)i);
    }
}

/* What was chosen stays so when the same circuits come anew. */
static void test_replaced(Fixture *fixture, gconstpointer data)
{
    show(fixture, result);
    gtk_widget_activate_action(fixture->diagram, "diagram.choose", "i", 10000);
    wb_wiring_pane_show(WB_WIRING_PANE(fixture->pane), result, "");
    wb_wiring_pane_show(WB_WIRING_PANE(fixture->pane), unwired, NULL);
    show(fixture, result);
    assert_chosen(fixture, (int)expected->wiring.n - 1);
    show(fixture, unwired);
    g_assert_true(says(fixture->pane, "Circuits are not sized"));
    g_assert_false(gtk_widget_get_mapped(fixture->diagram));
    wb_wiring_pane_show_none(WB_WIRING_PANE(fixture->pane), "No kit works yet.");
    g_assert_true(says(fixture->pane, "No kit works yet."));
    g_assert_false(wb_wiring_pane_get_busy(WB_WIRING_PANE(fixture->pane)));
    show(fixture, result);
    g_assert_true(gtk_widget_get_mapped(fixture->diagram));
}

/* The pane goes while its answer is on the way. */
static void test_ended_meanwhile(Fixture *fixture, gconstpointer data)
{
    wb_wiring_pane_show(WB_WIRING_PANE(fixture->pane), result, NULL);
    gtk_window_set_child(GTK_WINDOW(fixture->window), NULL);
    gint64 end = g_get_monotonic_time() + G_USEC_PER_SEC / 5;
    while (g_get_monotonic_time() < end)
        if (!g_main_context_iteration(NULL, FALSE))
            g_usleep(1000);
}

static void test_files(Fixture *fixture, gconstpointer data)
{
    static const char *const names[] = {"wiring.pdf", "wiring.svg"};
    static const char *const begins[] = {"%PDF-", "<?xml"};
    g_autofree char *folder = g_dir_make_tmp("wattberth-wiring-XXXXXX", NULL);
    show(fixture, result);
    for (gsize i = 0; i < G_N_ELEMENTS(names); i++) {
        g_autofree char *path = g_build_filename(folder, names[i], NULL);
        g_autofree char *text = NULL;
        g_assert_true(gtk_widget_activate_action(fixture->pane, "wiring.save-as", "s", path));
        g_assert_true(g_file_get_contents(path, &text, NULL, NULL));
        g_assert_true(g_str_has_prefix(text, begins[i]));
        g_remove(path);
    }
    g_rmdir(folder);
}

int main(int argc, char **argv)
{
    gtk_test_init(&argc, &argv, NULL);
    g_resources_register(wb_get_resource());
    make_results();
#define ADD(path, test) g_test_add(path, Fixture, NULL, set_up, test, tear_down)
    ADD("/wiring-pane/keys", test_keys);
    ADD("/wiring-pane/rows", test_rows);
    ADD("/wiring-pane/replaced", test_replaced);
    ADD("/wiring-pane/ended-meanwhile", test_ended_meanwhile);
    ADD("/wiring-pane/files", test_files);
    int failed = g_test_run();
    wb_kit_wiring_free(expected);
    wb_result_unref(result);
    wb_result_unref(unwired);
    g_object_unref(document);
    return failed;
}
