/* What is known of mixes: less than what fits fits, more than what does not fit does not. */
#ifndef WB_MIX_KNOWN_H
#define WB_MIX_KNOWN_H

#include "mix.h"

typedef struct {
    int count[WB_MIX_MODELS];
} WbMixCounts;

typedef struct {
    WbMixCounts counts;
    WbMixPlace *layout; /* NULL: it does not fit */
    int n_layout;
} WbMixFact;

typedef struct {
    WbMixFact *fact;
    size_t n, room;
} WbMixKnown;

/* Takes over the layout, also where there is no memory. */
bool wb_mix_known_add(WbMixKnown *known, WbMixFact fact);
void wb_mix_known_free(WbMixKnown *known);

/* No count of the inner is more than the outer's. */
bool wb_mix_counts_within(const WbMixCounts *inner, const WbMixCounts *outer);

/* The fact that settles these counts, NULL: none. */
const WbMixFact *wb_mix_known_find(const WbMixKnown *known, const WbMixCounts *counts);

/* A layout of these counts, cut from that of a fact that holds them. NULL: out of memory. */
WbMixPlace *wb_mix_known_cut(const WbMixFact *fact, const WbMixCounts *counts, int *n);

#endif
