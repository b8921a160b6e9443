/* The wiring's form: what it shows of the brief, what an edit does to it, and what is refused. Runs
 * under Xvfb. */
#include "wiring_form.h"
#include "brief_entry.h"
#include "brief_file.h"
#include "brief_row.h"
#include "database.h"
#include "resources.h"
#include "wb-resources.h"
#include "wiring_edit.h"
#include "wiring_fields.h"

typedef struct {
    WbDocument *document;
    GtkWidget *window, *form;
} Fixture;

static void spin(void)
{
    while (g_main_context_iteration(NULL, FALSE))
        ;
}

static void set(Fixture *fixture, const char *pointer, const char *json)
{
    g_autoptr(GError) error = NULL;
    wb_document_seal(fixture->document);
    g_assert_true(wb_document_set_json(fixture->document, "Set", pointer, json, &error));
    g_assert_no_error(error);
    spin();
}

static void set_up(Fixture *fixture, gconstpointer data)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = wb_database_open(":memory:", FALSE, &error);
    g_assert_no_error(error);
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    g_assert_no_error(error);
    fixture->document = wb_document_new(view);
    fixture->window = gtk_window_new();
    fixture->form = wb_wiring_form_new(fixture->document);
    gtk_window_set_child(GTK_WINDOW(fixture->window), fixture->form);
    gtk_window_present(GTK_WINDOW(fixture->window));
    spin();
}

static void tear_down(Fixture *fixture, gconstpointer data)
{
    gtk_window_destroy(GTK_WINDOW(fixture->window));
    spin();
    g_object_unref(fixture->document);
}

