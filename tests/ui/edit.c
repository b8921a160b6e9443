/* The pages of place and roof in this process: what an edit shows before the new ranking is there,
 * and what a refused edit leaves. */
#include "catalogue_store.h"
#include "hours_csv.h"
#include "look.h"
#include "outline.h"
#include "resources.h"
#include "roof_edit.h"
#include "roof_plan.h"
#include "site_edit.h"
#include "wb-resources.h"
#include "window.h"
#include <glib/gstdio.h>
#include <gtk/gtk.h>
#include <string.h>

static GtkApplication *application;

static void turn(void)
{
    if (!g_main_context_iteration(NULL, FALSE))
        g_usleep(2000);
}

static void wait_for_result(WbRankingJob *job)
{
    gint64 end = g_get_monotonic_time() + 120 * G_USEC_PER_SEC;
    while (wb_ranking_job_get_result(job) == NULL || wb_ranking_job_get_stale(job)) {
        g_assert_cmpint(g_get_monotonic_time(), <, end);
        turn();
    }
}

static void settle(guint ms)
{
    gint64 end = g_get_monotonic_time() + ms * 1000;
    while (g_get_monotonic_time() < end)
        turn();
}

static GtkWidget *open_window(WbStep step)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbCatalogueStore) store = wb_catalogue_store_open(":memory:", &error);
    g_assert_no_error(error);
    GtkWidget *window = wb_window_new(application, store);
    const WbContext *context = wb_window_get_context(WB_WINDOW(window));
    gtk_window_present(GTK_WINDOW(window));
    wait_for_result(context->job);
    wb_session_set_page(context->session, wb_step_name(step));
    settle(120);
    return window;
}

static void close_window(GtkWidget *window)
{
    gtk_window_destroy(GTK_WINDOW(window));
    settle(50);
}

/* The first mapped widget of a type, NULL when there is none. */
static GtkWidget *find(GtkWidget *widget, const char *type)
{
    if (!gtk_widget_get_mapped(widget))
        return NULL;
    if (g_str_equal(G_OBJECT_TYPE_NAME(widget), type))
        return widget;
    for (GtkWidget *child = gtk_widget_get_first_child(widget); child != NULL;
         child = gtk_widget_get_next_sibling(child)) {
        GtkWidget *found = find(child, type);
        if (found != NULL)
            return found;
    }
    return NULL;
}

/* The check tells what it finds instead of what it was asked for. */
static gboolean lays_panels(GtkWidget *plan)
{
    g_autofree char *found = gtk_test_accessible_check_property(
        GTK_ACCESSIBLE(plan), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, "");
    g_assert_nonnull(found);
    g_assert_nonnull(strstr(found, "laid"));
    return strstr(found, " 0 panels laid") == NULL;
}

/* The study answers on its own thread, long before the ranking. */
static void wait_for_layout(GtkWidget *plan)
{
    gint64 end = g_get_monotonic_time() + 60 * G_USEC_PER_SEC;
    while (!lays_panels(plan)) {
        g_assert_cmpint(g_get_monotonic_time(), <, end);
        turn();
    }
}

/* While nothing of the new roof is known, nothing lies on it; a roof that is the same keeps its
 * layout even while the ranking works. */
static void test_old_layout(void)
{
    GtkWidget *window = open_window(WB_STEP_ROOF);
    const WbContext *context = wb_window_get_context(WB_WINDOW(window));
    GtkWidget *plan = find(window, "WbRoofPlan");
    g_assert_nonnull(plan);
    wait_for_layout(plan);
    g_assert_true(wb_obstacle_nudge(context->document, 0, 5, 0, NULL));
    g_assert_true(wb_ranking_job_get_stale(context->job));
    g_assert_false(lays_panels(plan));
    wait_for_layout(plan);
    g_assert_true(
        wb_document_set_text(context->document, "Rename", "/roof/obstacles/0/name", "Fan", NULL));
    g_assert_true(lays_panels(plan));
    g_assert_true(wb_document_undo(context->document));
    g_assert_true(wb_document_undo(context->document));
    g_assert_false(lays_panels(plan));
    wait_for_layout(plan);
    close_window(window);
}

