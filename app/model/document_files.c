/* A document's file: opening, saving, and saving as you go. */
#include "document_private.h"
#include "figures_text.h"
#include "store_error.h"
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

static WbFileStamp stamp_of(const char *path)
{
    GStatBuf info;
    WbFileStamp stamp = {0};
    if (!path || g_stat(path, &info) != 0)
        return stamp;
    stamp.modified_ns =
        (gint64)info.st_mtim.tv_sec * G_GINT64_CONSTANT(1000000000) + info.st_mtim.tv_nsec;
    stamp.size = info.st_size;
    stamp.known = TRUE;
    return stamp;
}

/* A file that vanished may be written again; one that another program wrote may not. */
static gboolean changed_outside(WbDocument *self)
{
    WbFileStamp now = stamp_of(self->path);
    return self->stamp.known && now.known &&
           (now.modified_ns != self->stamp.modified_ns || now.size != self->stamp.size);
}

static gboolean write_to(WbDocument *self, const char *path, GError **error)
{
    if (!wb_brief_file_write(self->file, path, error))
        return FALSE;
    g_clear_handle_id(&self->autosave_source, g_source_remove);
    g_clear_pointer(&self->saved, wb_brief_file_unref);
    self->saved = wb_brief_file_ref(self->file);
    self->stamp = stamp_of(path);
    g_clear_pointer(&self->save_error, g_free);
    return TRUE;
}

gboolean wb_document_save(WbDocument *self, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), FALSE);
    g_return_val_if_fail(self->path != NULL, FALSE);
    if (changed_outside(self)) {
        g_set_error(error, WB_STORE_ERROR, WB_STORE_ERROR_FILE,
                    _("%s was changed by another program since it was opened; save under another "
                      "name, or open it again."),
                    self->path);
        return FALSE;
    }
    if (!write_to(self, self->path, error))
        return FALSE;
    self->history.sealed = TRUE;
    wb_document_notify_state(self);
    return TRUE;
}

/* In another folder a relative path would lead to another file, or to none. TRUE: an edit keeps it
 * where it is. */
static gboolean keep_hourly_file(WbDocument *self, const char *path)
{
    const char *hourly = wb_brief_file_hours_path(self->file);
    g_autofree char *now = wb_document_get_folder(self);
    g_autofree char *folder = g_path_get_dirname(path);
    g_autofree char *then = g_canonicalize_filename(folder, NULL);
    if (!hourly || g_str_equal(now, then))
        return FALSE;
    g_autofree char *json = wb_text_json(hourly);
    WbBriefFile *before = self->file;
    self->history.sealed = TRUE;
    return wb_document_set_json(self, _("Keep the hourly file"), "/site/weather/hourly_file", json,
                                NULL) &&
           self->file != before;
}

static void take_back(WbDocument *self)
{
    wb_document_undo(self);
    g_ptr_array_set_size(self->history.steps, (int)self->history.position);
    wb_document_notify_state(self);
}

static void move(GHashTable *moved, WbBriefFile **file, const char *path)
{
    WbBriefFile *old = *file, *at = g_hash_table_lookup(moved, old);
    if (!at) {
        at = wb_brief_file_at(old, path);
        g_hash_table_insert(moved, wb_brief_file_ref(old), at);
    }
    *file = wb_brief_file_ref(at);
    wb_brief_file_unref(old);
}

/* All states become states of the file at this path: what an undo brings back must look for its
 * hourly file where the brief lies now. */
static void move_states(WbDocument *self, const char *path)
{
    g_autoptr(GHashTable) moved = g_hash_table_new_full(
        NULL, NULL, (GDestroyNotify)wb_brief_file_unref, (GDestroyNotify)wb_brief_file_unref);
    move(moved, &self->file, path);
    move(moved, &self->saved, path);
    for (guint i = 0; i < self->history.steps->len; i++) {
        WbHistoryStep *step = self->history.steps->pdata[i];
        move(moved, &step->before, path);
        move(moved, &step->after, path);
    }
    wb_document_adopt(self, self->file);
}

gboolean wb_document_save_as(WbDocument *self, const char *path, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self) && path != NULL, FALSE);
    g_autofree char *kept = g_strdup(path); /* path may be our own */
    gboolean edited = keep_hourly_file(self, kept);
    if (!write_to(self, kept, error)) {
        if (edited)
            take_back(self);
        return FALSE;
    }
    gboolean elsewhere = g_strcmp0(self->path, kept) != 0;
    g_free(self->path);
    self->path = g_strdup(kept);
    self->history.sealed = TRUE;
    if (elsewhere)
        move_states(self, kept);
    wb_document_notify_state(self);
    return TRUE;
}

static gboolean autosave(gpointer data)
{
    WbDocument *self = data;
    self->autosave_source = 0;
    g_autoptr(GError) error = NULL;
    gboolean saved = !wb_document_get_modified(self);
    if (!saved && changed_outside(self))
        wb_document_save(self, &error); /* says so */
    else if (!saved)
        write_to(self, self->path, &error);
    if (error) {
        g_free(self->save_error);
        self->save_error = g_strdup(error->message);
    }
    wb_document_notify_state(self);
    return G_SOURCE_REMOVE;
}

void wb_document_schedule_autosave(WbDocument *self)
{
    g_clear_handle_id(&self->autosave_source, g_source_remove);
    if (self->path && self->autosave_ms > 0 && wb_document_get_modified(self))
        self->autosave_source = g_timeout_add(self->autosave_ms, autosave, self);
}

void wb_document_set_autosave_ms(WbDocument *self, guint ms)
{
    g_return_if_fail(WB_IS_DOCUMENT(self));
    self->autosave_ms = ms;
    wb_document_schedule_autosave(self);
}

/* What has a path and is not on disk yet is saved before another brief takes its place. */
static gboolean leave(WbDocument *self, GError **error)
{
    if (self->path && self->autosave_ms > 0 && wb_document_get_modified(self))
        return wb_document_save(self, error);
    return TRUE;
}

gboolean wb_document_begin_new(WbDocument *self, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), FALSE);
    if (!leave(self, error))
        return FALSE;
    g_autoptr(WbBriefFile) file = wb_brief_file_new();
    self->stamp.known = FALSE;
    wb_document_replace(self, file, NULL);
    return TRUE;
}

gboolean wb_document_begin_demo(WbDocument *self, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), FALSE);
    if (!leave(self, error))
        return FALSE;
    g_autoptr(WbBriefFile) file = wb_brief_file_demo();
    self->stamp.known = FALSE;
    wb_document_replace(self, file, NULL);
    return TRUE;
}

gboolean wb_document_open(WbDocument *self, const char *path, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self) && path != NULL, FALSE);
    if (!leave(self, error))
        return FALSE;
    g_autoptr(WbBriefFile) file = wb_brief_file_read(path, error);
    if (!file)
        return FALSE;
    self->stamp = stamp_of(path);
    wb_document_replace(self, file, path);
    return TRUE;
}

char *wb_document_get_folder(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), NULL);
    g_autofree char *folder = self->path ? g_path_get_dirname(self->path) : g_strdup(".");
    return g_canonicalize_filename(folder, NULL);
}

const char *wb_document_get_path(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), NULL);
    return self->path;
}
