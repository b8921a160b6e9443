#include "dark_answer.h"

#include "nearest_dark.h"
#include "store_error.h"
#include "words.h"

typedef struct {
    WbResult *result;
    WbControl control;
} Question;

static void question_free(gpointer data)
{
    Question *question = data;
    wb_result_unref(question->result);
    g_free(question);
}

gboolean wb_dark_answer_is_open(const WbResult *result)
{
    const WbRanking *ranking = wb_result_get_ranking(result);
    return ranking->proved && wb_nearest_dark_is_open(ranking);
}

void wb_dark_answer_free(WbDarkAnswer *self)
{
    g_free(self->sentence);
    g_free(self);
}

static void on_cancelled(GCancellable *cancellable, gpointer data)
{
    wb_control_stop(data);
}

static void answer(GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
    Question *question = data;
    const WbProblem *problem = wb_result_get_problem(question->result);
    gulong stop = 0;
    if (cancellable != NULL)
        stop =
            g_cancellable_connect(cancellable, G_CALLBACK(on_cancelled), &question->control, NULL);
    g_autoptr(WbDarkAnswer) found = g_new0(WbDarkAnswer, 1);
    WbStatus status = wb_nearest_dark(problem, 1, &question->control, &found->out);
    if (cancellable != NULL)
        g_cancellable_disconnect(cancellable, stop);
    if (status == WB_STOPPED) {
        g_task_return_new_error(task, G_IO_ERROR, G_IO_ERROR_CANCELLED, "stopped");
    } else if (status != WB_OK) {
        g_task_return_new_error(task, WB_STORE_ERROR, WB_STORE_ERROR_VALUE, "%s",
                                wb_status_describe(status));
    } else {
        found->sentence = wb_words_nearest(problem, WB_RULE_DARK_HOURS, &found->out);
        wb_kit_id(problem, &found->out.nearest, found->kit_id);
        g_task_return_pointer(task, g_steal_pointer(&found), (GDestroyNotify)wb_dark_answer_free);
    }
}

void wb_dark_answer_ask(WbResult *result, GCancellable *cancellable, GAsyncReadyCallback done,
                        gpointer data)
{
    Question *question = g_new0(Question, 1);
    question->result = wb_result_ref(result);
    wb_control_init(&question->control);
    g_autoptr(GTask) task = g_task_new(NULL, cancellable, done, data);
    g_task_set_task_data(task, question, question_free);
    g_task_run_in_thread(task, answer);
}

WbDarkAnswer *wb_dark_answer_ask_finish(GAsyncResult *answer, GError **error)
{
    return g_task_propagate_pointer(G_TASK(answer), error);
}
