/* Something worked out for one kit of a result on a thread of the pool. Private to the model. */
#ifndef WB_KIT_TASK_H
#define WB_KIT_TASK_H

#include "result.h"
#include <gio/gio.h>

/* What works it out, as wb_kit_energy_new: NULL and an error, or what `free` frees. */
typedef gpointer (*WbKitWork)(WbResult *result, const char *kit_id, GError **error);

/* The answer is the task's pointer. Keeps the result alive meanwhile. */
void wb_kit_task_run(WbResult *result, const char *kit_id, WbKitWork work, GDestroyNotify free,
                     GCancellable *cancellable, GAsyncReadyCallback done, gpointer data);

#endif
