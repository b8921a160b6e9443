#include "more_study.h"
#include "worker.h"

typedef struct {
    WbResult *result; /* NULL: not there */
    WbMoreCurve curve;
} Answer;

/* A question and, once it has run, what came of it. */
typedef struct {
    guint resource, gain;
    WbStatus status;
    Answer answer;
} Task;

struct _WbMoreStudy {
    GObject parent_instance;
    WbWorker *worker;
    WbResult *result;
    Answer answer[WB_CURVE_RESOURCES][WB_CURVE_GAINS];
    guint resource, gain; /* asked for */
    gboolean awake, stopped, failed;
};

G_DEFINE_FINAL_TYPE(WbMoreStudy, wb_more_study, G_TYPE_OBJECT)

static guint changed_signal;

static void clear_answer(Answer *answer)
{
    wb_more_curve_free(&answer->curve);
    g_clear_pointer(&answer->result, wb_result_unref);
}

static void task_free(gpointer data)
{
    Task *task = data;
    clear_answer(&task->answer);
    g_free(task);
}

static void run(gpointer data, WbControl *control)
{
    Task *task = data;
    const WbRanking *ranking = wb_result_get_ranking(task->answer.result);
    task->status = wb_more_curve(wb_result_get_problem(task->answer.result), ranking->pool,
                                 ranking->proved, wb_curve_resource[task->resource],
                                 wb_curve_gain[task->gain], control, &task->answer.curve);
}

static Answer *asked(WbMoreStudy *self)
{
    return &self->answer[self->resource][self->gain];
}

static gboolean has_pool(WbMoreStudy *self)
{
    const WbPool *pool = wb_result_get_ranking(self->result)->pool;
    return pool != NULL && pool->whole;
}

/* What a ranking made in a hurry leaves out is asked of the whole one that comes behind it. */
static gboolean has_all(WbMoreStudy *self)
{
    if (wb_curve_gain[self->gain] == WB_CRITERION_DARK)
        return wb_result_is_whole(self->result);
    return wb_result_get_ranking(self->result)->pool->beyond;
}

static gboolean is_wanted(WbMoreStudy *self)
{
    return self->awake && !self->stopped && !self->failed && self->result != NULL &&
           asked(self)->result != self->result && has_pool(self) && has_all(self);
}

static void begin(WbMoreStudy *self)
{
    wb_worker_drop(self->worker);
    if (!is_wanted(self))
        return;
    Task *task = g_new0(Task, 1);
    task->resource = self->resource;
    task->gain = self->gain;
    task->answer.result = wb_result_ref(self->result);
    wb_worker_ask(self->worker, run, task);
}

static void on_done(gpointer owner, gpointer data)
{
    WbMoreStudy *self = owner;
    Task *task = data;
    if (task->status == WB_OK) {
        Answer *answer = &self->answer[task->resource][task->gain];
        clear_answer(answer);
        *answer = task->answer;
        task->answer = (Answer){0};
    } else {
        self->failed = TRUE;
    }
    g_signal_emit(self, changed_signal, 0);
}

/* ---- public ---- */

WbMoreStudy *wb_more_study_new(void)
{
    return g_object_new(WB_TYPE_MORE_STUDY, NULL);
}

/* Begins anew what is wanted, and tells. */
static void begin_and_tell(WbMoreStudy *self)
{
    self->stopped = self->failed = FALSE;
    begin(self);
    g_signal_emit(self, changed_signal, 0);
}

void wb_more_study_set_awake(WbMoreStudy *self, gboolean awake)
{
    g_return_if_fail(WB_IS_MORE_STUDY(self));
    if (self->awake == awake)
        return;
    self->awake = awake;
    begin_and_tell(self);
}

void wb_more_study_set_result(WbMoreStudy *self, WbResult *result)
{
    g_return_if_fail(WB_IS_MORE_STUDY(self));
    if (self->result == result)
        return;
    WbResult *kept = result != NULL ? wb_result_ref(result) : NULL;
    g_clear_pointer(&self->result, wb_result_unref);
    self->result = kept;
    for (guint r = 0; r < WB_CURVE_RESOURCES; r++)
        for (guint g = 0; g < WB_CURVE_GAINS; g++) /* old curves out of sight are of no use */
            if (result == NULL || r != self->resource || g != self->gain)
                clear_answer(&self->answer[r][g]);
    begin_and_tell(self);
}

void wb_more_study_ask(WbMoreStudy *self, guint resource, guint gain)
{
    g_return_if_fail(WB_IS_MORE_STUDY(self) && resource < WB_CURVE_RESOURCES &&
                     gain < WB_CURVE_GAINS);
    if (self->resource == resource && self->gain == gain)
        return;
    self->resource = resource;
    self->gain = gain;
    begin_and_tell(self);
}

void wb_more_study_stop(WbMoreStudy *self)
{
    g_return_if_fail(WB_IS_MORE_STUDY(self));
    if (wb_more_study_get_state(self) != WB_MORE_RUNNING)
        return;
    self->stopped = TRUE;
    wb_worker_drop(self->worker);
    g_signal_emit(self, changed_signal, 0);
}

void wb_more_study_go_on(WbMoreStudy *self)
{
    g_return_if_fail(WB_IS_MORE_STUDY(self));
    begin_and_tell(self);
}

WbMoreState wb_more_study_get_state(WbMoreStudy *self)
{
    g_return_val_if_fail(WB_IS_MORE_STUDY(self), WB_MORE_NOTHING);
    if (self->result == NULL)
        return WB_MORE_NOTHING;
    if (!has_pool(self))
        return WB_MORE_TOO_MANY;
    if (asked(self)->result == self->result)
        return WB_MORE_THERE;
    if (self->failed)
        return WB_MORE_FAILED;
    if (self->stopped)
        return WB_MORE_STOPPED;
    return self->awake ? WB_MORE_RUNNING : WB_MORE_NOTHING;
}

double wb_more_study_get_progress(WbMoreStudy *self)
{
    g_return_val_if_fail(WB_IS_MORE_STUDY(self), -1);
    return wb_worker_progress(self->worker);
}

const WbMoreCurve *wb_more_study_get(WbMoreStudy *self, WbResult **of)
{
    g_return_val_if_fail(WB_IS_MORE_STUDY(self), NULL);
    const Answer *answer = asked(self);
    *of = answer->result;
    return answer->result != NULL ? &answer->curve : NULL;
}

gboolean wb_more_study_is_stale(WbMoreStudy *self)
{
    g_return_val_if_fail(WB_IS_MORE_STUDY(self), FALSE);
    return asked(self)->result != NULL && asked(self)->result != self->result;
}

/* ---- GObject ---- */

static void wb_more_study_dispose(GObject *object)
{
    WbMoreStudy *self = WB_MORE_STUDY(object);
    g_clear_pointer(&self->worker, wb_worker_end);
    g_clear_pointer(&self->result, wb_result_unref);
    for (guint r = 0; r < WB_CURVE_RESOURCES; r++)
        for (guint g = 0; g < WB_CURVE_GAINS; g++)
            clear_answer(&self->answer[r][g]);
    G_OBJECT_CLASS(wb_more_study_parent_class)->dispose(object);
}

static void wb_more_study_class_init(WbMoreStudyClass *class)
{
    G_OBJECT_CLASS(class)->dispose = wb_more_study_dispose;
    changed_signal = g_signal_new("changed", WB_TYPE_MORE_STUDY, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
}

static void wb_more_study_init(WbMoreStudy *self)
{
    self->worker = wb_worker_new("more-study", self, on_done, task_free);
}