static void ask(GtkWidget *plan, WbPlanAction action, int obstacle, gint64 x_mm, gint64 y_mm)
{
    const WbPlanEdit edit = {action, {WB_PLAN_OBSTACLE, obstacle}, {x_mm, y_mm, 0, 0}};
    g_signal_emit_by_name(plan, "edit", &edit);
}

/* The plan asks for edits by signals; a drag and nudges come back as the brief's figures. */
static void test_plan_signals(void)
{
    GtkWidget *window = open_window(WB_STEP_ROOF);
    WbDocument *document = wb_window_get_context(WB_WINDOW(window))->document;
    GtkWidget *plan = find(window, "WbRoofPlan");
    const WbObstacle was = wb_document_get_brief(document)->roof.obstacles[1];
    gsize n = wb_document_get_brief(document)->roof.n_obstacles;
    ask(plan, WB_PLAN_MOVE, 1, 120, 230);
    g_assert_cmpint(wb_document_get_brief(document)->roof.obstacles[1].x_mm, ==, 120);
    g_assert_cmpint(wb_document_get_brief(document)->roof.obstacles[1].y_mm, ==, 230);
    ask(plan, WB_PLAN_NUDGE, 1, 0, -10);
    g_assert_cmpint(wb_document_get_brief(document)->roof.obstacles[1].y_mm, ==, 220);
    ask(plan, WB_PLAN_MOVE, 1, 2000000, 0); /* beyond what is taken */
    g_assert_cmpint(wb_document_get_brief(document)->roof.obstacles[1].x_mm, ==, 120);
    ask(plan, WB_PLAN_REMOVE, 1, 0, 0);
    g_assert_cmpuint(wb_document_get_brief(document)->roof.n_obstacles, ==, n - 1);
    for (int i = 0; i < 3; i++)
        g_assert_true(wb_document_undo(document));
    g_assert_cmpint(wb_document_get_brief(document)->roof.obstacles[1].x_mm, ==, was.x_mm);
    g_assert_false(wb_document_can_undo(document));
    close_window(window);
}

static GtkWidget *toggle_named(GtkWidget *widget, const char *label)
{
    if (GTK_IS_TOGGLE_BUTTON(widget) && gtk_widget_get_mapped(widget) &&
        g_strcmp0(gtk_button_get_label(GTK_BUTTON(widget)), label) == 0)
        return widget;
    for (GtkWidget *child = gtk_widget_get_first_child(widget); child != NULL;
         child = gtk_widget_get_next_sibling(child)) {
        GtkWidget *found = toggle_named(child, label);
        if (found != NULL)
            return found;
    }
    return NULL;
}

/* The last month cannot be put out of use: its toggle comes back, nothing changed. */
static void test_last_month(void)
{
    GtkWidget *window = open_window(WB_STEP_PLACE);
    WbDocument *document = wb_window_get_context(WB_WINDOW(window))->document;
    GtkWidget *june = toggle_named(window, "Jun"), *january = toggle_named(window, "Jan");
    g_assert_nonnull(june);
    g_assert_true(wb_document_set_json(document, "Months", "/site/months", "[6]", NULL));
    g_assert_true(gtk_toggle_button_get_active(GTK_TOGGLE_BUTTON(june)));
    g_assert_false(gtk_toggle_button_get_active(GTK_TOGGLE_BUTTON(january)));
    gtk_toggle_button_set_active(GTK_TOGGLE_BUTTON(june), FALSE);
    g_assert_true(gtk_toggle_button_get_active(GTK_TOGGLE_BUTTON(june)));
    g_assert_cmpuint(wb_document_get_brief(document)->site.months, ==, 1U << 5);
    gtk_toggle_button_set_active(GTK_TOGGLE_BUTTON(january), TRUE);
    g_assert_cmpuint(wb_document_get_brief(document)->site.months, ==, 1U << 5 | 1U);
    close_window(window);
}

