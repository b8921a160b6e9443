/* One question of the search for a change: do so many panels lie on this roof? */
#ifndef WB_CHANGE_ASK_H
#define WB_CHANGE_ASK_H

#include "roof.h"

typedef struct {
    int64_t panel_length_mm, panel_width_mm;
    int n_panels;
    uint64_t share, left; /* nodes of one question, of all that are still to come */
    WbControl *control;
    WbStatus status; /* not WB_OK: the search is over */
} WbAsker;

/* OPEN: not decided within the share, or the search is over. */
typedef enum { WB_ASKED_NO, WB_ASKED_YES, WB_ASKED_OPEN } WbAsked;

/* On whole millimetres. YES: *layout is n_panels rectangles, to be freed; else NULL. */
WbAsked wb_ask(WbAsker *asker, const WbRoof *roof, WbRect **layout);

/* With at most so many nodes, and no more than the share. */
WbAsked wb_ask_within(WbAsker *asker, uint64_t nodes_max, const WbRoof *roof, WbRect **layout);

/* The same, from fewer panels up: some layouts are found only on that way. */
WbAsked wb_ask_afresh(WbAsker *asker, uint64_t nodes_max, const WbRoof *roof, WbRect **layout);

#endif
