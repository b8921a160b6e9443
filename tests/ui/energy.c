/* The kit's year on its pane: pictures, their read-out by key, tables, and a question that replaces
 * another. Runs under Xvfb. */
#include "brief_file.h"
#include "charge_chart.h"
#include "database.h"
#include "document.h"
#include "energy_pane.h"
#include "kit_energy.h"
#include "pencil_table.h"
#include "source_chart.h"

/* Made once: the demo with few counts to try; the tests only read it. */
static WbResult *result;
static WbKitEnergy *expected;

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
        "{\"series\": 1, \"parallel\": 2, \"bank_series\": 1, \"bank_parallel\": 3}", &error));
    result = wb_result_make(wb_document_get_file(document), view, NULL, NULL, &error);
    g_assert_no_error(error);
    expected = wb_kit_energy_new(result, NULL, &error);
    g_assert_no_error(error);
}

typedef struct {
    GtkWidget *window, *pane;
} Fixture;

static void wait_until_shown(WbEnergyPane *pane)
{
    gint64 end = g_get_monotonic_time() + 60 * G_USEC_PER_SEC;
    while (wb_energy_pane_get_busy(pane)) {
        g_assert_cmpint(g_get_monotonic_time(), <, end);
        if (!g_main_context_iteration(NULL, FALSE))
            g_usleep(1000);
    }
}

static void set_up(Fixture *fixture, gconstpointer data)
{
    fixture->window = gtk_window_new();
    fixture->pane = wb_energy_pane_new();
    gtk_window_set_default_size(GTK_WINDOW(fixture->window), 760, 1200);
    gtk_window_set_child(GTK_WINDOW(fixture->window), fixture->pane);
    gtk_window_present(GTK_WINDOW(fixture->window));
}

static void tear_down(Fixture *fixture, gconstpointer data)
{
    gtk_window_destroy(GTK_WINDOW(fixture->window));
    while (g_main_context_iteration(NULL, FALSE))
        ;
}

static GtkWidget *find(GtkWidget *widget, GType type)
{
    if (G_TYPE_CHECK_INSTANCE_TYPE(widget, type))
        return widget;
    for (GtkWidget *child = gtk_widget_get_first_child(widget); child;
         child = gtk_widget_get_next_sibling(child)) {
        GtkWidget *found = find(child, type);
        if (found)
            return found;
    }
    return NULL;
}

static void assert_described(GtkWidget *widget, const char *text)
{
    g_autofree char *other = gtk_test_accessible_check_property(
        GTK_ACCESSIBLE(widget), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text);
    g_assert_cmpstr(other, ==, NULL);
}

static gboolean press(GtkWidget *widget, guint key)
{
    gboolean taken = FALSE;
    g_autoptr(GListModel) controllers = gtk_widget_observe_controllers(widget);
    for (guint i = 0; i < g_list_model_get_n_items(controllers); i++) {
        g_autoptr(GtkEventController) controller = g_list_model_get_item(controllers, i);
        if (GTK_IS_EVENT_CONTROLLER_KEY(controller))
            g_signal_emit_by_name(controller, "key-pressed", key, 0, 0, &taken);
    }
    return taken;
}

/* ---- the fortnight ---- */

static void test_read_out(Fixture *fixture, gconstpointer data)
{
    GtkWidget *chart = find(fixture->pane, WB_TYPE_CHARGE_CHART);
    assert_described(chart, "The year is being worked out.");
    wb_energy_pane_show(WB_ENERGY_PANE(fixture->pane), result, NULL);
    g_assert_true(wb_energy_pane_get_busy(WB_ENERGY_PANE(fixture->pane)));
    wait_until_shown(WB_ENERGY_PANE(fixture->pane));
    g_autofree char *sentence = wb_kit_energy_sentence(expected);
    assert_described(chart, sentence);
    static const struct {
        guint key;
        int hour;
    } presses[] = {{GDK_KEY_Home, 0},    {GDK_KEY_Right, 1},    {GDK_KEY_Page_Down, 25},
                   {GDK_KEY_Page_Up, 1}, {GDK_KEY_Page_Up, 0},  {GDK_KEY_Left, 0},
                   {GDK_KEY_End, 335},   {GDK_KEY_Right, 335},  {GDK_KEY_Page_Down, 335},
                   {GDK_KEY_Left, 334},  {GDK_KEY_Page_Up, 310}};
    for (gsize i = 0; i < G_N_ELEMENTS(presses); i++) {
        g_assert_true(press(chart, presses[i].key));
        g_autofree char *text = wb_kit_energy_hour_text(expected, presses[i].hour, ", ");
        assert_described(chart, text);
    }
    g_assert_false(press(chart, GDK_KEY_Tab));
}

