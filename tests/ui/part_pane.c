/* Asking about a part: typed, chosen, answered, a kit taken in hand, back; from elsewhere; and the
 * row of the dark hours that learns its nearest kit. Runs under Xvfb. */
#include "part_pane.h"
#include "brief_file.h"
#include "database.h"
#include "document.h"
#include "resources.h"
#include "ruled_out_pane.h"
#include "wb-resources.h"

static WbResult *result;

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
        "{\"series\": 2, \"parallel\": 2, \"bank_series\": 1, \"bank_parallel\": 2}", &error));
    g_assert_true(wb_document_set_json(document, "Dark", "/limits/dark_hours/value", "60", &error));
    result = wb_result_make(wb_document_get_file(document), view, NULL, NULL, &error);
    g_assert_no_error(error);
}

typedef struct {
    GtkWidget *window;
    WbRuledOutPane *pane;
    WbSession *session;
} Fixture;

static void set_up(Fixture *fixture, gconstpointer data)
{
    fixture->window = gtk_window_new();
    fixture->pane = g_object_new(WB_TYPE_RULED_OUT_PANE, NULL);
    fixture->session = wb_session_new();
    wb_ruled_out_pane_set_session(fixture->pane, fixture->session);
    gtk_window_set_default_size(GTK_WINDOW(fixture->window), 320, 600);
    gtk_window_set_child(GTK_WINDOW(fixture->window), GTK_WIDGET(fixture->pane));
    gtk_window_present(GTK_WINDOW(fixture->window));
    wb_ruled_out_pane_show(fixture->pane, result);
}

static void tear_down(Fixture *fixture, gconstpointer data)
{
    gtk_window_destroy(GTK_WINDOW(fixture->window));
    while (g_main_context_iteration(NULL, FALSE))
        ;
    g_object_unref(fixture->session);
}

static GtkWidget *child(GtkWidget *of, GType type, const char *name)
{
    GObject *found = gtk_widget_get_template_child(of, type, name);
    g_assert_nonnull(found);
    return GTK_WIDGET(found);
}

static GtkWidget *part(Fixture *fixture, const char *name)
{
    GtkWidget *pane = child(GTK_WIDGET(fixture->pane), WB_TYPE_RULED_OUT_PANE, "part");
    return child(pane, WB_TYPE_PART_PANE, name);
}

static const char *page(Fixture *fixture)
{
    GtkWidget *stack = part(fixture, "stack");
    return gtk_widget_get_visible(stack) ? gtk_stack_get_visible_child_name(GTK_STACK(stack)) : "";
}

static void wait_for(Fixture *fixture, const char *wanted)
{
    gint64 end = g_get_monotonic_time() + 60 * G_USEC_PER_SEC;
    while (!g_str_equal(page(fixture), wanted)) {
        g_assert_cmpint(g_get_monotonic_time(), <, end);
        if (!g_main_context_iteration(NULL, FALSE))
            g_usleep(1000);
    }
}

static guint count_rows(GtkWidget *box)
{
    guint n = 0;
    for (GtkWidget *row = gtk_widget_get_first_child(box); row != NULL;
         row = gtk_widget_get_next_sibling(row))
        n += GTK_IS_LIST_BOX_ROW(row);
    return n;
}

static gboolean rules_in_sight(Fixture *fixture)
{
    return gtk_widget_get_visible(
        child(GTK_WIDGET(fixture->pane), WB_TYPE_RULED_OUT_PANE, "by_rule"));
}

static void type(Fixture *fixture, const char *text)
{
    gtk_editable_set_text(GTK_EDITABLE(part(fixture, "search")), text);
}