/* The control whose accessible name this is; NULL: none on the screen. */
static GtkWidget *named(GtkWidget *widget, GType type, const char *name)
{
    if (!gtk_widget_get_mapped(widget))
        return NULL;
    if (G_TYPE_CHECK_INSTANCE_TYPE(widget, type)) {
        if (GTK_IS_CHECK_BUTTON(widget) &&
            g_strcmp0(gtk_check_button_get_label(GTK_CHECK_BUTTON(widget)), name) == 0)
            return widget;
        if (GTK_IS_BUTTON(widget) && g_strcmp0(gtk_button_get_label(GTK_BUTTON(widget)), name) == 0)
            return widget;
        g_autofree char *other = gtk_test_accessible_check_property(
            GTK_ACCESSIBLE(widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name);
        if (other == NULL)
            return widget;
    }
    for (GtkWidget *child = gtk_widget_get_first_child(widget); child != NULL;
         child = gtk_widget_get_next_sibling(child)) {
        GtkWidget *found = named(child, type, name);
        if (found != NULL)
            return found;
    }
    return NULL;
}

static GtkWidget *entry(Fixture *fixture, const char *name)
{
    return named(fixture->form, GTK_TYPE_ENTRY, name);
}

static gboolean says(GtkWidget *widget, const char *text)
{
    if (!gtk_widget_get_mapped(widget))
        return FALSE;
    if (GTK_IS_LABEL(widget) && strstr(gtk_label_get_text(GTK_LABEL(widget)), text) != NULL)
        return TRUE;
    for (GtkWidget *child = gtk_widget_get_first_child(widget); child != NULL;
         child = gtk_widget_get_next_sibling(child))
        if (says(child, text))
            return TRUE;
    return FALSE;
}

static void type_in(GtkWidget *entry, const char *text)
{
    gtk_editable_set_text(GTK_EDITABLE(entry), text);
    g_signal_emit_by_name(entry, "activate");
    spin();
}

/* Every kind of circuit has its line, with its own member behind it. */
static void test_lengths(Fixture *fixture, gconstpointer data)
{
    set(fixture, "/driving", "{\"alternator_a\": 90, \"alternator_v\": 12, \"hours_per_day\": 1}");
    set(fixture, "/shore", "{\"nights_per_week\": 2, \"charger_a\": 10}");
    for (WbCircuitKind kind = 0; kind < WB_N_CIRCUITS; kind++) {
        g_autofree char *typed = g_strdup_printf("%d.5", kind + 1);
        GtkWidget *line = entry(fixture, wb_wiring_length_field(kind)->title);
        g_assert_nonnull(line);
        g_assert_cmpstr(gtk_editable_get_text(GTK_EDITABLE(line)), ==, "");
        type_in(line, typed);
        for (WbCircuitKind other = 0; other < WB_N_CIRCUITS; other++)
            g_assert_cmpfloat(wb_document_get_brief(fixture->document)->wiring.length_m[other], ==,
                              other <= kind ? other + 1.5 : wb_circuit_usual_m(other));
        g_assert_cmpstr(wb_document_get_undo_label(fixture->document), ==, "Change a length");
    }
    g_assert_true(says(fixture->form, "Every length is given."));
    g_assert_true(wb_document_undo(fixture->document));
    spin();
    g_assert_cmpfloat(wb_document_get_brief(fixture->document)->wiring.length_m[WB_CIRCUIT_LOAD],
                      ==, 4);
    g_assert_true(says(fixture->form, "1 of 11 lengths are assumed."));
}

static void test_assumed(Fixture *fixture, gconstpointer data)
{
    GtkWidget *take = named(fixture->form, GTK_TYPE_BUTTON, "I measured: these are right");
    GtkWidget *main_line = entry(fixture, "Bank to bus bars");
    g_assert_null(entry(fixture, "Shore charger to bus bars"));
    g_assert_null(entry(fixture, "Starter battery to DC-DC charger"));
    g_assert_true(says(fixture->form, "8 of 8 lengths are assumed."));
    g_assert_true(says(fixture->form, "assumed: 0.5 m"));
    g_assert_true(gtk_widget_get_sensitive(take));
    g_assert_cmpstr(gtk_entry_get_placeholder_text(GTK_ENTRY(main_line)), ==, "0.5");
    type_in(main_line, "0.5"); /* measured, and as long */
    g_assert_true(says(fixture->form, "7 of 8 lengths are assumed."));
    g_assert_false(says(fixture->form, "assumed: 0.5 m"));
    type_in(main_line, "");
    g_assert_true(says(fixture->form, "8 of 8 lengths are assumed."));
    g_signal_emit_by_name(take, "clicked");
    spin();
    g_assert_cmpuint(wb_wiring_count_assumed(wb_document_get_file(fixture->document)), ==, 0);
    g_assert_false(gtk_widget_get_sensitive(take));
    g_assert_cmpstr(gtk_editable_get_text(GTK_EDITABLE(main_line)), ==, "0.5");
    set(fixture, "/shore", "{\"nights_per_week\": 2, \"charger_a\": 10}");
    g_assert_nonnull(entry(fixture, "Shore charger to bus bars"));
    g_assert_true(says(fixture->form, "1 of 9 lengths are assumed."));
}

static void test_refused(Fixture *fixture, gconstpointer data)
{
    static const char *const lengths[] = {"0", "-1", "100.5", "far"};
    GtkWidget *line = entry(fixture, "Joined strings to controller");
    for (gsize i = 0; i < G_N_ELEMENTS(lengths); i++) {
        guint64 revision = wb_document_get_revision(fixture->document);
        type_in(line, lengths[i]);
        g_assert_true(gtk_widget_has_css_class(line, "refused"));
        g_assert_true(says(fixture->form, i < 3 ? "from 0.05 to 100" : "is not a number"));
        g_assert_cmpuint(wb_document_get_revision(fixture->document), ==, revision);
    }
    type_in(line, "6,25");
    g_assert_false(gtk_widget_has_css_class(line, "refused"));
    g_assert_cmpfloat(wb_document_get_brief(fixture->document)->wiring.length_m[WB_CIRCUIT_ARRAY],
                      ==, 6.25);
}

static void test_choices(Fixture *fixture, gconstpointer data)
{
    const WbDocument *document = fixture->document;
    GtkWidget *rules = named(fixture->form, GTK_TYPE_DROP_DOWN, "Built into a");
    GtkWidget *sizes = named(fixture->form, GTK_TYPE_DROP_DOWN, "Sizes that are bought");
    gtk_drop_down_set_selected(GTK_DROP_DOWN(sizes), WB_SIZES_METRIC);
    spin();
    g_assert_cmpint(wb_document_get_brief((WbDocument *)document)->wiring.sizes, ==,
                    WB_SIZES_METRIC);
    /* The table of boats knows no terminals. */
    gtk_drop_down_set_selected(GTK_DROP_DOWN(rules), WB_RULES_BOAT);
    spin();
    g_assert_null(named(fixture->form, GTK_TYPE_DROP_DOWN, "Terminals are rated for"));
    gtk_drop_down_set_selected(GTK_DROP_DOWN(rules), WB_RULES_ROAD_VEHICLE);
    spin();
    GtkWidget *terminals = named(fixture->form, GTK_TYPE_DROP_DOWN, "Terminals are rated for");
    g_assert_cmpint(gtk_drop_down_get_selected(GTK_DROP_DOWN(terminals)), ==, 1);
    static const int64_t rated_c[] = {60, 75, 90};
    for (guint i = 0; i < G_N_ELEMENTS(rated_c); i++) {
        gtk_drop_down_set_selected(GTK_DROP_DOWN(terminals), i);
        spin();
        g_assert_cmpint(wb_document_get_brief((WbDocument *)document)->wiring.terminal_c, ==,
                        rated_c[i]);
    }
}

/* Air that is left open is assumed by the rules: 40 in a vehicle, 30 on a boat, 20 more on top. */
static void test_air(Fixture *fixture, gconstpointer data)
{
    GtkWidget *inside = entry(fixture, "Hottest air inside");
    GtkWidget *roof = entry(fixture, "Hottest air on the roof");
    g_assert_cmpstr(gtk_entry_get_placeholder_text(GTK_ENTRY(inside)), ==, "40");
    g_assert_cmpstr(gtk_entry_get_placeholder_text(GTK_ENTRY(roof)), ==, "60");
    set(fixture, "/rule_set", "\"boat\"");
    g_assert_cmpstr(gtk_entry_get_placeholder_text(GTK_ENTRY(inside)), ==, "30");
    g_assert_true(says(fixture->form, "an engine space is hotter"));
    type_in(inside, "48");
    g_assert_cmpfloat(wb_document_get_brief(fixture->document)->wiring.inside_c, ==, 48);
    g_assert_cmpstr(gtk_entry_get_placeholder_text(GTK_ENTRY(roof)), ==, "68");
    g_assert_true(says(fixture->form, "Empty: 30, our assumption")); /* not what was typed */
    type_in(roof, "91");
    g_assert_true(says(fixture->form, "from -40 to 90"));
    type_in(roof, "");
    type_in(inside, "");
    g_assert_true(isnan(wb_document_get_brief(fixture->document)->wiring.inside_c));
}

static void test_off(Fixture *fixture, gconstpointer data)
{
    GtkWidget *tick =
        named(fixture->form, GTK_TYPE_CHECK_BUTTON, "Size the circuits, and count them in");
    g_assert_true(gtk_check_button_get_active(GTK_CHECK_BUTTON(tick)));
    gtk_check_button_set_active(GTK_CHECK_BUTTON(tick), FALSE);
    spin();
    g_assert_false(wb_document_get_brief(fixture->document)->wiring.on);
    g_assert_null(entry(fixture, "Bank to bus bars"));
    g_assert_true(wb_document_undo(fixture->document));
    spin();
    g_assert_true(gtk_check_button_get_active(GTK_CHECK_BUTTON(tick)));
    g_assert_nonnull(entry(fixture, "Bank to bus bars"));
}

#define ADD(name, test) g_test_add("/wiring-form/" name, Fixture, NULL, set_up, test, tear_down)

int main(int argc, char **argv)
{
    gtk_test_init(&argc, &argv, NULL);
    g_resources_register(wb_get_resource());
    ADD("lengths", test_lengths);
    ADD("assumed", test_assumed);
    ADD("refused", test_refused);
    ADD("choices", test_choices);
    ADD("air", test_air);
    ADD("off", test_off);
    return g_test_run();
}
