/* The answers live here, on the main thread; the worker gets one task at a time, and what is next
 * is chosen when an answer comes: first all fits, then what is looked at, then the rest. */
#include "roof_study.h"
#include "problem.h"
#include "roof_edit.h"
#include "roof_task.h"
#include "roof_words.h"
#include "worker.h"
#include <string.h>

#define TELL_MS 60 /* answers within this are one "changed" */
#define MOST_NODES (UINT64_MAX / 8)

typedef struct {
    WbStudyPanel shown;
    gboolean fit_asked_in_vain; /* no memory: not asked again */
} Entry;

struct _WbRoofStudy {
    GObject parent_instance;
    WbDocument *document;
    WbWorker *worker;
    WbBriefFile *file; /* what the answers are of */
    WbCatalogueView *view;
    GPtrArray *entries;
    char *looked_at, *searched;
    uint64_t search_nodes; /* budget of the next round */
    gboolean awake;
    guint tell_source;
};

G_DEFINE_FINAL_TYPE(WbRoofStudy, wb_roof_study, G_TYPE_OBJECT)

static guint changed_signal;

static void entry_free(gpointer data)
{
    Entry *entry = data;
    wb_roof_fit_free(&entry->shown.fit);
    wb_roof_changes_free(entry->shown.change, entry->shown.n_changes);
    g_free(entry->shown.shade_by_panel);
    g_free(entry->shown.refused);
    g_free(entry);
}

static Entry *entry_at(WbRoofStudy *self, guint index)
{
    return g_ptr_array_index(self->entries, index);
}

static const WbRoof *roof_of(WbRoofStudy *self)
{
    return &wb_brief_file_brief(self->file)->roof;
}

/* ---- telling ---- */

static gboolean tell(gpointer data)
{
    WbRoofStudy *self = data;
    self->tell_source = 0;
    g_signal_emit(self, changed_signal, 0);
    return G_SOURCE_REMOVE;
}

static void tell_soon(WbRoofStudy *self)
{
    if (self->tell_source == 0)
        self->tell_source = g_timeout_add(TELL_MS, tell, self);
}

/* ---- what is next ---- */

static gboolean is_decided(const WbStudyPanel *panel)
{
    return panel->fit.bound == panel->fit.most ||
           wb_roof_answer(&panel->fit, panel->fit.most + 1) == WB_FIT_WITHIN_1_MM;
}

/* One change away is asked of what is decided, and of roofs without pins of this model. */
static gboolean wants_changes(const WbStudyPanel *panel)
{
    return panel->known && !panel->refused && !panel->changes_known && panel->n_pinned == 0 &&
           is_decided(panel) && panel->fit.most < WB_STUDY_MOST;
}

static gboolean wants_order(const WbStudyPanel *panel)
{
    return panel->known && !panel->refused && !panel->arranged && panel->fit.most > 0;
}

static gboolean wants_shade(const WbStudyPanel *panel)
{
    return panel->known && !panel->refused && !panel->shade_known && panel->fit.most > 0;
}

static void ask(WbRoofStudy *self, guint index, WbRoofTaskKind kind, uint64_t nodes)
{
    const WbStudyPanel *panel = &entry_at(self, index)->shown;
    WbRoofTask *task = wb_roof_task_new(kind, self->file, self->view, panel->panel,
                                        panel->fit.layout, panel->fit.most);
    task->fits = wb_fit_cache_ref(wb_document_get_fits(self->document));
    task->index = index;
    task->n_pinned = panel->n_pinned;
    task->nodes = nodes;
    wb_worker_ask(self->worker, wb_roof_task_run, task);
}

/* all: its shade too. FALSE: nothing is wanted of it. */
static gboolean ask_of(WbRoofStudy *self, guint index, gboolean all)
{
    const WbStudyPanel *panel = &entry_at(self, index)->shown;
    if (wants_order(panel))
        ask(self, index, WB_ROOF_TASK_ARRANGE, WB_ROOF_NODES);
    else if (all && wants_shade(panel))
        ask(self, index, WB_ROOF_TASK_SHADE, 0);
    else if (wants_changes(panel))
        ask(self, index, WB_ROOF_TASK_CHANGES, WB_ROOF_NODES);
    else
        return FALSE;
    return TRUE;
}

