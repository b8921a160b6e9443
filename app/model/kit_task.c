#include "kit_task.h"

typedef struct {
    WbResult *result;
    char *kit_id;
    WbKitWork work;
    GDestroyNotify free;
} Question;

static void question_free(gpointer data)
{
    Question *question = data;
    wb_result_unref(question->result);
    g_free(question->kit_id);
    g_free(question);
}

static void answer(GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
    const Question *question = data;
    GError *error = NULL;
    if (g_task_return_error_if_cancelled(task))
        return;
    gpointer found = question->work(question->result, question->kit_id, &error);
    if (found != NULL)
        g_task_return_pointer(task, found, question->free);
    else
        g_task_return_error(task, error);
}

void wb_kit_task_run(WbResult *result, const char *kit_id, WbKitWork work, GDestroyNotify free,
                     GCancellable *cancellable, GAsyncReadyCallback done, gpointer data)
{
    Question *question = g_new(Question, 1);
    *question = (Question){wb_result_ref(result), g_strdup(kit_id), work, free};
    g_autoptr(GTask) task = g_task_new(NULL, cancellable, done, data);
    g_task_set_task_data(task, question, question_free);
    g_task_run_in_thread(task, answer);
}