static void test_type_and_choose(Fixture *fixture, gconstpointer data)
{
    GtkListBox *lines = GTK_LIST_BOX(part(fixture, "lines"));
    g_assert_true(rules_in_sight(fixture));
    type(fixture, "SUNDRELL 450");
    wait_for(fixture, "matches");
    g_assert_false(rules_in_sight(fixture));
    g_assert_cmpuint(count_rows(part(fixture, "matches")), ==, 1);
    g_signal_emit_by_name(part(fixture, "search"), "activate");
    g_assert_cmpstr(wb_session_get_part_asked(fixture->session), ==, "p-sundrell-450-rigid");
    wait_for(fixture, "answer");
    g_assert_nonnull(strstr(gtk_label_get_text(GTK_LABEL(part(fixture, "headline"))), "None of"));
    gboolean taken = FALSE;
    for (int i = 0; gtk_list_box_get_row_at_index(lines, i) != NULL && !taken; i++) {
        GtkListBoxRow *row = gtk_list_box_get_row_at_index(lines, i);
        g_signal_emit_by_name(lines, "row-activated", row);
        taken = *wb_session_get_kit(fixture->session) != '\0';
        g_assert_cmpint(taken, ==, gtk_list_box_row_get_activatable(row));
    }
    g_assert_true(taken);
    g_assert_nonnull(strstr(wb_session_get_kit(fixture->session), "p-sundrell-450-rigid"));
    g_signal_emit_by_name(part(fixture, "back"), "clicked");
    g_assert_true(rules_in_sight(fixture));
    g_assert_cmpstr(wb_session_get_part_asked(fixture->session), ==, "");
}

static void test_no_match(Fixture *fixture, gconstpointer data)
{
    type(fixture, "atlantis");
    wait_for(fixture, "said");
    g_assert_cmpuint(count_rows(part(fixture, "matches")), ==, 0);
    type(fixture, "");
    wait_for(fixture, "");
    g_assert_true(rules_in_sight(fixture));
}

/* From the parts page; another question drops the first, a new result asks anew. */
static void test_from_elsewhere(Fixture *fixture, gconstpointer data)
{
    wb_session_set_part_asked(fixture->session, "p-sundrell-450-rigid");
    wb_session_set_part_asked(fixture->session, "p-brambleray-100-rigid");
    wait_for(fixture, "answer");
    const char *headline = gtk_label_get_text(GTK_LABEL(part(fixture, "headline")));
    g_assert_true(g_str_has_prefix(headline, "Brambleray Hedge 100: "));
    wb_ruled_out_pane_show(fixture->pane, NULL);
    wait_for(fixture, "said");
    wb_ruled_out_pane_show(fixture->pane, result);
    wait_for(fixture, "answer");
    headline = gtk_label_get_text(GTK_LABEL(part(fixture, "headline")));
    g_assert_true(g_str_has_prefix(headline, "Brambleray Hedge 100: "));
}

/* All words of a widget and of what is in it. */
static void gather(GtkWidget *widget, GString *text)
{
    if (GTK_IS_LABEL(widget))
        g_string_append_printf(text, "%s\n", gtk_label_get_text(GTK_LABEL(widget)));
    for (GtkWidget *at = gtk_widget_get_first_child(widget); at != NULL;
         at = gtk_widget_get_next_sibling(at))
        gather(at, text);
}

static void test_dark_hours(Fixture *fixture, gconstpointer data)
{
    gint64 end = g_get_monotonic_time() + 60 * G_USEC_PER_SEC;
    GtkWidget *view = child(GTK_WIDGET(fixture->pane), WB_TYPE_RULED_OUT_PANE, "view");
    gtk_window_set_default_size(GTK_WINDOW(fixture->window), 320, 4000);
    for (gboolean told = FALSE; !told;) {
        g_autoptr(GString) text = g_string_new(NULL);
        gather(view, text);
        told = strstr(text->str, "hours a year; you accept only 60.") != NULL;
        g_assert_cmpint(g_get_monotonic_time(), <, end);
        if (!g_main_context_iteration(NULL, FALSE))
            g_usleep(1000);
    }
}

int main(int argc, char **argv)
{
    gtk_test_init(&argc, &argv, NULL);
    g_resources_register(wb_get_resource());
    make_result();
    static const struct {
        const char *name;
        void (*test)(Fixture *fixture, gconstpointer data);
    } tests[] = {
        {"/part-pane/type-and-choose", test_type_and_choose},
        {"/part-pane/no-match", test_no_match},
        {"/part-pane/from-elsewhere", test_from_elsewhere},
        {"/part-pane/dark-hours", test_dark_hours},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(tests); i++)
        g_test_add(tests[i].name, Fixture, NULL, set_up, tests[i].test, tear_down);
    int code = g_test_run();
    wb_result_unref(result);
    return code;
}
