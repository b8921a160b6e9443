/* What kits on one bank get and give, compared: one that gets at least as much in every hour and
 * needs no more never has more dark hours, where the bank's year is monotone
 * (wb_year_is_monotone). */
#ifndef WB_FEED_H
#define WB_FEED_H

#include "problem.h"

typedef struct {
    const WbArrayLaw *law;
    double other; /* of the DC-DC charger, A or Wh: the same for both that are compared */
    int inverter;
} WbFeed;

/* What was found out about pairs of inverters. */
typedef struct {
    const WbProblem *problem;
    uint8_t *known; /* [a x inverters + b]: is a's need never more than b's? 0: not yet asked */
} WbNeeds;

/* False: out of memory. */
bool wb_needs_init(WbNeeds *needs, const WbProblem *problem);
void wb_needs_free(WbNeeds *needs);
/* Does inverter a never need more than b, in any hour? */
bool wb_needs_no_more(WbNeeds *needs, int a, int b);

bool wb_same_law(const WbArrayLaw *a, const WbArrayLaw *b);
/* Does a get at least what b gets in every hour, and need no more? */
bool wb_feed_never_less(WbNeeds *needs, const WbFeed *a, const WbFeed *b);

#endif
