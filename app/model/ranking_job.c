/* Each question is one errand of a worker: a new one stops the one that runs. */
#include "ranking_job.h"
#include "brief_file.h"
#include "database.h"
#include "worker.h"

/* A question: snapshot and, once it has run, the answer. */
typedef struct {
    WbBriefFile *file;
    WbCatalogueView *view;
    WbCaches caches;
    gsize rows;
    WbResult *last;   /* the result before, NULL: none */
    gboolean whole;   /* whether to finish the last one rather than answer soon */
    WbResult *result; /* NULL without error: stopped */
    GError *error;
} Task;

struct _WbRankingJob {
    GObject parent_instance;
    WbDocument *document;
    WbWorker *worker;
    char *asked; /* what was asked last, as text */
    WbCatalogueView *asked_of;
    WbHoursFile *asked_under; /* the hourly file of that question, NULL: none */
    WbResult *result;
    WbJobState state;
    gboolean stale;
    double progress;
    char *message;
    guint progress_source;
    gsize rows; /* of the list; 0: as usual */
};

G_DEFINE_FINAL_TYPE(WbRankingJob, wb_ranking_job, G_TYPE_OBJECT)

enum { PROP_STATE = 1, PROP_STALE, PROP_PROGRESS, PROP_MESSAGE, N_PROPS };
static GParamSpec *props[N_PROPS];
static guint result_signal;

#define PROGRESS_MS 100

static void task_free(gpointer data)
{
    Task *task = data;
    wb_brief_file_unref(task->file);
    wb_catalogue_view_unref(task->view);
    wb_fit_cache_unref(task->caches.fits);
    wb_sun_cache_unref(task->caches.suns);
    g_clear_pointer(&task->last, wb_result_unref);
    g_clear_pointer(&task->result, wb_result_unref);
    g_clear_error(&task->error);
    g_free(task);
}

static void run(gpointer data, WbControl *control)
{
    Task *task = data;
    task->result = task->whole ? wb_result_make_whole(task->last, task->rows, control, &task->error)
                               : wb_result_make_soon(task->file, task->view, task->rows, task->last,
                                                     &task->caches, control, &task->error);
}

static void set_state(WbRankingJob *self, WbJobState state, const char *message)
{
    g_object_freeze_notify(G_OBJECT(self));
    gboolean changed = self->state != state;
    self->state = state;
    if (changed)
        g_object_notify_by_pspec(G_OBJECT(self), props[PROP_STATE]);
    if (g_strcmp0(self->message, message) != 0) {
        g_free(self->message);
        self->message = g_strdup(message);
        g_object_notify_by_pspec(G_OBJECT(self), props[PROP_MESSAGE]);
    }
    if (state != WB_JOB_RUNNING)
        g_clear_handle_id(&self->progress_source, g_source_remove);
    g_object_thaw_notify(G_OBJECT(self));
}

static void set_stale(WbRankingJob *self, gboolean stale)
{
    if (self->stale == stale)
        return;
    self->stale = stale;
    g_object_notify_by_pspec(G_OBJECT(self), props[PROP_STALE]);
}

static void set_progress(WbRankingJob *self, double progress)
{
    if (self->progress == progress)
        return;
    self->progress = progress;
    g_object_notify_by_pspec(G_OBJECT(self), props[PROP_PROGRESS]);
}

static gboolean read_progress(gpointer data)
{
    WbRankingJob *self = data;
    if (wb_worker_is_busy(self->worker))
        set_progress(self, wb_worker_progress(self->worker));
    return G_SOURCE_CONTINUE;
}

/* Begins an errand over the document as it is. */
static void begin(WbRankingJob *self, gboolean whole)
{
    Task *task = g_new0(Task, 1);
    task->file = wb_brief_file_ref(wb_document_get_file(self->document));
    task->view = wb_catalogue_view_ref(wb_document_get_view(self->document));
    task->caches.fits = wb_fit_cache_ref(wb_document_get_fits(self->document));
    task->caches.suns = wb_sun_cache_ref(wb_document_get_suns(self->document));
    task->rows = self->rows;
    task->last = self->result ? wb_result_ref(self->result) : NULL;
    task->whole = whole;
    wb_worker_ask(self->worker, run, task);
    set_progress(self, -1);
    set_state(self, WB_JOB_RUNNING, NULL);
    if (!self->progress_source)
        self->progress_source = g_timeout_add(PROGRESS_MS, read_progress, self);
}

static void take_answer(WbRankingJob *self, Task *task)
{
    if (!task->result) {
        set_state(self, task->error ? WB_JOB_FAILED : WB_JOB_STOPPED,
                  task->error ? task->error->message : NULL);
        return;
    }
    g_clear_pointer(&self->result, wb_result_unref);
    self->result = g_steal_pointer(&task->result);
    set_stale(self, FALSE);
    if (wb_result_is_whole(self->result) && task->rows == self->rows) {
        set_progress(self, 1);
        set_state(self, WB_JOB_IDLE, NULL);
    } else
        begin(self, TRUE);
    g_signal_emit(self, result_signal, 0);
}

static void on_done(gpointer owner, gpointer data)
{
    g_autoptr(WbRankingJob) self = g_object_ref(owner); /* who listens may let go of it */
    take_answer(self, data);
}

static void ask(WbRankingJob *self)
{
    begin(self, FALSE);
    set_stale(self, self->result != NULL);
}

