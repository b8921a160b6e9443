/* How firmly the first of a ranking stands. */
#ifndef WB_RANK_FIRM_H
#define WB_RANK_FIRM_H

#include "firm.h"
#include "rank.h"

#define WB_FIRM_SHARES 5

typedef struct {
    const WbRanked *kit; /* of the ranking's top */
    size_t rank;         /* from 1 */
    double share, share_error;
} WbFirstShare;

typedef struct {
    /* False: kits are not ranked by score, nothing works, or the front needed is neither the
     * ranking's nor to be had from its pool; the rest is then empty. */
    bool known;
    uint32_t criteria; /* bits of those whose weights were varied: the front's and all that weigh */
    WbFirmness firmness;
    /* Who takes over; NULL: none. Of the ranking or of `rows`. */
    const WbRanked *below[WB_N_CRITERIA], *above[WB_N_CRITERIA], *by;
    /* The first few that are first at some weights, by rank; row 1 among them if it is. */
    WbFirstShare first[WB_FIRM_SHARES];
    int n_first;
    WbRanked *rows; /* kit and u alone */
} WbRankFirm;

/* Only kits of the front can be first at some weights of its criteria, so they alone are asked.
 * Where a criterion weighs that is not in the brief's front, the front of both is taken from the
 * pool. Dark hours take part where they are worked out. WB_NO_MEMORY, WB_STOPPED. */
WbStatus wb_rank_firm(const WbProblem *problem, const WbRanking *ranking, WbControl *control,
                      WbRankFirm *firm);
void wb_rank_firm_free(WbRankFirm *firm);

#endif
