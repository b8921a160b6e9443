/* One worker thread per job, fed through a one-place mailbox: a new question replaces one that
 * waits and stops the one that runs. The worker knows no GObject: it shares a plain, counted
 * Mailbox with the job and answers through an idle source on the job's main context. The job is
 * never joined; at its end it stops the work, and the worker leaves by itself. */
#include "ranking_job.h"
#include "brief_file.h"
#include "database.h"

/* A question: snapshot, number and stop flag. Shared by main and worker. */
typedef struct {
    gatomicrefcount references;
    guint64 number;
    WbBriefFile *file;
    WbCatalogueView *view;
    WbControl control;
} Question;

typedef struct {
    gatomicrefcount references;
    GMutex mutex;
    GCond asked;
    Question *waiting; /* guarded by mutex */
    gboolean quit;     /* guarded by mutex */
    GMainContext *context;
    WbRankingJob *job; /* touched on the main thread alone; NULL once the job is gone */
} Mailbox;

typedef struct {
    Mailbox *mailbox;
    guint64 number;
    WbResult *result;
    GError *error;
} Answer;

struct _WbRankingJob {
    GObject parent_instance;
    WbDocument *document;
    Mailbox *mailbox;
    Question *running; /* the newest question, NULL when none is open */
    char *asked;       /* what was asked last, as text */
    WbCatalogueView *asked_of;
    WbHoursFile *asked_under; /* the hourly file of that question, NULL: none */
    guint64 number;
    WbResult *result;
    WbJobState state;
    gboolean stale;
    double progress;
    char *message;
    guint progress_source;
};

G_DEFINE_FINAL_TYPE(WbRankingJob, wb_ranking_job, G_TYPE_OBJECT)

enum { PROP_STATE = 1, PROP_STALE, PROP_PROGRESS, PROP_MESSAGE, N_PROPS };
static GParamSpec *props[N_PROPS];
static guint result_signal;

#define PROGRESS_MS 100

static void question_unref(Question *question)
{
    if (!g_atomic_ref_count_dec(&question->references))
        return;
    wb_brief_file_unref(question->file);
    wb_catalogue_view_unref(question->view);
    g_free(question);
}

static void mailbox_unref(Mailbox *mailbox)
{
    if (!g_atomic_ref_count_dec(&mailbox->references))
        return;
    g_clear_pointer(&mailbox->waiting, question_unref);
    g_mutex_clear(&mailbox->mutex);
    g_cond_clear(&mailbox->asked);
    g_main_context_unref(mailbox->context);
    g_free(mailbox);
}

static void answer_free(gpointer data)
{
    Answer *answer = data;
    mailbox_unref(answer->mailbox);
    g_clear_pointer(&answer->result, wb_result_unref);
    g_clear_error(&answer->error);
    g_free(answer);
}

/* ---- worker ---- */

/* Waits for a question; NULL: time to leave. */
static Question *next_question(Mailbox *mailbox)
{
    g_mutex_lock(&mailbox->mutex);
    while (!mailbox->waiting && !mailbox->quit)
        g_cond_wait(&mailbox->asked, &mailbox->mutex);
    Question *question = mailbox->quit ? NULL : g_steal_pointer(&mailbox->waiting);
    g_mutex_unlock(&mailbox->mutex);
    return question;
}

static gboolean deliver(gpointer data);

static void answer_question(Mailbox *mailbox, Question *question)
{
    Answer *answer = g_new0(Answer, 1);
    g_atomic_ref_count_inc(&mailbox->references);
    answer->mailbox = mailbox;
    answer->number = question->number;
    answer->result =
        wb_result_make(question->file, question->view, NULL, &question->control, &answer->error);
    g_autoptr(GSource) source = g_idle_source_new();
    g_source_set_priority(source, G_PRIORITY_DEFAULT);
    g_source_set_callback(source, deliver, answer, answer_free);
    g_source_attach(source, mailbox->context);
}

static gpointer work(gpointer data)
{
    Mailbox *mailbox = data;
    Question *question;
    while ((question = next_question(mailbox))) {
        answer_question(mailbox, question);
        question_unref(question);
    }
    mailbox_unref(mailbox);
    return NULL;
}

/* ---- main thread ---- */

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
    if (!self->running)
        return G_SOURCE_CONTINUE;
    double done = (double)atomic_load(&self->running->control.done);
    double todo = (double)atomic_load(&self->running->control.todo);
    set_progress(self, todo > 0 ? MIN(done / todo, 1) : -1);
    return G_SOURCE_CONTINUE;
}

