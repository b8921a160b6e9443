/* Undo steps of a document: each keeps the whole state before and after it. States are immutable
 * and small (a few kB of JSON), so undo is exact by construction. */
#ifndef WB_HISTORY_H
#define WB_HISTORY_H

#include "brief_file.h"

#define WB_HISTORY_MOST 1000

typedef struct {
    char *label;
    char *pointer; /* of the field a lone set changed, NULL: never merged */
    gint64 at_us;  /* of the last edit in it */
    WbBriefFile *before, *after;
} WbHistoryStep;

typedef struct {
    GPtrArray *steps; /* WbHistoryStep, oldest first */
    guint position;   /* steps done; beyond it stand the undone ones */
    gboolean sealed;  /* the next edit begins a step of its own */
} WbHistory;

void wb_history_init(WbHistory *history);
void wb_history_clear(WbHistory *history);
/* Forgets all steps. */
void wb_history_reset(WbHistory *history);
/* Drops what was undone, then adds a step, or lengthens the last one if it set the same pointer at
 * most merge_us before now_us. */
void wb_history_push(WbHistory *history, const char *label, const char *pointer,
                     WbBriefFile *before, WbBriefFile *after, gint64 now_us, gint64 merge_us);
/* Steps to be undone and redone next, NULL when there is none. */
const WbHistoryStep *wb_history_undoable(const WbHistory *history);
const WbHistoryStep *wb_history_redoable(const WbHistory *history);

#endif
