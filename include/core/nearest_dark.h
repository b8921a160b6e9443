/* The kit that its dark hours alone stop and that has the fewest, where a ranking has left it open:
 * asked for apart, so that no ranking waits for it. */
#ifndef WB_NEAREST_DARK_H
#define WB_NEAREST_DARK_H

#include "rank.h"

/* Does the ranking leave it open? */
bool wb_nearest_dark_is_open(const WbRanking *ranking);

/* Of all kits of the problem; *out is then what a ranking with least_dark has. Cost: a ranking, and
 * hourly years of some of these kits. WB_STOPPED, WB_NO_MEMORY: nothing is written. */
WbStatus wb_nearest_dark(const WbProblem *problem, int workers, WbControl *control,
                         WbRuledOut *out);

#endif
