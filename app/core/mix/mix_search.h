/* A mix on one plain roof: refusals, simple layouts, then the clauses. */
#ifndef WB_MIX_SEARCH_H
#define WB_MIX_SEARCH_H

#include "mix.h"

enum { WB_MIX_NODE_PROPAGATIONS = 12 };

/* As wb_mix_fit on a plain roof; never "within 1 mm". */
WbStatus wb_mix_plain(const WbRoof *plain, const WbMixItem *items, size_t n_items,
                      uint64_t node_budget, WbControl *control, WbMixFit *fit);

#endif
