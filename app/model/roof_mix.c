#include "roof_mix.h"
#include "brief_file.h"
#include "database.h"
#include "money.h"
#include "problem.h"
#include "roof_edit.h"
#include "worker.h"
#include <string.h>

#define MIX_NODES (20 * (uint64_t)WB_ROOF_NODES)

/* What is asked, and the answer. */
typedef struct {
    WbBriefFile *file;
    WbMixModel model[WB_MIX_MODELS];
    gsize n_models;
    uint64_t nodes;
    WbStatus status;
    WbMixBest *best;
    size_t n_best;
    int undecided;
} Task;

struct _WbRoofMix {
    GObject parent_instance;
    WbDocument *document;
    WbWorker *worker;
    GPtrArray *chosen; /* ids, sorted */
    WbBriefFile *file; /* what model[] and best are of */
    WbCatalogueView *view;
    const WbPanel *panel[WB_MIX_MODELS];
    WbMixModel model[WB_MIX_MODELS];
    gsize n_models;
    WbRoofMixState state;
    WbMixBest *best;
    size_t n_best;
    int undecided;
    uint64_t nodes;
    WbStatus status;
    gboolean awake;
};

G_DEFINE_FINAL_TYPE(WbRoofMix, wb_roof_mix, G_TYPE_OBJECT)

static guint changed_signal;

static void task_free(gpointer data)
{
    Task *task = data;
    wb_mix_best_free(task->best, task->n_best);
    wb_brief_file_unref(task->file);
    g_free(task);
}

static void run(gpointer data, WbControl *control)
{
    Task *task = data;
    task->status = wb_mix_best(&wb_brief_file_brief(task->file)->roof, task->model, task->n_models,
                               WB_MIX_MOST, task->nodes, control, &task->best, &task->n_best,
                               &task->undecided);
}

static void drop_answer(WbRoofMix *self)
{
    wb_worker_drop(self->worker);
    wb_mix_best_free(self->best, self->n_best);
    self->best = NULL;
    self->n_best = 0;
    self->undecided = 0;
}

static void on_done(gpointer owner, gpointer data)
{
    WbRoofMix *self = owner;
    Task *task = data;
    drop_answer(self);
    self->status = task->status;
    self->state = task->status == WB_OK ? WB_ROOF_MIX_DONE : WB_ROOF_MIX_FAILED;
    self->best = g_steal_pointer(&task->best);
    self->n_best = task->n_best;
    self->undecided = task->undecided;
    task->n_best = 0;
    g_signal_emit(self, changed_signal, 0);
}

static void ask(WbRoofMix *self)
{
    drop_answer(self);
    if (self->n_models < 2) {
        self->state = WB_ROOF_MIX_NONE;
        return;
    }
    self->state = WB_ROOF_MIX_RUNNING;
    if (!self->awake)
        return;
    Task *task = g_new0(Task, 1);
    task->file = wb_brief_file_ref(self->file);
    memcpy(task->model, self->model, sizeof task->model);
    task->n_models = self->n_models;
    task->nodes = self->nodes;
    wb_worker_ask(self->worker, run, task);
}

/* ---- the document ---- */

static const WbPanel *find_panel(const WbCatalogue *catalogue, const char *id)
{
    for (gsize i = 0; i < catalogue->n_panels; i++)
        if (g_str_equal(catalogue->panels[i].part.id, id))
            return &catalogue->panels[i];
    return NULL;
}

static WbMixModel model_of(const WbBrief *brief, const WbCatalogue *catalogue, const WbPanel *panel)
{
    int64_t price_minor;
    gboolean priced = wb_best_offer(brief, catalogue, panel->part.id, &price_minor) != NULL;
    return (WbMixModel){panel->length_mm, panel->width_mm, panel->power_w,
                        priced ? price_minor : -1, panel->part.weight_kg + panel->mount_kg};
}

static gboolean same_models(const WbMixModel *a, const WbMixModel *b, gsize n)
{
    for (gsize i = 0; i < n; i++)
        if (a[i].length_mm != b[i].length_mm || a[i].width_mm != b[i].width_mm ||
            a[i].power_w != b[i].power_w || a[i].price_minor != b[i].price_minor ||
            a[i].load_kg != b[i].load_kg)
            return FALSE;
    return TRUE;
}

static gboolean same_load(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

/* Reads the document; TRUE: it is the question it was. */
static gboolean read_models(WbRoofMix *self)
{
    WbBriefFile *file = wb_brief_file_ref(wb_document_get_file(self->document));
    WbCatalogueView *view = wb_catalogue_view_ref(wb_document_get_view(self->document));
    const WbBrief *brief = wb_brief_file_brief(file);
    const WbCatalogue *catalogue = wb_catalogue_view_get(view);
    WbMixModel model[WB_MIX_MODELS];
    gsize n = 0;
    for (guint i = 0; i < self->chosen->len; i++) {
        const WbPanel *panel = find_panel(catalogue, g_ptr_array_index(self->chosen, i));
        if (panel == NULL || !wb_brief_ticks(brief, panel->part.id))
            continue;
        self->panel[n] = panel;
        model[n++] = model_of(brief, catalogue, panel);
    }
    const WbRoof *old = self->file != NULL ? &wb_brief_file_brief(self->file)->roof : NULL;
    gboolean same = old != NULL && n == self->n_models && same_models(model, self->model, n) &&
                    wb_roof_same(old, &brief->roof) &&
                    same_load(old->max_load_kg, brief->roof.max_load_kg);
    memcpy(self->model, model, n * sizeof *model);
    self->n_models = n;
    g_clear_pointer(&self->file, wb_brief_file_unref);
    g_clear_pointer(&self->view, wb_catalogue_view_unref);
    self->file = file;
    self->view = view;
    return same;
}

static void on_document(WbRoofMix *self)
{
    if (!read_models(self)) {
        self->nodes = MIX_NODES;
        ask(self);
    }
    g_signal_emit(self, changed_signal, 0);
}

/* ---- public ---- */

WbRoofMix *wb_roof_mix_new(WbDocument *document)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document), NULL);
    WbRoofMix *self = g_object_new(WB_TYPE_ROOF_MIX, NULL);
    self->document = g_object_ref(document);
    g_signal_connect_object(document, "changed", G_CALLBACK(on_document), self, G_CONNECT_SWAPPED);
    read_models(self);
    return self;
}

