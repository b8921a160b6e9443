/* From the kits a search kept to the rows of its ranking, judged in full. */
#ifndef WB_ROWS_H
#define WB_ROWS_H

#include "best.h"
#include "front.h"
#include "join.h"
#include "rank.h"

/* Spends `best`; `front` is finished. On failure what was allocated stays in the ranking for
 * wb_ranking_free. */
WbStatus wb_fill_rows(const WbProblem *problem, const WbRankOptions *options, WbBest *best,
                      WbFront *front, WbControl *control, WbRanking *ranking);
WbStatus wb_fill_chemistries(const WbProblem *problem, const WbTally *tally, WbControl *control,
                             WbRanking *ranking);

#endif
