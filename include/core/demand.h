/* What the loads draw from the bank hour by hour, by kind of day. */
#ifndef WB_DEMAND_H
#define WB_DEMAND_H

#include "brief.h"
#include "part.h"
#include "sky.h"
#include "status.h"

/* Need at the terminals (inverter losses and idle draw in it, controllers' not) by kind of day.
 * Weekday of day d of the whole record: d % 7, 0 = Monday. Kind 0 is a day out of the months in
 * use: nothing runs. */
#define WB_WEEK 7
typedef struct {
    int n_kinds;
    uint8_t kind[WB_MONTHS][WB_WEEK];
    double (*wh)[WB_HOURS]; /* n_kinds rows */
    uint32_t months;        /* in use: bit m */
} WbDemand;

/* Loads by kind of day through one inverter (NULL: AC loads left out). A load of d days a week runs
 * on the last d days of it (a part of a day counts in proportion), so loads of some days fall
 * together. WB_NO_MEMORY. */
WbStatus wb_demand(const WbBrief *brief, const WbSky *sky, const WbInverter *inverter,
                   WbDemand *demand);
void wb_demand_free(WbDemand *demand);
/* Is a's need in no hour more than b's? Both by the same brief. */
bool wb_demand_is_never_more(const WbDemand *a, const WbDemand *b);

#endif