void wb_roof_mix_set_awake(WbRoofMix *self, gboolean awake)
{
    g_return_if_fail(WB_IS_ROOF_MIX(self));
    if (self->awake == awake)
        return;
    self->awake = awake;
    if (!awake)
        wb_worker_drop(self->worker);
    else if (self->state == WB_ROOF_MIX_RUNNING)
        ask(self);
}

static int by_text(gconstpointer a, gconstpointer b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

gboolean wb_roof_mix_choose(WbRoofMix *self, const char *part_id, gboolean chosen)
{
    g_return_val_if_fail(WB_IS_ROOF_MIX(self) && part_id != NULL, FALSE);
    guint at;
    gboolean held = g_ptr_array_find_with_equal_func(self->chosen, part_id, g_str_equal, &at);
    if (held == chosen)
        return TRUE;
    if (chosen && self->chosen->len >= WB_MIX_MODELS)
        return FALSE;
    if (chosen)
        g_ptr_array_add(self->chosen, g_strdup(part_id));
    else
        g_ptr_array_remove_index(self->chosen, at);
    g_ptr_array_sort(self->chosen, by_text);
    on_document(self);
    return TRUE;
}

gboolean wb_roof_mix_is_chosen(WbRoofMix *self, const char *part_id)
{
    g_return_val_if_fail(WB_IS_ROOF_MIX(self) && part_id != NULL, FALSE);
    return g_ptr_array_find_with_equal_func(self->chosen, part_id, g_str_equal, NULL);
}

gsize wb_roof_mix_get_n_models(WbRoofMix *self)
{
    g_return_val_if_fail(WB_IS_ROOF_MIX(self), 0);
    return self->n_models;
}

const WbPanel *wb_roof_mix_get_model(WbRoofMix *self, gsize index)
{
    g_return_val_if_fail(WB_IS_ROOF_MIX(self) && index < self->n_models, NULL);
    return self->panel[index];
}

WbRoofMixState wb_roof_mix_get_state(WbRoofMix *self)
{
    g_return_val_if_fail(WB_IS_ROOF_MIX(self), WB_ROOF_MIX_NONE);
    return self->state;
}

const char *wb_roof_mix_get_message(WbRoofMix *self)
{
    g_return_val_if_fail(WB_IS_ROOF_MIX(self), NULL);
    return self->state == WB_ROOF_MIX_FAILED ? wb_status_describe(self->status) : NULL;
}

void wb_roof_mix_stop(WbRoofMix *self)
{
    g_return_if_fail(WB_IS_ROOF_MIX(self));
    if (self->state != WB_ROOF_MIX_RUNNING)
        return;
    wb_worker_drop(self->worker);
    self->state = WB_ROOF_MIX_STOPPED;
    g_signal_emit(self, changed_signal, 0);
}

void wb_roof_mix_go_on(WbRoofMix *self)
{
    g_return_if_fail(WB_IS_ROOF_MIX(self));
    if (self->state == WB_ROOF_MIX_DONE && self->nodes < UINT64_MAX / 16)
        self->nodes *= 8;
    ask(self);
    g_signal_emit(self, changed_signal, 0);
}

const WbMixBest *wb_roof_mix_get_best(WbRoofMix *self, gsize *n, int *undecided)
{
    g_return_val_if_fail(WB_IS_ROOF_MIX(self), NULL);
    *n = self->n_best;
    *undecided = self->undecided;
    return self->best;
}

/* ---- GObject ---- */

static void wb_roof_mix_dispose(GObject *object)
{
    WbRoofMix *self = WB_ROOF_MIX(object);
    g_clear_pointer(&self->worker, wb_worker_end);
    g_clear_object(&self->document);
    G_OBJECT_CLASS(wb_roof_mix_parent_class)->dispose(object);
}

static void wb_roof_mix_finalize(GObject *object)
{
    WbRoofMix *self = WB_ROOF_MIX(object);
    wb_mix_best_free(self->best, self->n_best);
    g_ptr_array_unref(self->chosen);
    g_clear_pointer(&self->file, wb_brief_file_unref);
    g_clear_pointer(&self->view, wb_catalogue_view_unref);
    G_OBJECT_CLASS(wb_roof_mix_parent_class)->finalize(object);
}

static void wb_roof_mix_class_init(WbRoofMixClass *klass)
{
    G_OBJECT_CLASS(klass)->dispose = wb_roof_mix_dispose;
    G_OBJECT_CLASS(klass)->finalize = wb_roof_mix_finalize;
    changed_signal = g_signal_new("changed", WB_TYPE_ROOF_MIX, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
}

static void wb_roof_mix_init(WbRoofMix *self)
{
    self->nodes = MIX_NODES;
    self->chosen = g_ptr_array_new_with_free_func(g_free);
    self->worker = wb_worker_new("mix", self, on_done, task_free);
}
