/* The window in this process: every template makes its widgets, every control has a name, every
 * page is drawn, and nothing outlives the window. */
#include "brief_file.h"
#include "catalogue_store.h"
#include "look.h"
#include "outline.h"
#include "resources.h"
#include "wb-resources.h"
#include "window.h"
#include <gtk/gtk.h>

static GtkApplication *application;

static void turn_until(gboolean (*done)(gpointer), gpointer data, guint seconds)
{
    gint64 end = g_get_monotonic_time() + seconds * G_USEC_PER_SEC;
    while (!done(data)) {
        g_assert_cmpint(g_get_monotonic_time(), <, end);
        if (!g_main_context_iteration(NULL, FALSE))
            g_usleep(2000);
    }
}

static gboolean never(gpointer data)
{
    return g_get_monotonic_time() > *(gint64 *)data;
}

static void settle(guint ms)
{
    gint64 end = g_get_monotonic_time() + ms * 1000;
    turn_until(never, &end, 60);
}

static gboolean has_result(gpointer job)
{
    return wb_ranking_job_get_result(job) != NULL && !wb_ranking_job_get_stale(job);
}

static GtkWidget *open_window(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbCatalogueStore) store = wb_catalogue_store_open(":memory:", &error);
    g_assert_no_error(error);
    GtkWidget *window = wb_window_new(application, store);
    gtk_window_present(GTK_WINDOW(window));
    turn_until(has_result, wb_window_get_context(WB_WINDOW(window))->job, 120);
    return window;
}

static void show(GtkWidget *window, WbStep step)
{
    wb_session_set_page(wb_window_get_context(WB_WINDOW(window))->session, wb_step_name(step));
    settle(120);
}

/* ---- names ---- */

static gboolean is_control(GtkWidget *widget)
{
    return GTK_IS_BUTTON(widget) || GTK_IS_CHECK_BUTTON(widget) || GTK_IS_ENTRY(widget) ||
           GTK_IS_SEARCH_ENTRY(widget) || GTK_IS_SCALE(widget) || GTK_IS_DROP_DOWN(widget) ||
           GTK_IS_COLUMN_VIEW(widget) ||
           gtk_accessible_get_accessible_role(GTK_ACCESSIBLE(widget)) == GTK_ACCESSIBLE_ROLE_IMG;
}

/* Drop-downs, menu buttons and the window's own buttons are named from outside or by GTK. */
static gboolean is_spoken_for(GtkWidget *widget)
{
    return gtk_widget_get_ancestor(widget, GTK_TYPE_WINDOW_CONTROLS) != NULL ||
           (GTK_IS_BUTTON(widget) &&
            (gtk_widget_get_ancestor(widget, GTK_TYPE_DROP_DOWN) != NULL ||
             gtk_widget_get_ancestor(widget, GTK_TYPE_MENU_BUTTON) != NULL)) ||
           (GTK_IS_IMAGE(widget));
}

static gboolean shows_text(GtkWidget *widget)
{
    for (GtkWidget *child = gtk_widget_get_first_child(widget); child != NULL;
         child = gtk_widget_get_next_sibling(child))
        if ((GTK_IS_LABEL(child) && gtk_label_get_text(GTK_LABEL(child))[0] != '\0') ||
            shows_text(child))
            return TRUE;
    return FALSE;
}

static gboolean is_named(GtkWidget *widget)
{
    GtkAccessible *accessible = GTK_ACCESSIBLE(widget);
    return gtk_test_accessible_has_property(accessible, GTK_ACCESSIBLE_PROPERTY_LABEL) ||
           ((GTK_IS_BUTTON(widget) || GTK_IS_CHECK_BUTTON(widget)) && shows_text(widget)) ||
           (!GTK_IS_BUTTON(widget) &&
            gtk_test_accessible_has_relation(accessible, GTK_ACCESSIBLE_RELATION_LABELLED_BY));
}

/* Counts the controls it saw, fails on one without a name. */
static guint audit(GtkWidget *widget, const char *page)
{
    guint seen = 0;
    if (!gtk_widget_get_mapped(widget))
        return 0;
    if (is_control(widget) && !is_spoken_for(widget)) {
        seen++;
        if (!is_named(widget)) {
            g_test_message("%s without a name on %s, under %s", G_OBJECT_TYPE_NAME(widget), page,
                           G_OBJECT_TYPE_NAME(gtk_widget_get_parent(widget)));
            g_test_fail();
        }
    }
    for (GtkWidget *child = gtk_widget_get_first_child(widget); child != NULL;
         child = gtk_widget_get_next_sibling(child))
        seen += audit(child, page);
    return seen;
}

