/* From the kits a search kept to the rows of its ranking, judged in full. */
#ifndef WB_ROWS_H
#define WB_ROWS_H

#include "best.h"
#include "dark_memo.h"
#include "front.h"
#include "join.h"
#include "rank.h"

/* Rows of an earlier ranking of the same kits, whose figures need no judging, and dark hours that
 * were worked out. */
typedef struct {
    const WbRanked **row; /* by wb_kit_compare, each kit once or more */
    size_t n;
    WbDarkMemo *memo; /* what is worked out for rows is kept there too */
} WbKnownRows;

/* False: out of memory; wb_known_rows_free is in order all the same. */
bool wb_known_rows_init(WbKnownRows *known, const WbRanking *ranking);
void wb_known_rows_free(WbKnownRows *known);

/* Spends `best`; `front` is finished. On failure what was allocated stays in the
 * ranking for wb_ranking_free. */
WbStatus wb_fill_rows(const WbProblem *problem, const WbRankOptions *options,
                      const WbKnownRows *known, WbBest *best, WbFront *front, WbControl *control,
                      WbRanking *ranking);
/* `best` of each chemistry of the catalogue, in its order: of those that work in so many kits. */
WbStatus wb_fill_chemistries(const WbProblem *problem, const WbRankOptions *options,
                             const WbKnownRows *known, const WbTally *tally, WbControl *control,
                             WbRanking *ranking);

#endif
