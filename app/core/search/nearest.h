/* Of the kits that one rule alone stops, the one that misses its limit by least. */
#ifndef WB_NEAREST_H
#define WB_NEAREST_H

#include "rank.h"

/* Counts one more that fails by this rule alone. */
void wb_nearest_offer(WbRuledOut *out, const WbKit *kit, double value, double limit);
/* Keeps it if it is nearer, without counting it. */
void wb_nearest_take(WbRuledOut *out, const WbKit *kit, double value, double limit);
void wb_nearest_merge(WbRuledOut *into, const WbRuledOut *from);

#endif
