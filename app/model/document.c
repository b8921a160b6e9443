/* State, edits and undo of the open brief. */
#include "document_private.h"
#include "figures_text.h"

G_DEFINE_FINAL_TYPE(WbDocument, wb_document, G_TYPE_OBJECT)

enum {
    PROP_TITLE = 1,
    PROP_PATH,
    PROP_MODIFIED,
    PROP_CAN_UNDO,
    PROP_CAN_REDO,
    PROP_UNDO_LABEL,
    PROP_REDO_LABEL,
    PROP_SAVE_ERROR,
    N_PROPS
};
static GParamSpec *props[N_PROPS];

enum { SIGNAL_CHANGED, SIGNAL_REPLACED, N_SIGNALS };
static guint signals[N_SIGNALS];

/* ---- state ---- */

void wb_document_notify_state(WbDocument *self)
{
    g_object_freeze_notify(G_OBJECT(self));
    for (int p = PROP_TITLE; p < N_PROPS; p++)
        g_object_notify_by_pspec(G_OBJECT(self), props[p]);
    g_object_thaw_notify(G_OBJECT(self));
}

static void tell_changed(WbDocument *self)
{
    self->revision++;
    wb_document_notify_state(self);
    g_signal_emit(self, signals[SIGNAL_CHANGED], 0);
}

void wb_document_adopt(WbDocument *self, WbBriefFile *file)
{
    WbBriefFile *old = self->file;
    self->file = wb_brief_file_ref(file);
    g_clear_pointer(&old, wb_brief_file_unref);
    wb_document_schedule_autosave(self);
    tell_changed(self);
}

void wb_document_replace(WbDocument *self, WbBriefFile *file, const char *path)
{
    g_clear_handle_id(&self->autosave_source, g_source_remove);
    wb_history_reset(&self->history);
    wb_brief_file_ref(file);
    g_clear_pointer(&self->saved, wb_brief_file_unref);
    self->saved = file;
    char *kept = g_strdup(path); /* path may be our own */
    g_free(self->path);
    self->path = kept;
    g_clear_pointer(&self->save_error, g_free);
    WbBriefFile *old = self->file;
    self->file = wb_brief_file_ref(file);
    g_clear_pointer(&old, wb_brief_file_unref);
    g_signal_emit(self, signals[SIGNAL_REPLACED], 0);
    tell_changed(self);
}

WbDocument *wb_document_new(WbCatalogueView *view)
{
    g_return_val_if_fail(view != NULL, NULL);
    WbDocument *self = g_object_new(WB_TYPE_DOCUMENT, NULL);
    self->view = wb_catalogue_view_ref(view);
    self->file = wb_brief_file_new();
    self->saved = wb_brief_file_ref(self->file);
    return self;
}

WbBriefFile *wb_document_get_file(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), NULL);
    return self->file;
}

const WbBrief *wb_document_get_brief(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), NULL);
    return wb_brief_file_brief(self->file);
}

WbCatalogueView *wb_document_get_view(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), NULL);
    return self->view;
}

WbFitCache *wb_document_get_fits(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), NULL);
    return self->fits;
}

WbSunCache *wb_document_get_suns(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), NULL);
    return self->suns;
}

const WbCatalogue *wb_document_get_catalogue(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), NULL);
    return wb_catalogue_view_get(self->view);
}

guint64 wb_document_get_revision(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), 0);
    return self->revision;
}

void wb_document_set_view(WbDocument *self, WbCatalogueView *view)
{
    g_return_if_fail(WB_IS_DOCUMENT(self) && view != NULL);
    WbCatalogueView *old = self->view;
    self->view = wb_catalogue_view_ref(view);
    g_clear_pointer(&old, wb_catalogue_view_unref);
    tell_changed(self);
}

const char *wb_document_get_title(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), NULL);
    return wb_document_get_brief(self)->name;
}

gboolean wb_document_get_modified(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), FALSE);
    return self->file != self->saved;
}

char *wb_document_get_json(WbDocument *self, const char *pointer)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), NULL);
    return wb_brief_file_get(self->file, pointer);
}

/* ---- edits ---- */

static gboolean same_text(const WbBriefFile *a, const WbBriefFile *b)
{
    g_autofree char *text_a = wb_brief_file_text(a);
    g_autofree char *text_b = wb_brief_file_text(b);
    return g_str_equal(text_a, text_b);
}