/* The key that goes a day belongs to the page where a picture has no days. */
static void test_months(Fixture *fixture, gconstpointer data)
{
    GtkWidget *chart = find(fixture->pane, WB_TYPE_SOURCE_CHART);
    wb_energy_pane_show(WB_ENERGY_PANE(fixture->pane), result, NULL);
    wait_until_shown(WB_ENERGY_PANE(fixture->pane));
    g_assert_true(press(chart, GDK_KEY_Home));
    g_assert_false(press(chart, GDK_KEY_Page_Down));
    WbYearMonth month[WB_MONTHS] = {0};
    month[0] = (WbYearMonth){.array_wh = 97, .shore_wh = 300, .need_wh = 700, .own_draw_wh = 10};
    month[1] = (WbYearMonth){.array_wh = 160, .need_wh = 700, .unmet_wh = 12, .dark_h = 3.25};
    wb_source_chart_set(WB_SOURCE_CHART(chart), month, 0xffe);
    assert_described(chart, "January (not in use), Sun 97\u202fWh, Shore 300\u202fWh");
    press(chart, GDK_KEY_Right);
    assert_described(chart,
                     "February, Sun 160\u202fWh, Shore 0\u202fWh, Need 700\u202fWh, Not used "
                     "0\u202fWh, Not carried 12\u202fWh, Dark 3.2 h in the month");
}

/* ---- tables ---- */

/* A closed opener keeps its child to itself. */
static guint hours_listed(GtkExpander *opener)
{
    GtkWidget *table = gtk_expander_get_child(opener);
    GtkColumnView *view = GTK_COLUMN_VIEW(find(table, GTK_TYPE_COLUMN_VIEW));
    GtkSelectionModel *model = gtk_column_view_get_model(view);
    return model ? g_list_model_get_n_items(G_LIST_MODEL(model)) : 0;
}

/* Hours fill their table when it is opened, not before: it is long. */
static void test_hours(Fixture *fixture, gconstpointer data)
{
    wb_energy_pane_show(WB_ENERGY_PANE(fixture->pane), result, NULL);
    wait_until_shown(WB_ENERGY_PANE(fixture->pane));
    GtkExpander *opener = GTK_EXPANDER(find(fixture->pane, GTK_TYPE_EXPANDER));
    gtk_expander_set_expanded(opener, TRUE);
    g_assert_cmpuint(hours_listed(opener), ==, WB_FORTNIGHT_HOURS);
    gtk_test_widget_wait_for_draw(fixture->window);
    GtkWidget *cell = find(gtk_expander_get_child(opener), GTK_TYPE_INSCRIPTION);
    g_autofree char *date = wb_energy_date(&expected->year, expected->first_hour);
    g_autofree char *first = g_strdup_printf("%s, 0 to 1 h", date);
    g_assert_cmpstr(gtk_inscription_get_text(GTK_INSCRIPTION(cell)), ==, first);
    gtk_expander_set_expanded(opener, FALSE);
    g_assert_cmpuint(hours_listed(opener), ==, 0);
}

