/* The window without a person: its actions, its side, its files, and that nothing of it outlives
 * it. Runs under Xvfb. */
#include "application.h"
#include "resources.h"
#include "wb-resources.h"
#include "window.h"
#include <glib/gstdio.h>

typedef struct {
    GtkApplication *application;
    WbCatalogueStore *catalogue;
    WbWindow *window;
} Fixture;

static void set_up(Fixture *fixture, gconstpointer data)
{
    g_autoptr(GError) error = NULL;
    fixture->application = gtk_application_new(NULL, G_APPLICATION_NON_UNIQUE);
    g_assert_true(g_application_register(G_APPLICATION(fixture->application), NULL, NULL));
    fixture->catalogue = wb_catalogue_store_open(":memory:", &error);
    g_assert_no_error(error);
    fixture->window = WB_WINDOW(wb_window_new(fixture->application, fixture->catalogue));
    gtk_window_present(GTK_WINDOW(fixture->window));
}

static void drain(void)
{
    while (g_main_context_iteration(NULL, FALSE))
        ;
}

static void tear_down(Fixture *fixture, gconstpointer data)
{
    if (fixture->window)
        gtk_window_destroy(GTK_WINDOW(fixture->window));
    drain();
    g_object_unref(fixture->application);
    g_object_unref(fixture->catalogue);
}

static gboolean late(gpointer data)
{
    *(gboolean *)data = TRUE;
    return G_SOURCE_CONTINUE;
}

/* The first answer is there; fails after a minute. */
static void wait_for_ranking(WbWindow *window)
{
    WbRankingJob *job = wb_window_get_context(window)->job;
    gboolean over = FALSE;
    guint timer = g_timeout_add_seconds(60, late, &over);
    while (wb_ranking_job_get_state(job) == WB_JOB_RUNNING && !over)
        g_main_context_iteration(NULL, TRUE);
    g_source_remove(timer);
    g_assert_false(over);
}

static void act(WbWindow *window, const char *action)
{
    g_test_message("%s", action);
    g_assert_true(gtk_widget_activate_action(GTK_WIDGET(window), action, NULL));
}

/* Every page can be turned to, each way it can be asked for. */
static void test_pages(Fixture *fixture, gconstpointer data)
{
    WbSession *session = wb_window_get_context(fixture->window)->session;
    wait_for_ranking(fixture->window);
    for (int step = 0; step < 8; step++) {
        act(fixture->window, "win.next-page");
        drain();
    }
    g_assert_cmpstr(wb_session_get_page(session), ==, "loads");
    act(fixture->window, "win.previous-page");
    g_assert_cmpstr(wb_session_get_page(session), ==, "shopping");
    g_action_group_change_action_state(G_ACTION_GROUP(fixture->window), "page",
                                       g_variant_new_string("roof"));
    g_assert_cmpstr(wb_session_get_page(session), ==, "roof");
    g_action_group_change_action_state(G_ACTION_GROUP(fixture->window), "page",
                                       g_variant_new_string("no such page"));
    g_assert_cmpstr(wb_session_get_page(session), ==, "roof");
}

static void test_undo_enabled(Fixture *fixture, gconstpointer data)
{
    WbDocument *document = wb_window_get_context(fixture->window)->document;
    GActionGroup *group = G_ACTION_GROUP(fixture->window);
    g_assert_false(g_action_group_get_action_enabled(group, "undo"));
    wb_document_set_text(document, "Rename", "/name", "Harbour hut", NULL);
    g_assert_true(g_action_group_get_action_enabled(group, "undo"));
    g_assert_nonnull(strstr(gtk_window_get_title(GTK_WINDOW(fixture->window)), "Harbour hut *"));
    act(fixture->window, "win.undo");
    g_assert_false(g_action_group_get_action_enabled(group, "undo"));
    g_assert_true(g_action_group_get_action_enabled(group, "redo"));
    g_assert_null(strstr(gtk_window_get_title(GTK_WINDOW(fixture->window)), "*"));
}

