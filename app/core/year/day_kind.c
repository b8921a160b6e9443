#include "day_kind.h"

WbDayKind wb_day_kind(const WbYearKit *kit, int month, int weekday)
{
    WbDayKind made;
    const double *need_wh = kit->demand->wh[kit->demand->kind[month][weekday]];
    for (int h = 0; h < WB_HOURS; h++) {
        double want_wh = need_wh[h] + kit->array.idle_w;
        double other_wh =
            wb_step_alternator_wh(kit, month, h) + wb_step_shore_wh(kit, month, weekday, h);
        made.net_wh[h] = want_wh - other_wh;
        made.cost[h] = wb_step_cost(kit, want_wh);
        made.per_cost[h] = 1 / made.cost[h];
    }
    return made;
}
