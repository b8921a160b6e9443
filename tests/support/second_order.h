/* The order of two kits' figures by the brief's way, worked out anew from the brief alone. */
#ifndef WB_SECOND_ORDER_H
#define WB_SECOND_ORDER_H

#include "problem.h"
#include "random.h"

/* Below 0: a first; 0: level, the ids decide. */
int second_order(const WbProblem *problem, const double a[WB_N_CRITERIA],
                 const double b[WB_N_CRITERIA]);
/* Some way to rank, with or without goals and steps of its own. */
void random_way(WbRandom *random, WbBrief *brief);

#endif
