#include "mix_known.h"
#include <stdlib.h>

bool wb_mix_known_add(WbMixKnown *known, WbMixFact fact)
{
    if (known->n == known->room) {
        size_t room = known->room ? 2 * known->room : 32;
        WbMixFact *facts = realloc(known->fact, room * sizeof *facts);
        if (!facts) {
            free(fact.layout);
            return false;
        }
        known->fact = facts;
        known->room = room;
    }
    known->fact[known->n++] = fact;
    return true;
}

void wb_mix_known_free(WbMixKnown *known)
{
    for (size_t i = 0; i < known->n; i++)
        free(known->fact[i].layout);
    free(known->fact);
    *known = (WbMixKnown){0};
}

bool wb_mix_counts_within(const WbMixCounts *inner, const WbMixCounts *outer)
{
    for (int k = 0; k < WB_MIX_MODELS; k++)
        if (inner->count[k] > outer->count[k])
            return false;
    return true;
}

const WbMixFact *wb_mix_known_find(const WbMixKnown *known, const WbMixCounts *counts)
{
    for (size_t i = 0; i < known->n; i++) {
        const WbMixFact *fact = &known->fact[i];
        if (fact->layout ? wb_mix_counts_within(counts, &fact->counts)
                         : wb_mix_counts_within(&fact->counts, counts))
            return fact;
    }
    return NULL;
}

WbMixPlace *wb_mix_known_cut(const WbMixFact *fact, const WbMixCounts *counts, int *n)
{
    WbMixCounts left = *counts;
    WbMixPlace *layout = malloc((fact->n_layout + 1) * sizeof *layout);
    *n = 0;
    for (int i = 0; layout && i < fact->n_layout; i++)
        if (left.count[fact->layout[i].item]-- > 0)
            layout[(*n)++] = fact->layout[i];
    return layout;
}
