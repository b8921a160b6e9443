#include "worker.h"

/* Shared by both threads, counted. */
typedef struct {
    gatomicrefcount references;
    WbWorkerRun run;
    gpointer task;
    GDestroyNotify free_task;
    WbControl control;
} Errand;

typedef struct {
    gatomicrefcount references;
    GMutex mutex;
    GCond asked;
    Errand *waiting; /* guarded by mutex */
    gboolean quit;   /* guarded by mutex */
    GMainContext *context;
    WbWorker *owner; /* touched on the owner's thread alone; NULL once it has left */
} Mailbox;

struct WbWorker {
    Mailbox *mailbox;
    gpointer owner;
    WbWorkerDone done;
    GDestroyNotify free_task;
    Errand *newest; /* NULL: none is open */
};

typedef struct {
    Mailbox *mailbox;
    Errand *errand;
} Answer;

static void errand_unref(Errand *errand)
{
    if (!g_atomic_ref_count_dec(&errand->references))
        return;
    errand->free_task(errand->task);
    g_free(errand);
}

static void mailbox_unref(Mailbox *mailbox)
{
    if (!g_atomic_ref_count_dec(&mailbox->references))
        return;
    g_clear_pointer(&mailbox->waiting, errand_unref);
    g_mutex_clear(&mailbox->mutex);
    g_cond_clear(&mailbox->asked);
    g_main_context_unref(mailbox->context);
    g_free(mailbox);
}

static void answer_free(gpointer data)
{
    Answer *answer = data;
    errand_unref(answer->errand);
    mailbox_unref(answer->mailbox);
    g_free(answer);
}

static gboolean deliver(gpointer data)
{
    Answer *answer = data;
    WbWorker *self = answer->mailbox->owner;
    if (self == NULL || self->newest != answer->errand)
        return G_SOURCE_REMOVE; /* nobody waits for it any more */
    g_clear_pointer(&self->newest, errand_unref);
    self->done(self->owner, answer->errand->task);
    return G_SOURCE_REMOVE;
}

/* ---- the thread ---- */

/* Waits for an errand; NULL: time to leave. */
static Errand *next_errand(Mailbox *mailbox)
{
    g_mutex_lock(&mailbox->mutex);
    while (mailbox->waiting == NULL && !mailbox->quit)
        g_cond_wait(&mailbox->asked, &mailbox->mutex);
    Errand *errand = mailbox->quit ? NULL : g_steal_pointer(&mailbox->waiting);
    g_mutex_unlock(&mailbox->mutex);
    return errand;
}

static gpointer work(gpointer data)
{
    Mailbox *mailbox = data;
    Errand *errand;
    while ((errand = next_errand(mailbox)) != NULL) {
        if (!wb_control_stopped(&errand->control))
            errand->run(errand->task, &errand->control);
        Answer *answer = g_new(Answer, 1);
        g_atomic_ref_count_inc(&mailbox->references);
        *answer = (Answer){mailbox, errand};
        g_autoptr(GSource) source = g_idle_source_new();
        g_source_set_priority(source, G_PRIORITY_DEFAULT);
        g_source_set_callback(source, deliver, answer, answer_free);
        g_source_attach(source, mailbox->context);
    }
    mailbox_unref(mailbox);
    return NULL;
}

/* ---- the owner ---- */

WbWorker *wb_worker_new(const char *name, gpointer owner, WbWorkerDone done,
                        GDestroyNotify free_task)
{
    WbWorker *self = g_new0(WbWorker, 1);
    Mailbox *mailbox = g_new0(Mailbox, 1);
    g_atomic_ref_count_init(&mailbox->references);
    g_atomic_ref_count_inc(&mailbox->references); /* one for the thread, one for us */
    g_mutex_init(&mailbox->mutex);
    g_cond_init(&mailbox->asked);
    mailbox->context = g_main_context_ref_thread_default();
    mailbox->owner = self;
    *self = (WbWorker){mailbox, owner, done, free_task, NULL};
    g_thread_unref(g_thread_new(name, work, mailbox));
    return self;
}

void wb_worker_ask(WbWorker *self, WbWorkerRun run, gpointer task)
{
    wb_worker_drop(self);
    Errand *errand = g_new0(Errand, 1);
    g_atomic_ref_count_init(&errand->references);
    g_atomic_ref_count_inc(&errand->references); /* one for the mailbox, one for us */
    errand->run = run;
    errand->task = task;
    errand->free_task = self->free_task;
    wb_control_init(&errand->control);
    self->newest = errand;
    g_mutex_lock(&self->mailbox->mutex);
    g_clear_pointer(&self->mailbox->waiting, errand_unref);
    self->mailbox->waiting = errand;
    g_cond_signal(&self->mailbox->asked);
    g_mutex_unlock(&self->mailbox->mutex);
}

void wb_worker_drop(WbWorker *self)
{
    if (self->newest != NULL)
        wb_control_stop(&self->newest->control);
    g_clear_pointer(&self->newest, errand_unref);
}

gboolean wb_worker_is_busy(WbWorker *self)
{
    return self->newest != NULL;
}

double wb_worker_progress(WbWorker *self)
{
    if (self->newest == NULL)
        return -1;
    double done = (double)atomic_load(&self->newest->control.done);
    double todo = (double)atomic_load(&self->newest->control.todo);
    return todo > 0 ? MIN(done / todo, 1) : -1;
}

void wb_worker_end(WbWorker *self)
{
    wb_worker_drop(self);
    self->mailbox->owner = NULL;
    g_mutex_lock(&self->mailbox->mutex);
    self->mailbox->quit = TRUE;
    g_cond_signal(&self->mailbox->asked);
    g_mutex_unlock(&self->mailbox->mutex);
    mailbox_unref(self->mailbox);
    g_free(self);
}
