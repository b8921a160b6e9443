#ifndef WB_MIX_ITEMS_H
#define WB_MIX_ITEMS_H

#include "mix.h"

/* All that wb_mix_fit says of its items. */
bool wb_mix_items_valid(const WbMixItem *items, size_t n_items);

#endif