static void test_names(void)
{
    GtkWidget *window = open_window();
    for (WbStep step = 0; step < WB_N_STEPS; step++) {
        show(window, step);
        guint seen = audit(window, wb_step_name(step));
        g_test_message("%s: %u controls", wb_step_name(step), seen);
        g_assert_cmpuint(seen, >, 5);
    }
    gtk_window_destroy(GTK_WINDOW(window));
    settle(50);
}

/* ---- drawing ---- */

/* NULL: nothing was drawn yet. */
static GskRenderNode *drawn(GtkWidget *window)
{
    g_autoptr(GdkPaintable) paintable = gtk_widget_paintable_new(window);
    GtkSnapshot *snapshot = gtk_snapshot_new();
    int width = gtk_widget_get_width(window), height = gtk_widget_get_height(window);
    gdk_paintable_snapshot(paintable, GDK_SNAPSHOT(snapshot), width, height);
    return gtk_snapshot_free_to_node(snapshot);
}

static guint distinct_pixels(GtkWidget *window)
{
    GskRenderNode *node = drawn(window);
    for (int i = 0; !node && i < 100; i++) { /* a slow machine gets time for its first frame */
        settle(100);
        node = drawn(window);
    }
    g_assert_nonnull(node);
    g_autoptr(GdkTexture) texture =
        gsk_renderer_render_texture(gtk_native_get_renderer(GTK_NATIVE(window)), node, NULL);
    gsk_render_node_unref(node);
    g_autofree guint32 *pixels = g_new(guint32, (gsize)gdk_texture_get_width(texture) *
                                                    (gsize)gdk_texture_get_height(texture));
    gdk_texture_download(texture, (guchar *)pixels, (gsize)gdk_texture_get_width(texture) * 4);
    g_autoptr(GHashTable) colors = g_hash_table_new(NULL, NULL);
    for (int i = 0; i < gdk_texture_get_width(texture) * gdk_texture_get_height(texture); i++)
        g_hash_table_add(colors, GUINT_TO_POINTER(pixels[i]));
    return g_hash_table_size(colors);
}

static void test_drawing(void)
{
    static const char *const schemes[] = {"light", "dark", "system"};
    GtkWidget *window = open_window();
    for (guint i = 0; i < G_N_ELEMENTS(schemes); i++) {
        g_action_group_change_action_state(G_ACTION_GROUP(application), "scheme",
                                           g_variant_new_string(schemes[i]));
        for (WbStep step = 0; step < WB_N_STEPS; step++) {
            show(window, step);
            g_assert_cmpuint(distinct_pixels(window), >, 50);
        }
    }
    gtk_window_destroy(GTK_WINDOW(window));
    settle(50);
}

/* ---- room ---- */

/* What is not yet laid out as it should be; told only when it is asked for the last time. */
typedef struct {
    const char *page;
    gboolean last;
    guint faults;
} Room;

static void note_fault(Room *room, GtkWidget *widget, const char *what)
{
    const char *text = GTK_IS_LABEL(widget) ? gtk_label_get_text(GTK_LABEL(widget)) : "";
    room->faults++;
    if (room->last) {
        g_test_message("%s “%s” on %s %s", G_OBJECT_TYPE_NAME(widget), text, room->page, what);
        g_test_fail();
    }
}

/* Texts have the height of their lines, and what stands below one another does not overlap. */
static void look_for_room(Room *room, GtkWidget *widget)
{
    float below = -1e6F;
    gboolean stacked =
        GTK_IS_BOX(widget) &&
        gtk_orientable_get_orientation(GTK_ORIENTABLE(widget)) == GTK_ORIENTATION_VERTICAL;
    if (!gtk_widget_get_mapped(widget))
        return;
    if (GTK_IS_LABEL(widget)) {
        int lines;
        pango_layout_get_pixel_size(gtk_label_get_layout(GTK_LABEL(widget)), NULL, &lines);
        if (lines > gtk_widget_get_height(widget) + 1)
            note_fault(room, widget, "is higher than its room");
    }
    for (GtkWidget *child = gtk_widget_get_first_child(widget); child != NULL;
         child = gtk_widget_get_next_sibling(child)) {
        graphene_rect_t bounds;
        look_for_room(room, child);
        if (!stacked || !gtk_widget_get_mapped(child) ||
            !gtk_widget_compute_bounds(child, widget, &bounds))
            continue;
        if (bounds.origin.y < below - 1)
            note_fault(room, child, "lies over what stands above it");
        if (bounds.origin.y + bounds.size.height > gtk_widget_get_height(widget) + 1)
            note_fault(room, child, "sticks out of its box");
        below = bounds.origin.y + bounds.size.height;
    }
}

