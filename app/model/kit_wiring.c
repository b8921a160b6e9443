#include "kit_wiring.h"

#include "kit_task.h"
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

static gpointer work(WbResult *result, const char *kit_id, GError **error)
{
    return wb_kit_wiring_new(result, kit_id, error);
}

static void free_it(gpointer wiring)
{
    wb_kit_wiring_free(wiring);
}

void wb_kit_wiring_make(WbResult *result, const char *kit_id, GCancellable *cancellable,
                        GAsyncReadyCallback done, gpointer data)
{
    wb_kit_task_run(result, kit_id, work, free_it, cancellable, done, data);
}

WbKitWiring *wb_kit_wiring_make_finish(GAsyncResult *result, GError **error)
{
    return g_task_propagate_pointer(G_TASK(result), error);
}
