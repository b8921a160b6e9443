/* Why nothing works where no rule alone is to blame: which limits of the brief cannot be kept at
 * once. */
#ifndef WB_CLASH_H
#define WB_CLASH_H

#include "rank.h"

typedef enum {
    WB_CLASH_MONEY,
    WB_CLASH_WEIGHT,
    WB_CLASH_DARK,
    WB_CLASH_ROOF,
    WB_CLASH_BAY,
    WB_N_CLASH,
} WbClashLimit;

typedef struct {
    bool asked;      /* false: something works, or would but for one rule, or nothing is to try */
    uint32_t limits; /* the fewest that have to go for some kit to work, bit WbClashLimit; of as few
                        the first in the order above; 0: not even with all limits off does one */
    uint64_t works;  /* kits without these limits */
    int64_t cheapest_minor; /* of these kits */
    double lightest_kg;
} WbClash;

/* Searches with limits off, one after another, fewest first: at most 2^5. The ranking is that of
 * the problem. WB_STOPPED, WB_NO_MEMORY. */
WbStatus wb_clash(const WbProblem *problem, const WbRanking *ranking, int workers,
                  WbControl *control, WbClash *clash);
/* The rule that speaks for a limit. */
WbRule wb_clash_rule(WbClashLimit limit);

#endif