/* The hourly file was read again, the brief's text is the same: no step of the person's. */
static void renew(WbDocument *self, WbBriefFile *file)
{
    if (wb_brief_file_hours(file) == wb_brief_file_hours(self->file) &&
        g_strcmp0(wb_brief_file_hours_problem(file), wb_brief_file_hours_problem(self->file)) == 0)
        return;
    if (self->saved == self->file) {
        wb_brief_file_unref(self->saved);
        self->saved = wb_brief_file_ref(file);
    }
    wb_document_adopt(self, file);
}

/* Takes `next`. An edit that changes nothing is no step. `pointer`: see wb_history_push. */
static gboolean commit(WbDocument *self, const char *label, const char *pointer, WbBriefFile *next)
{
    g_autoptr(WbBriefFile) file = next;
    if (!file)
        return FALSE;
    if (same_text(self->file, file)) {
        renew(self, file);
        return TRUE;
    }
    wb_history_push(&self->history, label, pointer, self->file, file, g_get_monotonic_time(),
                    (gint64)self->merge_ms * 1000);
    wb_document_adopt(self, file);
    return TRUE;
}

gboolean wb_document_set_json(WbDocument *self, const char *label, const char *pointer,
                              const char *json, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), FALSE);
    return commit(self, label, pointer, wb_brief_file_set(self->file, pointer, json, error));
}

gboolean wb_document_set_number(WbDocument *self, const char *label, const char *pointer,
                                double value, GError **error)
{
    g_autofree char *json = wb_text_plain(value);
    return wb_document_set_json(self, label, pointer, json, error);
}

gboolean wb_document_set_text(WbDocument *self, const char *label, const char *pointer,
                              const char *text, GError **error)
{
    g_autofree char *json = wb_text_json(text);
    return wb_document_set_json(self, label, pointer, json, error);
}

gboolean wb_document_set_flag(WbDocument *self, const char *label, const char *pointer, gboolean on,
                              GError **error)
{
    return wb_document_set_json(self, label, pointer, on ? "true" : "false", error);
}

gboolean wb_document_insert(WbDocument *self, const char *label, const char *pointer,
                            const char *json, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), FALSE);
    return commit(self, label, NULL, wb_brief_file_insert(self->file, pointer, json, error));
}

gboolean wb_document_remove(WbDocument *self, const char *label, const char *pointer,
                            GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), FALSE);
    return commit(self, label, NULL, wb_brief_file_remove(self->file, pointer, error));
}

gboolean wb_document_move(WbDocument *self, const char *label, const char *array_pointer, int from,
                          int to, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), FALSE);
    return commit(self, label, NULL,
                  wb_brief_file_move(self->file, array_pointer, from, to, error));
}

static WbBriefFile *apply_one(const WbBriefFile *file, const WbEdit *edit, GError **error)
{
    switch (edit->kind) {
    case WB_EDIT_SET:
        return wb_brief_file_set(file, edit->pointer, edit->json, error);
    case WB_EDIT_INSERT:
        return wb_brief_file_insert(file, edit->pointer, edit->json, error);
    case WB_EDIT_REMOVE:
        return wb_brief_file_remove(file, edit->pointer, error);
    }
    g_return_val_if_reached(NULL);
}

gboolean wb_document_apply_run(WbDocument *self, const char *label, const char *run,
                               const WbEdit *edits, gsize n, GError **error)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), FALSE);
    WbBriefFile *file = wb_brief_file_ref(self->file);
    for (gsize i = 0; i < n && file; i++) {
        WbBriefFile *next = apply_one(file, &edits[i], error);
        wb_brief_file_unref(file);
        file = next;
    }
    return commit(self, label, run, file);
}

gboolean wb_document_apply(WbDocument *self, const char *label, const WbEdit *edits, gsize n,
                           GError **error)
{
    return wb_document_apply_run(self, label, NULL, edits, n, error);
}

/* ---- undo ---- */

void wb_document_seal(WbDocument *self)
{
    g_return_if_fail(WB_IS_DOCUMENT(self));
    self->history.sealed = TRUE;
}

void wb_document_set_merge_ms(WbDocument *self, guint ms)
{
    g_return_if_fail(WB_IS_DOCUMENT(self));
    self->merge_ms = ms;
}

gboolean wb_document_undo(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), FALSE);
    const WbHistoryStep *step = wb_history_undoable(&self->history);
    if (!step)
        return FALSE;
    self->history.position--;
    self->history.sealed = TRUE;
    wb_document_adopt(self, step->before);
    return TRUE;
}

