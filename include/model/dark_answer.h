/* The kit nearest to the limit of dark hours, worked out beside the window after a ranking. */
#ifndef WB_DARK_ANSWER_H
#define WB_DARK_ANSWER_H

#include "result.h"
#include <gio/gio.h>

typedef struct {
    WbRuledOut out;
    char *sentence;         /* as wb_words_nearest */
    char kit_id[WB_KIT_ID]; /* of the nearest */
} WbDarkAnswer;

/* Does the result leave it open, and is it the last word otherwise? */
gboolean wb_dark_answer_is_open(const WbResult *result);
/* On a thread of the pool; keeps a reference to the result meanwhile. Cancelling stops the work. */
void wb_dark_answer_ask(WbResult *result, GCancellable *cancellable, GAsyncReadyCallback done,
                        gpointer data);
WbDarkAnswer *wb_dark_answer_ask_finish(GAsyncResult *answer, GError **error);
void wb_dark_answer_free(WbDarkAnswer *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbDarkAnswer, wb_dark_answer_free)

#endif
