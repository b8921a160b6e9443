#include "rig.h"
#include <glib/gstdio.h>

WbCatalogueView *rig_view(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = wb_database_open(":memory:", FALSE, &error);
    g_assert_no_error(error);
    WbCatalogueView *view = wb_database_load(database, &error);
    g_assert_no_error(error);
    return view;
}

WbDocument *rig_document(void)
{
    g_autoptr(WbCatalogueView) view = rig_view();
    return wb_document_new(view);
}

char *rig_text(WbDocument *document)
{
    return wb_brief_file_text(wb_document_get_file(document));
}

static gboolean time_is_up(gpointer data)
{
    *(gboolean *)data = TRUE;
    return G_SOURCE_CONTINUE;
}

void rig_wait(const gboolean *flag)
{
    gboolean late = FALSE;
    guint timer = g_timeout_add_seconds(60, time_is_up, &late);
    while (!*flag && !late)
        g_main_context_iteration(NULL, TRUE);
    g_source_remove(timer);
    g_assert_false(late);
}

void rig_settle(guint ms)
{
    gboolean over = FALSE;
    guint timer = g_timeout_add(ms, time_is_up, &over);
    while (!over)
        g_main_context_iteration(NULL, TRUE);
    g_source_remove(timer);
}

static char *folder;

char *rig_scratch(const char *name)
{
    g_autoptr(GError) error = NULL;
    if (!folder)
        folder = g_dir_make_tmp("wattberth-model-XXXXXX", &error);
    g_assert_no_error(error);
    return g_build_filename(folder, name, NULL);
}

void rig_scratch_end(void)
{
    const char *name;
    if (!folder)
        return;
    GDir *dir = g_dir_open(folder, 0, NULL);
    while ((name = g_dir_read_name(dir))) {
        g_autofree char *path = g_build_filename(folder, name, NULL);
        g_remove(path);
    }
    g_dir_close(dir);
    g_rmdir(folder);
    g_clear_pointer(&folder, g_free);
}

/* ---- mirror ---- */

static void on_items_changed(GListModel *model, guint position, guint removed, guint added,
                             RigMirror *mirror)
{
    g_assert_cmpuint(position + removed, <=, mirror->items->len);
    if (removed > 0)
        g_ptr_array_remove_range(mirror->items, position, removed);
    for (guint i = 0; i < added; i++)
        g_ptr_array_insert(mirror->items, (int)(position + i),
                           g_list_model_get_item(model, position + i));
    mirror->changes++;
    rig_mirror_check(mirror);
}

void rig_mirror_begin(RigMirror *mirror, GListModel *model)
{
    *mirror = (RigMirror){.model = model};
    mirror->items = g_ptr_array_new_with_free_func(g_object_unref);
    for (guint i = 0; i < g_list_model_get_n_items(model); i++)
        g_ptr_array_add(mirror->items, g_list_model_get_item(model, i));
    mirror->handler =
        g_signal_connect(model, "items-changed", G_CALLBACK(on_items_changed), mirror);
}

void rig_mirror_check(RigMirror *mirror)
{
    g_assert_cmpuint(g_list_model_get_n_items(mirror->model), ==, mirror->items->len);
    for (guint i = 0; i < mirror->items->len; i++) {
        g_autoptr(GObject) item = g_list_model_get_item(mirror->model, i);
        g_assert_true(item == mirror->items->pdata[i]);
    }
    g_assert_null(g_list_model_get_item(mirror->model, mirror->items->len));
}

void rig_mirror_end(RigMirror *mirror)
{
    g_signal_handler_disconnect(mirror->model, mirror->handler);
    g_ptr_array_unref(mirror->items);
}
