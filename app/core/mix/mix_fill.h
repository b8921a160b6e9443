/* Layouts by filling the room from one side, for mixes that leave little of it empty.
 *
 * The rows' fronts make a skyline. Its lowest gap takes a panel at one end, or is given up as far
 * as its lower side; what is given up may not be more than the room less all panels. Tried from all
 * four sides and mirrored, with drawn preferences and a limit of looks each (restarts: Luby,
 * Sinclair & Zuckerman 1993, from memory). It finds layouts and refutes nothing. */
#ifndef WB_MIX_FILL_H
#define WB_MIX_FILL_H

#include "question.h"

/* place[] takes the layout with the most area, of *n_laid panels; all of them: found. steps as
 * wb_mix_greedy; spare_mm2: the room less the grown panels; seed: of the drawn preferences. */
WbStatus wb_mix_fill(const WbMixQuestion *question, int64_t spare_mm2, uint64_t seed,
                     uint64_t step_budget, WbControl *control, uint64_t *steps, WbMixPlace *place,
                     int *n_laid);

#endif