/* The answer to the newest question; NULL result without error: it was stopped from outside. */
static void take_answer(WbRankingJob *self, Answer *answer)
{
    g_clear_pointer(&self->running, question_unref);
    if (!answer->result) {
        set_state(self, answer->error ? WB_JOB_FAILED : WB_JOB_STOPPED,
                  answer->error ? answer->error->message : NULL);
        return;
    }
    g_clear_pointer(&self->result, wb_result_unref);
    self->result = g_steal_pointer(&answer->result);
    set_progress(self, 1);
    set_stale(self, FALSE);
    set_state(self, WB_JOB_IDLE, NULL);
    g_signal_emit(self, result_signal, 0);
}

static gboolean deliver(gpointer data)
{
    Answer *answer = data;
    WbRankingJob *self = answer->mailbox->job;
    if (!self || !self->running || answer->number != self->number)
        return G_SOURCE_REMOVE; /* nobody waits for it any more */
    g_object_ref(self);
    take_answer(self, answer);
    g_object_unref(self);
    return G_SOURCE_REMOVE;
}

static void drop_running(WbRankingJob *self)
{
    if (!self->running)
        return;
    wb_control_stop(&self->running->control);
    g_clear_pointer(&self->running, question_unref);
}

static void ask(WbRankingJob *self)
{
    drop_running(self);
    Question *question = g_new0(Question, 1);
    g_atomic_ref_count_init(&question->references);
    g_atomic_ref_count_inc(&question->references); /* one for the mailbox, one for us */
    question->number = ++self->number;
    question->file = wb_brief_file_ref(wb_document_get_file(self->document));
    question->view = wb_catalogue_view_ref(wb_document_get_view(self->document));
    wb_control_init(&question->control);
    self->running = question;
    g_mutex_lock(&self->mailbox->mutex);
    g_clear_pointer(&self->mailbox->waiting, question_unref);
    self->mailbox->waiting = question;
    g_cond_signal(&self->mailbox->asked);
    g_mutex_unlock(&self->mailbox->mutex);
    set_progress(self, -1);
    set_stale(self, self->result != NULL);
    set_state(self, WB_JOB_RUNNING, NULL);
    if (!self->progress_source)
        self->progress_source = g_timeout_add(PROGRESS_MS, read_progress, self);
}

/* The brief without what no ranking depends on. (transfer full) */
static char *question_text(WbDocument *document)
{
    WbBriefFile *file = wb_document_get_file(document);
    g_autoptr(WbBriefFile) no_kit = wb_brief_file_set(file, "/kit_in_hand", "\"\"", NULL);
    g_autoptr(WbBriefFile) bare = no_kit ? wb_brief_file_set(no_kit, "/notes", "\"\"", NULL) : NULL;
    return wb_brief_file_text(bare ? bare : file);
}

static void ask_if_another(WbRankingJob *self)
{
    g_autofree char *text = question_text(self->document);
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
    g_atomic_ref_count_inc(&self->mailbox->references);
    g_thread_unref(g_thread_new("ranking", work, self->mailbox));
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
    if (!self->running)
        return;
    drop_running(self);
    set_state(self, WB_JOB_STOPPED, NULL);
}

void wb_ranking_job_restart(WbRankingJob *self)
{
    g_return_if_fail(WB_IS_RANKING_JOB(self));
    ask(self);
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

static void leave_mailbox(WbRankingJob *self)
{
    Mailbox *mailbox = g_steal_pointer(&self->mailbox);
    if (!mailbox)
        return;
    mailbox->job = NULL;
    g_mutex_lock(&mailbox->mutex);
    mailbox->quit = TRUE;
    g_cond_signal(&mailbox->asked);
    g_mutex_unlock(&mailbox->mutex);
    mailbox_unref(mailbox);
}

static void wb_ranking_job_dispose(GObject *object)
{
    WbRankingJob *self = WB_RANKING_JOB(object);
    g_clear_handle_id(&self->progress_source, g_source_remove);
    drop_running(self);
    leave_mailbox(self);
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
    self->mailbox = g_new0(Mailbox, 1);
    g_atomic_ref_count_init(&self->mailbox->references);
    g_mutex_init(&self->mailbox->mutex);
    g_cond_init(&self->mailbox->asked);
    self->mailbox->context = g_main_context_ref_thread_default();
    self->mailbox->job = self;
}
