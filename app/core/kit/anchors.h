#ifndef WB_ANCHORS_H
#define WB_ANCHORS_H

#include "problem.h"

/* The brief's anchors with the defaults filled in; needs the reference need and clear area. */
void wb_fill_anchors(WbProblem *problem);
/* The brief's weights made to sum to 1; all zero: all stay 0 and every score is 0. */
void wb_fill_weights(WbProblem *problem);
/* The brief's way to rank, its open goals and steps filled in; needs the anchors. */
void wb_fill_rank_by(WbProblem *problem);

#endif