static void ask_if_another(WbRankingJob *self)
{
    static const char *const no_matter[] = {"kit_in_hand", "notes", NULL};
    g_autofree char *text =
        wb_brief_file_text_without(wb_document_get_file(self->document), no_matter);
    WbCatalogueView *view = wb_document_get_view(self->document);
    const WbHoursFile *hours = wb_brief_file_hours(wb_document_get_file(self->document));
    if (self->asked && self->asked_of == view && self->asked_under == hours &&
        g_str_equal(text, self->asked))
        return;
    g_free(self->asked);
    self->asked = g_steal_pointer(&text);
    wb_catalogue_view_ref(view);
    g_clear_pointer(&self->asked_of, wb_catalogue_view_unref);
    self->asked_of = view;
    g_clear_pointer(&self->asked_under, wb_hours_file_unref);
    self->asked_under = hours ? wb_hours_file_ref((WbHoursFile *)hours) : NULL;
    ask(self);
}

WbRankingJob *wb_ranking_job_new(WbDocument *document)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document), NULL);
    WbRankingJob *self = g_object_new(WB_TYPE_RANKING_JOB, NULL);
    self->document = g_object_ref(document);
    g_signal_connect_object(document, "changed", G_CALLBACK(ask_if_another), self,
                            G_CONNECT_SWAPPED);
    ask_if_another(self);
    return self;
}

WbResult *wb_ranking_job_get_result(WbRankingJob *self)
{
    g_return_val_if_fail(WB_IS_RANKING_JOB(self), NULL);
    return self->result;
}

WbJobState wb_ranking_job_get_state(WbRankingJob *self)
{
    g_return_val_if_fail(WB_IS_RANKING_JOB(self), WB_JOB_IDLE);
    return self->state;
}

gboolean wb_ranking_job_get_stale(WbRankingJob *self)
{
    g_return_val_if_fail(WB_IS_RANKING_JOB(self), FALSE);
    return self->stale;
}

double wb_ranking_job_get_progress(WbRankingJob *self)
{
    g_return_val_if_fail(WB_IS_RANKING_JOB(self), -1);
    return self->progress;
}

const char *wb_ranking_job_get_message(WbRankingJob *self)
{
    g_return_val_if_fail(WB_IS_RANKING_JOB(self), NULL);
    return self->message;
}

void wb_ranking_job_stop(WbRankingJob *self)
{
    g_return_if_fail(WB_IS_RANKING_JOB(self));
    if (!wb_worker_is_busy(self->worker))
        return;
    wb_worker_drop(self->worker);
    set_state(self, WB_JOB_STOPPED, NULL);
}

void wb_ranking_job_restart(WbRankingJob *self)
{
    g_return_if_fail(WB_IS_RANKING_JOB(self));
    ask(self);
}

void wb_ranking_job_set_rows(WbRankingJob *self, gsize rows)
{
    g_return_if_fail(WB_IS_RANKING_JOB(self));
    if (self->rows == rows)
        return;
    self->rows = rows;
    if (!wb_worker_is_busy(self->worker) && self->result)
        begin(self, TRUE);
}

/* ---- GObject ---- */

static void wb_ranking_job_get_property(GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
    WbRankingJob *self = WB_RANKING_JOB(object);
    switch (id) {
    case PROP_STATE:
        g_value_set_int(value, self->state);
        break;
    case PROP_STALE:
        g_value_set_boolean(value, self->stale);
        break;
    case PROP_PROGRESS:
        g_value_set_double(value, self->progress);
        break;
    case PROP_MESSAGE:
        g_value_set_string(value, self->message);
        break;
    default:
        G_OBJECT_WARN_INVALID_PROPERTY_ID(object, id, pspec);
    }
}

static void wb_ranking_job_dispose(GObject *object)
{
    WbRankingJob *self = WB_RANKING_JOB(object);
    g_clear_handle_id(&self->progress_source, g_source_remove);
    g_clear_pointer(&self->worker, wb_worker_end);
    g_clear_object(&self->document);
    G_OBJECT_CLASS(wb_ranking_job_parent_class)->dispose(object);
}

static void wb_ranking_job_finalize(GObject *object)
{
    WbRankingJob *self = WB_RANKING_JOB(object);
    g_clear_pointer(&self->result, wb_result_unref);
    g_clear_pointer(&self->asked_of, wb_catalogue_view_unref);
    g_clear_pointer(&self->asked_under, wb_hours_file_unref);
    g_free(self->asked);
    g_free(self->message);
    G_OBJECT_CLASS(wb_ranking_job_parent_class)->finalize(object);
}

static void wb_ranking_job_class_init(WbRankingJobClass *klass)
{
    const GParamFlags flags = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS;
    GObjectClass *object_class = G_OBJECT_CLASS(klass);
    object_class->get_property = wb_ranking_job_get_property;
    object_class->dispose = wb_ranking_job_dispose;
    object_class->finalize = wb_ranking_job_finalize;
    props[PROP_STATE] =
        g_param_spec_int("state", NULL, NULL, WB_JOB_IDLE, WB_JOB_FAILED, WB_JOB_IDLE, flags);
    props[PROP_STALE] = g_param_spec_boolean("stale", NULL, NULL, FALSE, flags);
    props[PROP_PROGRESS] = g_param_spec_double("progress", NULL, NULL, -1, 1, -1, flags);
    props[PROP_MESSAGE] = g_param_spec_string("message", NULL, NULL, NULL, flags);
    g_object_class_install_properties(object_class, N_PROPS, props);
    result_signal = g_signal_new("result", WB_TYPE_RANKING_JOB, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
}

static void wb_ranking_job_init(WbRankingJob *self)
{
    self->progress = -1;
    self->worker = wb_worker_new("ranking", self, on_done, task_free);
}
