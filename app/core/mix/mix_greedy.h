/* Layouts by simple rules: panels one after another, each at the first corner where it may stand.
 */
#ifndef WB_MIX_GREEDY_H
#define WB_MIX_GREEDY_H

#include "question.h"

/* Tries all its orders while *steps <= step_budget; one step is one look at a panel and another or
 * an obstacle. WB_OK with *found; place[n_pieces] is filled where it is true. */
WbStatus wb_mix_greedy(const WbMixQuestion *question, uint64_t step_budget, WbControl *control,
                       uint64_t *steps, WbMixPlace *place, bool *found);

#endif
