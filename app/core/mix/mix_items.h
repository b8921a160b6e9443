#ifndef WB_MIX_ITEMS_H
#define WB_MIX_ITEMS_H

#include "mix.h"

/* All that wb_mix_fit says of its items. */
bool wb_mix_items_valid(const WbMixItem *items, size_t n_items);

/* The same question with one item a size: `merged` has room for n_items; answers how many it takes.
 * One's count is the sum of theirs, in the order in which sizes first come. */
size_t wb_mix_items_merge(const WbMixItem *items, size_t n_items, WbMixItem *merged);
/* Turns a layout of the merged items back into one of the items. */
void wb_mix_items_part(const WbMixItem *items, size_t n_items, WbMixPlace *layout, int n);

#endif
