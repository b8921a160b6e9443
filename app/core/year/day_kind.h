/* The rows of one kind of day of a kit. Private to core/year. */
#ifndef WB_DAY_KIND_H
#define WB_DAY_KIND_H

#include "step_kit.h"

/* By hour: what a step needs to know that neither weather nor charge decides. */
typedef struct {
    double net_wh[WB_HOURS];                   /* need + own draw - alternator - shore */
    double cost[WB_HOURS], per_cost[WB_HOURS]; /* Wh of charge for each Wh given, and 1 / it */
    WbYearHour day;                            /* its need, alternator and shore, summed */
} WbDayKind;

/* An earlier weekday of the month with the same loads, whose costs are the same; -1: none. */
int wb_day_like(const WbDemand *demand, int month, int weekday);
void wb_day_net(const WbYearKit *kit, int month, int weekday, WbDayKind *kind);
void wb_day_cost(const WbYearKit *kit, int month, int weekday, WbDayKind *kind);

#endif
