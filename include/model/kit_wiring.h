/* The circuits of one kit as the window shows them: sized anew for the kit in hand, off the main
 * thread. */
#ifndef WB_KIT_WIRING_H
#define WB_KIT_WIRING_H

#include "result.h"
#include "wiring.h"
#include <gio/gio.h>

/* Keeps the result alive, and with it the brief and the parts its circuits point at. */
typedef struct {
    char kit_id[WB_KIT_ID];
    WbResult *result;
    WbKit kit;
    WbWiring wiring; /* n 0: circuits are not sized, or the bank makes no system voltage */
} WbKitWiring;

/* Chooses the kit as wb_result_judge does. Any thread. NULL and one sentence: there is no kit, or
 * no memory. */
WbKitWiring *wb_kit_wiring_new(WbResult *result, const char *kit_id, GError **error);
void wb_kit_wiring_free(WbKitWiring *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbKitWiring, wb_kit_wiring_free)

/* The same on a thread of the pool. */
void wb_kit_wiring_make(WbResult *result, const char *kit_id, GCancellable *cancellable,
                        GAsyncReadyCallback done, gpointer data);
WbKitWiring *wb_kit_wiring_make_finish(GAsyncResult *answer, GError **error);

#endif
