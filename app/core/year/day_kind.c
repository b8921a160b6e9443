#include "day_kind.h"

WbDayKind wb_day_kind(const WbYearKit *kit, int month, int weekday)
{
    WbDayKind made = {.day = {0}};
    const double *need_wh = kit->demand->wh[kit->demand->kind[month][weekday]];
    for (int h = 0; h < WB_HOURS; h++) {
        double want_wh = need_wh[h] + kit->array.idle_w;
        double alternator_wh = wb_step_alternator_wh(kit, month, h);
        double shore_wh = wb_step_shore_wh(kit, month, weekday, h);
        made.day.need_wh += need_wh[h];
        made.day.alternator_wh += alternator_wh;
        made.day.shore_wh += shore_wh;
        made.net_wh[h] = want_wh - (alternator_wh + shore_wh);
        made.cost[h] = wb_step_cost(kit, want_wh);
        made.per_cost[h] = 1 / made.cost[h];
    }
    return made;
}