/* One system voltage stays on, whatever is toggled; a change is one step to undo. */
static void test_system_volts(void)
{
    GtkWidget *window = open_window(WB_STEP_PLACE);
    WbDocument *document = wb_window_get_context(WB_WINDOW(window))->document;
    wb_document_set_merge_ms(document, 0);
    GtkWidget *toggles = find(window, "WbSystemToggles");
    g_assert_nonnull(toggles);
    GtkWidget *v12 = toggle_named(toggles, "12 V"), *v24 = toggle_named(toggles, "24 V");
    g_assert_true(wb_document_set_json(document, "Volts", "/system_volts", "[12]", NULL));
    g_assert_true(gtk_toggle_button_get_active(GTK_TOGGLE_BUTTON(v12)));
    g_assert_false(gtk_toggle_button_get_active(GTK_TOGGLE_BUTTON(v24)));
    gtk_toggle_button_set_active(GTK_TOGGLE_BUTTON(v12), FALSE);
    g_assert_true(gtk_toggle_button_get_active(GTK_TOGGLE_BUTTON(v12)));
    g_assert_cmpuint(wb_document_get_brief(document)->system_v, ==, 1);
    gtk_toggle_button_set_active(GTK_TOGGLE_BUTTON(v24), TRUE);
    g_assert_cmpuint(wb_document_get_brief(document)->system_v, ==, 3);
    gtk_toggle_button_set_active(GTK_TOGGLE_BUTTON(v12), FALSE);
    g_assert_cmpuint(wb_document_get_brief(document)->system_v, ==, 2);
    g_assert_true(wb_document_undo(document));
    g_assert_cmpuint(wb_document_get_brief(document)->system_v, ==, 3);
    g_assert_true(gtk_toggle_button_get_active(GTK_TOGGLE_BUTTON(v12)));
    close_window(window);
}

/* The first mapped button or label whose text begins so. */
static GtkWidget *worded(GtkWidget *widget, GType type, const char *begin)
{
    if (!gtk_widget_get_mapped(widget))
        return NULL;
    const char *text = GTK_IS_LABEL(widget) ? gtk_label_get_text(GTK_LABEL(widget))
                       : GTK_IS_CHECK_BUTTON(widget)
                           ? gtk_check_button_get_label(GTK_CHECK_BUTTON(widget))
                       : GTK_IS_BUTTON(widget) ? gtk_button_get_label(GTK_BUTTON(widget))
                                               : NULL;
    if (G_TYPE_CHECK_INSTANCE_TYPE(widget, type) && text != NULL && g_str_has_prefix(text, begin))
        return widget;
    for (GtkWidget *child = gtk_widget_get_first_child(widget); child != NULL;
         child = gtk_widget_get_next_sibling(child)) {
        GtkWidget *found = worded(child, type, begin);
        if (found != NULL)
            return found;
    }
    return NULL;
}

/* A bad file is named at its row and stops the ranking, a sound one puts years and seed away, and
 * a click goes back to made weather. */