static gboolean ask_fit(WbRoofStudy *self)
{
    for (guint i = 0; i < self->entries->len; i++)
        if (!entry_at(self, i)->shown.known && !entry_at(self, i)->fit_asked_in_vain) {
            ask(self, i, WB_ROOF_TASK_FIT, WB_ROOF_NODES);
            return TRUE;
        }
    return FALSE;
}

static gboolean ask_search(WbRoofStudy *self)
{
    int index = self->searched != NULL ? wb_roof_study_find(self, self->searched) : -1;
    if (index >= 0 && entry_at(self, (guint)index)->shown.known &&
        !is_decided(&entry_at(self, (guint)index)->shown)) {
        ask(self, (guint)index, WB_ROOF_TASK_FIT, self->search_nodes);
        return TRUE;
    }
    if (index < 0 || entry_at(self, (guint)index)->shown.known)
        g_clear_pointer(&self->searched, g_free);
    return FALSE;
}

static void go_on(WbRoofStudy *self)
{
    if (!self->awake || wb_worker_is_busy(self->worker) || ask_fit(self) || ask_search(self))
        return;
    int looked_at = self->looked_at != NULL ? wb_roof_study_find(self, self->looked_at) : -1;
    if (looked_at >= 0 && ask_of(self, (guint)looked_at, TRUE))
        return;
    for (guint i = 0; i < self->entries->len; i++)
        if (ask_of(self, i, FALSE))
            return;
}

/* ---- answers ---- */

/* What rests on a layout goes with it. */
static void drop_order(WbStudyPanel *panel)
{
    wb_roof_changes_free(panel->change, panel->n_changes);
    panel->n_changes = 0;
    g_clear_pointer(&panel->shade_by_panel, g_free);
    panel->arranged = panel->changes_known = panel->shade_known = FALSE;
}

static void take_fit(WbRoofStudy *self, Entry *entry, WbRoofTask *task)
{
    WbStudyPanel *panel = &entry->shown;
    entry->fit_asked_in_vain = task->status != WB_OK;
    panel->n_pinned = task->n_pinned;
    if (task->status == WB_BAD_INPUT) {
        panel->known = TRUE;
        panel->refused = wb_roof_refused_words(roof_of(self), panel->panel);
    }
    if (task->status != WB_OK)
        return;
    panel->nodes += task->fit.nodes;
    WbRoofFit old = panel->known ? panel->fit : (WbRoofFit){.bound = WB_STUDY_MOST, .most = -1};
    if (task->fit.most > old.most) { /* the old one may be in order already: kept if no worse */
        panel->fit = task->fit;
        task->fit = panel->known ? old : (WbRoofFit){0};
        drop_order(panel);
    }
    if (panel->known) {
        panel->fit.bound = MIN(old.bound, MIN(panel->fit.bound, task->fit.bound));
        panel->fit.mm_bound = MIN(old.mm_bound, MIN(panel->fit.mm_bound, task->fit.mm_bound));
    }
    panel->known = TRUE;
}

static void take_order(WbStudyPanel *panel, WbRoofTask *task)
{
    panel->arranged = TRUE;
    if (task->status != WB_OK)
        return;
    memcpy(panel->fit.layout, task->layout, (gsize)task->n * sizeof *task->layout);
    panel->shade_known = FALSE;
}

static void take_changes(WbStudyPanel *panel, WbRoofTask *task)
{
    panel->changes_known = TRUE;
    memcpy(panel->change, task->change, sizeof panel->change);
    panel->n_changes =
        task->status == WB_OK ? wb_roof_changes_keep_useful(panel->change, task->n_changes) : 0;
    task->n_changes = 0;
}

static void take_shade(WbStudyPanel *panel, WbRoofTask *task)
{
    panel->shade_known = TRUE;
    memcpy(panel->shade, task->shade, sizeof panel->shade);
    g_free(panel->shade_by_panel);
    panel->shade_by_panel = g_steal_pointer(&task->shade_by_panel);
}

