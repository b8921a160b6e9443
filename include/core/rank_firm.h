/* How firmly the first of a ranking stands. */
#ifndef WB_RANK_FIRM_H
#define WB_RANK_FIRM_H

#include "firm.h"
#include "rank.h"

typedef struct {
    bool known; /* false: kits are not ranked by score, a criterion that weighs is not in the front,
                   the front was cut, or nothing works; the rest is then empty */
    uint32_t criteria; /* bits of those whose weights were varied: the front's */
    WbFirmness firmness;
    /* Who takes over, of the ranking; NULL: none. */
    const WbRanked *below[WB_N_CRITERIA], *above[WB_N_CRITERIA], *by;
} WbRankFirm;

/* Only kits of the front can be first at some weights of its criteria, so they alone are asked.
 * Dark hours take part where they are worked out. WB_NO_MEMORY, WB_STOPPED. */
WbStatus wb_rank_firm(const WbProblem *problem, const WbRanking *ranking, WbControl *control,
                      WbRankFirm *firm);

#endif