gboolean wb_document_redo(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), FALSE);
    const WbHistoryStep *step = wb_history_redoable(&self->history);
    if (!step)
        return FALSE;
    self->history.position++;
    self->history.sealed = TRUE;
    wb_document_adopt(self, step->after);
    return TRUE;
}

gboolean wb_document_can_undo(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), FALSE);
    return wb_history_undoable(&self->history) != NULL;
}

gboolean wb_document_can_redo(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), FALSE);
    return wb_history_redoable(&self->history) != NULL;
}

const char *wb_document_get_undo_label(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), NULL);
    const WbHistoryStep *step = wb_history_undoable(&self->history);
    return step ? step->label : NULL;
}

const char *wb_document_get_redo_label(WbDocument *self)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(self), NULL);
    const WbHistoryStep *step = wb_history_redoable(&self->history);
    return step ? step->label : NULL;
}

/* ---- GObject ---- */

static void wb_document_get_property(GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
    WbDocument *self = WB_DOCUMENT(object);
    switch (id) {
    case PROP_TITLE:
        g_value_set_string(value, wb_document_get_title(self));
        break;
    case PROP_PATH:
        g_value_set_string(value, self->path);
        break;
    case PROP_MODIFIED:
        g_value_set_boolean(value, wb_document_get_modified(self));
        break;
    case PROP_CAN_UNDO:
        g_value_set_boolean(value, wb_document_can_undo(self));
        break;
    case PROP_CAN_REDO:
        g_value_set_boolean(value, wb_document_can_redo(self));
        break;
    case PROP_UNDO_LABEL:
        g_value_set_string(value, wb_document_get_undo_label(self));
        break;
    case PROP_REDO_LABEL:
        g_value_set_string(value, wb_document_get_redo_label(self));
        break;
    case PROP_SAVE_ERROR:
        g_value_set_string(value, self->save_error);
        break;
    default:
        G_OBJECT_WARN_INVALID_PROPERTY_ID(object, id, pspec);
    }
}

static void wb_document_dispose(GObject *object)
{
    WbDocument *self = WB_DOCUMENT(object);
    g_clear_handle_id(&self->autosave_source, g_source_remove);
    G_OBJECT_CLASS(wb_document_parent_class)->dispose(object);
}

static void wb_document_finalize(GObject *object)
{
    WbDocument *self = WB_DOCUMENT(object);
    wb_history_clear(&self->history);
    g_clear_pointer(&self->file, wb_brief_file_unref);
    g_clear_pointer(&self->saved, wb_brief_file_unref);
    g_clear_pointer(&self->view, wb_catalogue_view_unref);
    wb_fit_cache_unref(self->fits);
    wb_sun_cache_unref(self->suns);
    g_free(self->path);
    g_free(self->save_error);
    G_OBJECT_CLASS(wb_document_parent_class)->finalize(object);
}

static GParamSpec *text_property(const char *name)
{
    return g_param_spec_string(name, NULL, NULL, NULL, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
}

static GParamSpec *flag_property(const char *name)
{
    return g_param_spec_boolean(name, NULL, NULL, FALSE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
}

static void wb_document_class_init(WbDocumentClass *klass)
{
    GObjectClass *object_class = G_OBJECT_CLASS(klass);
    object_class->get_property = wb_document_get_property;
    object_class->dispose = wb_document_dispose;
    object_class->finalize = wb_document_finalize;
    props[PROP_TITLE] = text_property("title");
    props[PROP_PATH] = text_property("path");
    props[PROP_MODIFIED] = flag_property("modified");
    props[PROP_CAN_UNDO] = flag_property("can-undo");
    props[PROP_CAN_REDO] = flag_property("can-redo");
    props[PROP_UNDO_LABEL] = text_property("undo-label");
    props[PROP_REDO_LABEL] = text_property("redo-label");
    props[PROP_SAVE_ERROR] = text_property("save-error");
    g_object_class_install_properties(object_class, N_PROPS, props);
    signals[SIGNAL_CHANGED] = g_signal_new("changed", WB_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL,
                                           NULL, NULL, G_TYPE_NONE, 0);
    signals[SIGNAL_REPLACED] = g_signal_new("replaced", WB_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0,
                                            NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void wb_document_init(WbDocument *self)
{
    wb_history_init(&self->history);
    self->merge_ms = 1000;
    self->autosave_ms = 800;
    self->fits = wb_fit_cache_new(WB_FIT_CACHE_BYTES);
    self->suns = wb_sun_cache_new(WB_SUN_CACHE_BYTES);
}