static void test_hourly_row(void)
{
    GtkWidget *window = open_window(WB_STEP_PLACE);
    const WbContext *context = wb_window_get_context(WB_WINDOW(window));
    WbDocument *document = context->document;
    g_autofree char *folder = g_dir_make_tmp("wattberth-ui-XXXXXX", NULL);
    g_autofree char *path = g_build_filename(folder, "meadow.csv", NULL);
    g_autofree char *text = hours_csv(0, 800, 1);
    GtkWidget *row = find(window, "WbHourlyRow");
    g_assert_nonnull(row);
    g_assert_nonnull(worded(row, GTK_TYPE_BUTTON, "Choose"));
    g_assert_null(worded(row, GTK_TYPE_BUTTON, "None"));
    g_assert_nonnull(worded(window, GTK_TYPE_LABEL, "Weather made from the months"));
    g_assert_true(wb_site_set_hourly_file(document, path, NULL));
    settle(120);
    g_assert_nonnull(worded(row, GTK_TYPE_LABEL, path)); /* "... cannot be opened" */
    g_assert_nonnull(worded(row, GTK_TYPE_LABEL, "meadow.csv"));
    while (wb_ranking_job_get_state(context->job) == WB_JOB_RUNNING)
        turn();
    g_assert_cmpint(wb_ranking_job_get_state(context->job), ==, WB_JOB_FAILED);
    g_assert_true(g_file_set_contents(path, text, -1, NULL));
    g_assert_true(wb_site_set_hourly_file(document, path, NULL));
    settle(120);
    g_assert_null(worded(row, GTK_TYPE_LABEL, path));
    g_assert_nonnull(worded(row, GTK_TYPE_LABEL, "1 year of hours"));
    g_assert_null(worded(window, GTK_TYPE_LABEL, "Weather made from the months"));
    g_signal_emit_by_name(worded(row, GTK_TYPE_BUTTON, "None"), "clicked");
    settle(120);
    g_assert_null(wb_site_hourly_file(document));
    g_assert_null(worded(row, GTK_TYPE_BUTTON, "None"));
    g_assert_nonnull(worded(window, GTK_TYPE_LABEL, "Weather made from the months"));
    g_assert_true(wb_document_undo(document));
    g_assert_cmpstr(wb_site_hourly_file(document), ==, path);
    close_window(window);
    g_assert_cmpint(g_remove(path) + g_rmdir(folder), ==, 0);
}

/* The tick begins shore power with first figures and takes it away; both are steps to undo. */
static void test_shore(void)
{
    GtkWidget *window = open_window(WB_STEP_PLACE);
    WbDocument *document = wb_window_get_context(WB_WINDOW(window))->document;
    GtkWidget *tick = worded(window, GTK_TYPE_CHECK_BUTTON, "Plugged in");
    g_assert_nonnull(tick);
    g_assert_true(wb_document_set_json(document, "Shore", "/shore", "null", NULL));
    g_assert_false(gtk_check_button_get_active(GTK_CHECK_BUTTON(tick)));
    g_assert_null(worded(window, GTK_TYPE_LABEL, "Shore charger"));
    gtk_check_button_set_active(GTK_CHECK_BUTTON(tick), TRUE);
    settle(60);
    g_assert_cmpfloat(wb_document_get_brief(document)->shore.nights_week, >, 0);
    g_assert_nonnull(worded(window, GTK_TYPE_LABEL, "Shore charger"));
    g_assert_true(wb_document_undo(document));
    g_assert_cmpfloat(wb_document_get_brief(document)->shore.charger_a, ==, 0);
    g_assert_false(gtk_check_button_get_active(GTK_CHECK_BUTTON(tick)));
    close_window(window);
}

int main(int argc, char **argv)
{
    gtk_test_init(&argc, &argv, NULL);
    g_resources_register(wb_get_resource());
    application =
        g_object_new(GTK_TYPE_APPLICATION, "application-id", WB_APPLICATION_ID ".Edit", "flags",
                     G_APPLICATION_NON_UNIQUE, "resource-base-path", WB_RESOURCE_PREFIX, NULL);
    g_assert_true(g_application_register(G_APPLICATION(application), NULL, NULL));
    wb_look_start(G_APPLICATION(application));
    g_test_add_func("/edit/old-layout", test_old_layout);
    g_test_add_func("/edit/plan-signals", test_plan_signals);
    g_test_add_func("/edit/last-month", test_last_month);
    g_test_add_func("/edit/system-volts", test_system_volts);
    g_test_add_func("/edit/hourly-row", test_hourly_row);
    g_test_add_func("/edit/shore", test_shore);
    int code = g_test_run();
    wb_look_end();
    g_object_unref(application);
    return code;
}
