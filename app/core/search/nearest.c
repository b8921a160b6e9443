#include "nearest.h"
#include <math.h>

/* What is not told counts as far away, so that any told miss is nearer. */
static double miss_of(double value, double limit)
{
    double miss = fabs(value - limit);
    return isnan(miss) ? INFINITY : miss;
}

static bool nearer(const WbKit *kit, double miss, const WbRuledOut *out)
{
    double other = miss_of(out->value, out->limit);
    return miss < other || (miss == other && wb_kit_compare(NULL, kit, &out->nearest) < 0);
}

void wb_nearest_take(WbRuledOut *out, const WbKit *kit, double value, double limit)
{
    if (out->alone > 0 && !nearer(kit, miss_of(value, limit), out))
        return;
    out->nearest = *kit;
    out->value = value;
    out->limit = limit;
}

void wb_nearest_offer(WbRuledOut *out, const WbKit *kit, double value, double limit)
{
    wb_nearest_take(out, kit, value, limit);
    out->alone++;
}

void wb_nearest_merge(WbRuledOut *into, const WbRuledOut *from)
{
    if (from->alone > 0)
        wb_nearest_take(into, &from->nearest, from->value, from->limit);
    into->first += from->first;
    into->alone += from->alone;
}
