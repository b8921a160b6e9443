/* One thread that does one errand at a time for its owner, the newest asked: a new errand stops the
 * one that runs and replaces one that waits. Answers come back on the main context of the thread
 * that made the worker, and only those of the newest errand. The thread is never joined. */
#ifndef WB_WORKER_H
#define WB_WORKER_H

#include "control.h"
#include <glib.h>

typedef struct WbWorker WbWorker;
/* On the worker's thread; knows no GObject. */
typedef void (*WbWorkerRun)(gpointer task, WbControl *control);
/* On the owner's thread; the task is the owner's to look at until it returns. */
typedef void (*WbWorkerDone)(gpointer owner, gpointer task);

WbWorker *wb_worker_new(const char *name, gpointer owner, WbWorkerDone done,
                        GDestroyNotify free_task);
/* Takes the task over; free_task may be called on either thread. */
void wb_worker_ask(WbWorker *self, WbWorkerRun run, gpointer task);
/* Stops what runs; nothing of it comes back. */
void wb_worker_drop(WbWorker *self);
gboolean wb_worker_is_busy(WbWorker *self);
/* 0..1, negative while unknown. */
double wb_worker_progress(WbWorker *self);
/* Stops and leaves; `done` is not called any more. */
void wb_worker_end(WbWorker *self);

#endif
