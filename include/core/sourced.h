/* Where one part comes from and what it costs. */
#ifndef WB_SOURCED_H
#define WB_SOURCED_H

#include "part.h"

typedef struct {
    bool priced;         /* false: has to be bought and has no usable offer */
    int64_t price_minor; /* of one, in the brief's currency; conductors: of one metre */
    int shop;            /* index into WbProblem.shops, -1 none */
    int owned;           /* how many the person has; conductors: metres */
    int owned_wire;      /* 1 + index into WbProblem.owned_wires; 0: none */
    int64_t weight_g;    /* of one; panels: with mount; conductors: of one metre */
    const WbOffer *offer;
} WbSourced;

#endif