/* A second filling replaces the first, on the screen and in what is copied. */
static void test_pencil(Fixture *fixture, gconstpointer data)
{
    static const WbPencilLine lines[] = {
        {"In amp-hours", "Wh / volts", "783 / 12.8", "61.2", "Ah", ""},
        {"Strings", "wanted / one", "29.4 / 16.1", "1.83", "", "Round up"}};
    GtkWidget *table = wb_pencil_table_new();
    gtk_window_set_child(GTK_WINDOW(fixture->window), table);
    wb_pencil_table_set(WB_PENCIL_TABLE(table), lines, 2);
    g_autofree char *both = wb_pencil_table_dup_text(WB_PENCIL_TABLE(table));
    g_assert_cmpstr(both, ==,
                    "1\tIn amp-hours\tWh / volts\t783 / 12.8\t61.2\tAh\t\n"
                    "2\tStrings\twanted / one\t29.4 / 16.1\t1.83\t\tRound up\n");
    wb_pencil_table_set(WB_PENCIL_TABLE(table), lines + 1, 1);
    g_autofree char *one = wb_pencil_table_dup_text(WB_PENCIL_TABLE(table));
    g_assert_cmpstr(one, ==, "1\tStrings\twanted / one\t29.4 / 16.1\t1.83\t\tRound up\n");
    GtkWidget *grid = find(table, GTK_TYPE_GRID);
    g_assert_nonnull(gtk_grid_get_child_at(GTK_GRID(grid), 0, 1));
    g_assert_null(gtk_grid_get_child_at(GTK_GRID(grid), 0, 2));
}

/* ---- questions ---- */

/* Asking takes no time a person could feel; of questions in a row only the last is shown. */
static void test_last_question(Fixture *fixture, gconstpointer data)
{
    const WbRanking *ranking = wb_result_get_ranking(result);
    char kit_id[WB_KIT_ID] = "";
    gint64 begun_us = g_get_monotonic_time();
    g_assert_cmpuint(ranking->n_top, >, 20);
    for (gsize i = 0; i < 20; i++) {
        wb_kit_id(wb_result_get_problem(result), &ranking->top[i].kit, kit_id);
        wb_energy_pane_show(WB_ENERGY_PANE(fixture->pane), result, kit_id);
    }
    gint64 took_us = g_get_monotonic_time() - begun_us;
    g_test_message("20 questions took %.2f ms", (double)took_us / 1e3);
    g_assert_cmpint(took_us, <, 200 * 1000);
    wait_until_shown(WB_ENERGY_PANE(fixture->pane));
    g_autoptr(GError) error = NULL;
    g_autoptr(WbKitEnergy) last = wb_kit_energy_new(result, kit_id, &error);
    g_autofree char *sentence = wb_kit_energy_sentence(last);
    assert_described(find(fixture->pane, WB_TYPE_CHARGE_CHART), sentence);
    wb_energy_pane_show(WB_ENERGY_PANE(fixture->pane), result, kit_id); /* the same again */
    g_assert_false(wb_energy_pane_get_busy(WB_ENERGY_PANE(fixture->pane)));
}

static void note_end(gpointer ended, GObject *gone)
{
    *(gboolean *)ended = TRUE;
}

/* A pane that is gone while its answer is on the way: nothing is shown and nothing is kept. */
static void test_gone_meanwhile(Fixture *fixture, gconstpointer data)
{
    gboolean ended = FALSE;
    GtkWidget *pane = g_object_ref_sink(wb_energy_pane_new());
    g_object_weak_ref(G_OBJECT(pane), note_end, &ended);
    wb_energy_pane_show(WB_ENERGY_PANE(pane), result, NULL);
    g_object_run_dispose(G_OBJECT(pane));
    g_object_unref(pane);
    gint64 end = g_get_monotonic_time() + 60 * G_USEC_PER_SEC;
    while (!ended) {
        g_assert_cmpint(g_get_monotonic_time(), <, end);
        if (!g_main_context_iteration(NULL, FALSE))
            g_usleep(1000);
    }
}

int main(int argc, char **argv)
{
    gtk_test_init(&argc, &argv, NULL);
    make_result();
    g_test_add("/energy/read-out", Fixture, NULL, set_up, test_read_out, tear_down);
    g_test_add("/energy/months", Fixture, NULL, set_up, test_months, tear_down);
    g_test_add("/energy/hours", Fixture, NULL, set_up, test_hours, tear_down);
    g_test_add("/energy/pencil", Fixture, NULL, set_up, test_pencil, tear_down);
    g_test_add("/energy/last-question", Fixture, NULL, set_up, test_last_question, tear_down);
    g_test_add("/energy/gone-meanwhile", Fixture, NULL, set_up, test_gone_meanwhile, tear_down);
    int failed = g_test_run();
    wb_kit_energy_free(expected);
    wb_result_unref(result);
    return failed;
}