static void next_round(WbRoofStudy *self)
{
    if (self->searched != NULL && self->search_nodes < MOST_NODES)
        self->search_nodes *= 2;
}

static void on_done(gpointer owner, gpointer data)
{
    WbRoofStudy *self = owner;
    WbRoofTask *task = data;
    Entry *entry = entry_at(self, task->index);
    switch (task->kind) {
    case WB_ROOF_TASK_FIT:
        if (entry->shown.known)
            next_round(self);
        take_fit(self, entry, task);
        break;
    case WB_ROOF_TASK_ARRANGE:
        take_order(&entry->shown, task);
        break;
    case WB_ROOF_TASK_CHANGES:
        take_changes(&entry->shown, task);
        break;
    case WB_ROOF_TASK_SHADE:
        take_shade(&entry->shown, task);
        break;
    }
    go_on(self);
    tell_soon(self);
}

/* ---- the document ---- */

static gboolean same_size(const WbPanel *a, const WbPanel *b)
{
    return a->length_mm == b->length_mm && a->width_mm == b->width_mm;
}

/* The old entry of this panel, taken out of the old array; NULL: none that still holds. */
static Entry *keep(GPtrArray *old, const WbPanel *panel)
{
    for (guint i = 0; i < old->len; i++) {
        Entry *entry = g_ptr_array_index(old, i);
        if (g_str_equal(entry->shown.panel->part.id, panel->part.id))
            return same_size(entry->shown.panel, panel) ? g_ptr_array_steal_index(old, i) : NULL;
    }
    return NULL;
}

static void begin(WbRoofStudy *self)
{
    WbBriefFile *file = wb_document_get_file(self->document);
    WbCatalogueView *view = wb_document_get_view(self->document);
    const WbBrief *brief = wb_brief_file_brief(file);
    const WbCatalogue *catalogue = wb_catalogue_view_get(view);
    gboolean same = self->file != NULL && wb_roof_same(roof_of(self), &brief->roof);
    GPtrArray *entries = g_ptr_array_new_with_free_func(entry_free);
    wb_worker_drop(self->worker);
    for (gsize i = 0; i < catalogue->n_panels; i++) {
        if (!wb_brief_ticks(brief, catalogue->panels[i].part.id))
            continue;
        Entry *entry = same ? keep(self->entries, &catalogue->panels[i]) : NULL;
        if (entry == NULL)
            entry = g_new0(Entry, 1);
        entry->shown.panel = &catalogue->panels[i];
        entry->shown.shade_known = FALSE; /* the site may be another */
        g_ptr_array_add(entries, entry);
    }
    g_ptr_array_unref(self->entries); /* while the view its panels stand in is still held */
    self->entries = entries;
    wb_brief_file_ref(file);
    wb_catalogue_view_ref(view);
    g_clear_pointer(&self->file, wb_brief_file_unref);
    g_clear_pointer(&self->view, wb_catalogue_view_unref);
    self->file = file;
    self->view = view;
    if (!same)
        g_clear_pointer(&self->searched, g_free);
}

static void on_document(WbRoofStudy *self)
{
    begin(self);
    go_on(self);
    g_clear_handle_id(&self->tell_source, g_source_remove);
    g_signal_emit(self, changed_signal, 0); /* at once: nothing old stays in sight */
}

/* ---- public ---- */

WbRoofStudy *wb_roof_study_new(WbDocument *document)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document), NULL);
    WbRoofStudy *self = g_object_new(WB_TYPE_ROOF_STUDY, NULL);
    self->document = g_object_ref(document);
    g_signal_connect_object(document, "changed", G_CALLBACK(on_document), self, G_CONNECT_SWAPPED);
    begin(self);
    return self;
}

void wb_roof_study_set_awake(WbRoofStudy *self, gboolean awake)
{
    g_return_if_fail(WB_IS_ROOF_STUDY(self));
    self->awake = awake;
    if (awake)
        go_on(self);
    else if (self->searched == NULL) /* what the person asked to run goes on */
        wb_worker_drop(self->worker);
}

