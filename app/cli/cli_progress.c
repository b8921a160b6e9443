#include "cli_progress.h"

#include <glib.h>
#include <stdio.h>
#include <unistd.h>

/* Work that ends sooner is not worth a line. */
#define TOLD_EVERY_MS 500

#define CLEAR_LINE "\r\033[K"

struct WbProgress {
    const char *what;
    const WbControl *control;
    GThread *thread;
    GMutex mutex;
    GCond ended;
    gboolean end;
    gboolean told;
};

static void tell(WbProgress *progress)
{
    double done = (double)atomic_load(&progress->control->done);
    double todo = (double)atomic_load(&progress->control->todo);
    if (todo > 0)
        fprintf(stderr, CLEAR_LINE "%s: %.0f %%", progress->what, 100 * done / todo);
    progress->told = TRUE;
}

static gpointer watch(gpointer data)
{
    WbProgress *progress = data;
    g_mutex_lock(&progress->mutex);
    while (!progress->end) {
        gint64 until = g_get_monotonic_time() + TOLD_EVERY_MS * G_TIME_SPAN_MILLISECOND;
        if (!g_cond_wait_until(&progress->ended, &progress->mutex, until))
            tell(progress);
    }
    g_mutex_unlock(&progress->mutex);
    return NULL;
}

WbProgress *wb_progress_start(const char *what, const WbControl *control)
{
    if (!isatty(STDERR_FILENO))
        return NULL;
    WbProgress *progress = g_new0(WbProgress, 1);
    progress->what = what;
    progress->control = control;
    g_mutex_init(&progress->mutex);
    g_cond_init(&progress->ended);
    progress->thread = g_thread_new("progress", watch, progress);
    return progress;
}

void wb_progress_end(WbProgress *progress)
{
    if (progress == NULL)
        return;
    g_mutex_lock(&progress->mutex);
    progress->end = TRUE;
    g_cond_signal(&progress->ended);
    g_mutex_unlock(&progress->mutex);
    g_thread_join(progress->thread);
    if (progress->told)
        fputs(CLEAR_LINE, stderr);
    g_mutex_clear(&progress->mutex);
    g_cond_clear(&progress->ended);
    g_free(progress);
}
