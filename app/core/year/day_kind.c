#include "day_kind.h"

int wb_day_like(const WbDemand *demand, int month, int weekday)
{
    for (int w = 0; w < weekday; w++)
        if (demand->kind[month][w] == demand->kind[month][weekday])
            return w;
    return -1;
}

void wb_day_net(const WbYearKit *kit, int month, int weekday, WbDayKind *kind)
{
    const double *need_wh = kit->demand->wh[kit->demand->kind[month][weekday]];
    const double *shore_wh = kit->other.shore_wh[weekday];
    bool used = wb_step_in_use(kit, month);
    kind->day = (WbYearHour){0};
    for (int h = 0; h < WB_HOURS; h++) {
        double alternator = used ? kit->other.alternator_wh[h] : 0;
        double shore = used ? shore_wh[h] : 0;
        kind->day.need_wh += need_wh[h];
        kind->day.alternator_wh += alternator;
        kind->day.shore_wh += shore;
        kind->net_wh[h] = need_wh[h] + kit->array.idle_w - (alternator + shore);
    }
}

void wb_day_cost(const WbYearKit *kit, int month, int weekday, WbDayKind *kind)
{
    const double *need_wh = kit->demand->wh[kit->demand->kind[month][weekday]];
    for (int h = 0; h < WB_HOURS; h++) {
        kind->cost[h] = wb_step_cost(kit, need_wh[h] + kit->array.idle_w);
        kind->per_cost[h] = 1 / kind->cost[h];
    }
}
