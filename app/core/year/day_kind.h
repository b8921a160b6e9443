/* The rows of one kind of day of a kit. Private to core/year. */
#ifndef WB_DAY_KIND_H
#define WB_DAY_KIND_H

#include "step_kit.h"

/* By hour: what a step needs to know that neither weather nor charge decides. */
typedef struct {
    double net_wh[WB_HOURS], cost[WB_HOURS], per_cost[WB_HOURS];
    WbYearHour day; /* its need, alternator and shore, sums of the day */
} WbDayKind;

WbDayKind wb_day_kind(const WbYearKit *kit, int month, int weekday);

#endif
