/* Where each part of the problem is bought, at what price. */
#ifndef WB_SOURCE_H
#define WB_SOURCE_H

#include "problem.h"

/* Price, shop, owned count and weight of one part; a shop used for the first time is added to
 * problem->shops. False: out of memory. */
bool wb_source_part(WbProblem *problem, const WbPart *part, double extra_kg, WbSourced *sourced);

#endif