/* An unsaved brief is not left behind without a word. */
static void test_leaving(Fixture *fixture, gconstpointer data)
{
    WbDocument *document = wb_window_get_context(fixture->window)->document;
    wb_document_set_text(document, "Rename", "/name", "Harbour hut", NULL);
    act(fixture->window, "win.new");
    g_assert_cmpstr(wb_document_get_title(document), ==, "Harbour hut");
    g_assert_nonnull(strstr(wb_window_get_message(fixture->window), "Harbour hut"));
    act(fixture->window, "win.close-message");
    g_assert_null(wb_window_get_message(fixture->window));
    act(fixture->window, "win.go-on"); /* nothing waits any more */
    g_assert_cmpstr(wb_document_get_title(document), ==, "Harbour hut");
    gtk_window_close(GTK_WINDOW(fixture->window));
    drain();
    g_assert_nonnull(wb_window_get_message(fixture->window)); /* it stays open */
    act(fixture->window, "win.new");
    act(fixture->window, "win.go-on");
    g_assert_cmpstr(wb_document_get_title(document), ==, "New brief");
}

static void open_path(WbWindow *window, const char *action, const char *path)
{
    g_assert_true(gtk_widget_activate_action(GTK_WIDGET(window), action, "s", path));
}

/* Saved where it was told, and then on with what waited; a bad file changes nothing. */
static void test_files(Fixture *fixture, gconstpointer data)
{
    WbDocument *document = wb_window_get_context(fixture->window)->document;
    g_autofree char *folder = g_dir_make_tmp("wattberth-ui-XXXXXX", NULL);
    g_autofree char *path = g_build_filename(folder, "hut.json", NULL);
    wb_document_set_text(document, "Rename", "/name", "Harbour hut", NULL);
    act(fixture->window, "win.demo");
    open_path(fixture->window, "win.save-as-path", path);
    g_assert_null(wb_window_get_message(fixture->window));
    g_assert_cmpstr(wb_document_get_title(document), !=, "Harbour hut");
    open_path(fixture->window, "win.open-path", path);
    g_assert_cmpstr(wb_document_get_title(document), ==, "Harbour hut");
    g_file_set_contents(path, "{\"format\": ", -1, NULL);
    open_path(fixture->window, "win.open-path", path);
    g_assert_nonnull(strstr(wb_window_get_message(fixture->window), "hut.json"));
    g_assert_cmpstr(wb_document_get_title(document), ==, "Harbour hut");
    open_path(fixture->window, "win.open-path", "/nowhere/at-all.json");
    g_assert_nonnull(strstr(wb_window_get_message(fixture->window), "at-all.json"));
    g_remove(path);
    g_rmdir(folder);
}

static void test_kits(Fixture *fixture, gconstpointer data)
{
    const WbContext *context = wb_window_get_context(fixture->window);
    char id[WB_KIT_ID];
    gsize n;
    wait_for_ranking(fixture->window);
    g_assert_true(wb_result_kit_id(wb_ranking_job_get_result(context->job), "", id));
    act(fixture->window, "win.pin-kit");
    g_assert_true(wb_session_is_pinned(context->session, id));
    act(fixture->window, "win.pin-kit");
    wb_session_get_pins(context->session, &n);
    g_assert_cmpuint(n, ==, 0);
    act(fixture->window, "win.keep-kit");
    g_assert_cmpstr(wb_document_get_brief(context->document)->picked_kit, ==, id);
    g_assert_cmpint(wb_ranking_job_get_state(context->job), ==, WB_JOB_IDLE);
    act(fixture->window, "win.take-best");
    g_assert_cmpstr(wb_session_get_kit(context->session), ==, "");
}

