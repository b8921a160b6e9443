#include "kit_wiring.h"

#include "store_error.h"
#include <glib/gi18n-lib.h>

WbKitWiring *wb_kit_wiring_new(WbResult *result, const char *kit_id, GError **error)
{
    const WbProblem *problem = wb_result_get_problem(result);
    g_autoptr(WbKitWiring) self = g_new0(WbKitWiring, 1);
    self->result = wb_result_ref(result);
    if (!wb_result_kit_id(result, kit_id, self->kit_id) ||
        !wb_kit_parse(problem, self->kit_id, &self->kit)) {
        g_set_error_literal(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE,
                            _("No kit works yet, so there are no circuits to show."));
        return NULL;
    }
    if (wb_wiring(problem, &self->kit, &self->wiring) != WB_OK) {
        g_set_error_literal(error, WB_STORE_ERROR, WB_STORE_ERROR_VALUE,
                            _("There was not enough memory to size the circuits."));
        return NULL;
    }
    return g_steal_pointer(&self);
}

void wb_kit_wiring_free(WbKitWiring *self)
{
    wb_wiring_free(&self->wiring);
    wb_result_unref(self->result);
    g_free(self);
}

/* ---- on another thread ---- */

typedef struct {
    WbResult *result;
    char *kit_id;
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
    WbKitWiring *wiring = wb_kit_wiring_new(question->result, question->kit_id, &error);
    if (wiring != NULL)
        g_task_return_pointer(task, wiring, (GDestroyNotify)wb_kit_wiring_free);
    else
        g_task_return_error(task, error);
}

void wb_kit_wiring_make(WbResult *result, const char *kit_id, GCancellable *cancellable,
                        GAsyncReadyCallback done, gpointer data)
{
    Question *question = g_new(Question, 1);
    question->result = wb_result_ref(result);
    question->kit_id = g_strdup(kit_id);
    g_autoptr(GTask) task = g_task_new(NULL, cancellable, done, data);
    g_task_set_task_data(task, question, question_free);
    g_task_run_in_thread(task, answer);
}

WbKitWiring *wb_kit_wiring_make_finish(GAsyncResult *result, GError **error)
{
    return g_task_propagate_pointer(G_TASK(result), error);
}