gboolean wb_roof_study_is_done(WbRoofStudy *self)
{
    g_return_val_if_fail(WB_IS_ROOF_STUDY(self), TRUE);
    return self->awake && !wb_worker_is_busy(self->worker);
}

gsize wb_roof_study_get_n(WbRoofStudy *self)
{
    g_return_val_if_fail(WB_IS_ROOF_STUDY(self), 0);
    return self->entries->len;
}

const WbStudyPanel *wb_roof_study_get(WbRoofStudy *self, gsize index)
{
    g_return_val_if_fail(WB_IS_ROOF_STUDY(self) && index < self->entries->len, NULL);
    return &entry_at(self, (guint)index)->shown;
}

int wb_roof_study_find(WbRoofStudy *self, const char *part_id)
{
    g_return_val_if_fail(WB_IS_ROOF_STUDY(self), -1);
    for (guint i = 0; i < self->entries->len; i++)
        if (g_strcmp0(entry_at(self, i)->shown.panel->part.id, part_id) == 0)
            return (int)i;
    return -1;
}

void wb_roof_study_look_at(WbRoofStudy *self, const char *part_id)
{
    g_return_if_fail(WB_IS_ROOF_STUDY(self));
    char *kept = g_strdup(part_id);
    g_free(self->looked_at);
    self->looked_at = kept;
    go_on(self);
}

void wb_roof_study_search_on(WbRoofStudy *self, const char *part_id)
{
    g_return_if_fail(WB_IS_ROOF_STUDY(self));
    int index = wb_roof_study_find(self, part_id);
    if (index < 0 || g_strcmp0(self->searched, part_id) == 0)
        return;
    g_free(self->searched);
    self->searched = g_strdup(part_id);
    self->search_nodes =
        MAX(4 * (uint64_t)WB_ROOF_NODES, 2 * entry_at(self, (guint)index)->shown.nodes);
    wb_worker_drop(self->worker);
    go_on(self);
    tell_soon(self);
}

void wb_roof_study_stop_search(WbRoofStudy *self)
{
    g_return_if_fail(WB_IS_ROOF_STUDY(self));
    if (self->searched == NULL)
        return;
    g_clear_pointer(&self->searched, g_free);
    wb_worker_drop(self->worker);
    go_on(self);
    tell_soon(self);
}

const char *wb_roof_study_get_searched(WbRoofStudy *self)
{
    g_return_val_if_fail(WB_IS_ROOF_STUDY(self), NULL);
    return self->searched;
}

/* ---- GObject ---- */

static void wb_roof_study_dispose(GObject *object)
{
    WbRoofStudy *self = WB_ROOF_STUDY(object);
    g_clear_handle_id(&self->tell_source, g_source_remove);
    g_clear_pointer(&self->worker, wb_worker_end);
    g_clear_object(&self->document);
    G_OBJECT_CLASS(wb_roof_study_parent_class)->dispose(object);
}

static void wb_roof_study_finalize(GObject *object)
{
    WbRoofStudy *self = WB_ROOF_STUDY(object);
    g_ptr_array_unref(self->entries);
    g_clear_pointer(&self->file, wb_brief_file_unref);
    g_clear_pointer(&self->view, wb_catalogue_view_unref);
    g_free(self->looked_at);
    g_free(self->searched);
    G_OBJECT_CLASS(wb_roof_study_parent_class)->finalize(object);
}

static void wb_roof_study_class_init(WbRoofStudyClass *klass)
{
    G_OBJECT_CLASS(klass)->dispose = wb_roof_study_dispose;
    G_OBJECT_CLASS(klass)->finalize = wb_roof_study_finalize;
    changed_signal = g_signal_new("changed", WB_TYPE_ROOF_STUDY, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
}

static void wb_roof_study_init(WbRoofStudy *self)
{
    self->entries = g_ptr_array_new_with_free_func(entry_free);
    self->worker = wb_worker_new("roof", self, on_done, wb_roof_task_free);
}