static void test_stop(Fixture *fixture, gconstpointer data)
{
    const WbContext *context = wb_window_get_context(fixture->window);
    act(fixture->window, "win.stop-ranking");
    g_assert_cmpint(wb_ranking_job_get_state(context->job), ==, WB_JOB_STOPPED);
    drain();
    act(fixture->window, "win.restart-ranking");
    wait_for_ranking(fixture->window);
    g_assert_nonnull(wb_ranking_job_get_result(context->job));
}

static void test_finalization(Fixture *fixture, gconstpointer data)
{
    const WbContext *context = wb_window_get_context(fixture->window);
    gpointer window = fixture->window, document = context->document, session = context->session;
    gpointer job = context->job;
    wait_for_ranking(fixture->window);
    for (int step = 0; step < 8; step++) { /* every page has been on screen */
        act(fixture->window, "win.next-page");
        gtk_test_widget_wait_for_draw(GTK_WIDGET(fixture->window));
    }
    g_object_add_weak_pointer(window, &window);
    g_object_add_weak_pointer(document, &document);
    g_object_add_weak_pointer(session, &session);
    g_object_add_weak_pointer(job, &job);
    gtk_window_destroy(GTK_WINDOW(g_steal_pointer(&fixture->window)));
    drain();
    g_assert_null(window);
    g_assert_null(job);
    g_assert_null(session);
    g_assert_null(document);
}

/* Shortcuts run before the focused widget sees the key: a plain letter or Delete would take it away
 * from a text. */
static void check_accel(const char *action, const char *accel, GHashTable *seen)
{
    guint key;
    GdkModifierType modifiers;
    g_test_message("%s %s", action, accel);
    g_assert_true(gtk_accelerator_parse(accel, &key, &modifiers));
    gboolean function_key = key >= GDK_KEY_F1 && key <= GDK_KEY_F12;
    g_assert_true(function_key || modifiers & (GDK_CONTROL_MASK | GDK_ALT_MASK));
    g_assert_true(g_hash_table_add(seen, gtk_accelerator_name(key, modifiers)));
}

static void test_accels(void)
{
    g_autoptr(GApplication) application = wb_application_new(G_APPLICATION_NON_UNIQUE);
    g_autoptr(GHashTable) seen = g_hash_table_new_full(g_str_hash, g_str_equal, g_free, NULL);
    g_assert_true(g_application_register(application, NULL, NULL));
    g_auto(GStrv) actions = gtk_application_list_action_descriptions(GTK_APPLICATION(application));
    for (gsize i = 0; actions[i]; i++) {
        g_auto(GStrv) accels =
            gtk_application_get_accels_for_action(GTK_APPLICATION(application), actions[i]);
        for (gsize j = 0; accels[j]; j++)
            check_accel(actions[i], accels[j], seen);
    }
    g_assert_cmpuint(g_hash_table_size(seen), >, 20);
}

#define ADD(path, test) g_test_add(path, Fixture, NULL, set_up, test, tear_down)

static void remove_data(const char *data)
{
    static const char *const names[] = {"wattberth/catalogue.db", "wattberth/catalogue.db-wal",
                                        "wattberth/catalogue.db-shm", "wattberth", ""};
    for (gsize i = 0; i < G_N_ELEMENTS(names); i++) {
        g_autofree char *path = g_build_filename(data, names[i], NULL);
        g_remove(path);
    }
}

int main(int argc, char **argv)
{
    g_autofree char *data = g_dir_make_tmp("wattberth-data-XXXXXX", NULL);
    g_setenv("XDG_DATA_HOME", data, TRUE); /* never the person's own catalogue */
    gtk_test_init(&argc, &argv, NULL);
    g_resources_register(wb_get_resource());
    ADD("/frame/pages", test_pages);
    ADD("/frame/undo-enabled", test_undo_enabled);
    ADD("/frame/leaving", test_leaving);
    ADD("/frame/files", test_files);
    ADD("/frame/kits", test_kits);
    ADD("/frame/stop", test_stop);
    ADD("/frame/finalization", test_finalization);
    g_test_add_func("/frame/accels", test_accels);
    int code = g_test_run();
    remove_data(data);
    return code;
}