/* A slow machine may still be laying the page out: it gets time, and only what stays wrong is. */
static void check_room(GtkWidget *window, const char *page)
{
    Room room = {.page = page};
    for (int i = 0; i < 100; i++) {
        room.faults = 0;
        look_for_room(&room, window);
        if (!room.faults)
            return;
        settle(100);
    }
    room.last = TRUE;
    look_for_room(&room, window);
}

static void test_room(void)
{
    static const int sizes[][2] = {{1280, 800}, {960, 600}};
    GtkWidget *window = open_window();
    for (guint i = 0; i < G_N_ELEMENTS(sizes); i++) {
        gtk_window_set_default_size(GTK_WINDOW(window), sizes[i][0], sizes[i][1]);
        for (WbStep step = 0; step < WB_N_STEPS; step++) {
            show(window, step);
            check_room(window, wb_step_name(step));
        }
        g_assert_cmpint(gtk_widget_get_width(window), <=, sizes[i][0]);
    }
    gtk_window_destroy(GTK_WINDOW(window));
    settle(50);
}

/* ---- nothing works ---- */

static void test_nothing_works(void)
{
    g_autoptr(GError) error = NULL;
    GtkWidget *window = open_window();
    const WbContext *context = wb_window_get_context(WB_WINDOW(window));
    show(window, WB_STEP_RANKING);
    g_assert_true(wb_document_tick_kind(context->document, WB_KIND_PANEL, FALSE, &error));
    g_assert_no_error(error);
    turn_until(has_result, context->job, 120);
    settle(120);
    g_assert_cmpuint(wb_result_get_ranking(wb_ranking_job_get_result(context->job))->raw, ==, 0);
    g_assert_cmpuint(distinct_pixels(window), >, 50);
    g_assert_true(wb_document_undo(context->document));
    turn_until(has_result, context->job, 120);
    g_assert_cmpuint(wb_result_get_ranking(wb_ranking_job_get_result(context->job))->feasible, >,
                     0);
    gtk_window_destroy(GTK_WINDOW(window));
    settle(50);
}

/* ---- ending ---- */

static void note_end(gpointer count, GObject *gone)
{
    ++*(guint *)count;
}

static void test_ends(void)
{
    guint ended = 0;
    GtkWidget *window = open_window();
    const WbContext *context = wb_window_get_context(WB_WINDOW(window));
    for (WbStep step = 0; step < WB_N_STEPS; step++)
        show(window, step);
    g_object_weak_ref(G_OBJECT(window), note_end, &ended);
    g_object_weak_ref(G_OBJECT(context->document), note_end, &ended);
    g_object_weak_ref(G_OBJECT(context->job), note_end, &ended);
    g_object_weak_ref(G_OBJECT(context->session), note_end, &ended);
    g_object_weak_ref(G_OBJECT(context->catalogue), note_end, &ended);
    gtk_window_destroy(GTK_WINDOW(window));
    settle(1500);
    g_assert_cmpuint(ended, ==, 5);
}

int main(int argc, char **argv)
{
    gtk_test_init(&argc, &argv, NULL);
    g_resources_register(wb_get_resource());
    application = gtk_application_new(WB_APPLICATION_ID, G_APPLICATION_NON_UNIQUE);
    g_application_set_resource_base_path(G_APPLICATION(application), WB_RESOURCE_PREFIX);
    g_application_register(G_APPLICATION(application), NULL, NULL);
    wb_look_start(G_APPLICATION(application));
    g_test_add_func("/pages/names", test_names);
    g_test_add_func("/pages/drawing", test_drawing);
    g_test_add_func("/pages/room", test_room);
    g_test_add_func("/pages/nothing-works", test_nothing_works);
    g_test_add_func("/pages/ends", test_ends);
    int failed = g_test_run();
    wb_look_end();
    g_object_unref(application);
    return failed;
}
