/* The least move of any one obstacle along one axis. */
#ifndef WB_CHANGE_MOVE_H
#define WB_CHANGE_MOVE_H

#include "change_ask.h"
#include "roof_change.h"

/* best[0]: along the roof, best[1]: across; n = 0 where no move was found. The panels do not lie on
 * the roof as it is. Failures in asker->status; then free the layouts all the same. */
void wb_least_moves(WbAsker *asker, const WbRoof *roof, int64_t reach_mm, WbRoofChange best[2]);

#endif
