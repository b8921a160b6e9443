/* Many kits side by side: lane l of every row is kit l. Private to core/year. */
#ifndef WB_LANES_H
#define WB_LANES_H

#include "step_kit.h"
#include "vector.h"

#define WB_LANES 16

typedef double WbLane[WB_LANES];

/* One kind of day of all lanes. */
typedef struct {
    WbLane net_wh[WB_HOURS], cost[WB_HOURS], per_cost[WB_HOURS];
    WbLane dark_above_wh;
} WbLaneKind;

typedef struct {
    WbLane peak_w, power_coeff_k, heating_k_m2_w, low_light_loss, limit_w; /* array */
    WbLane keep, capacity_wh, from_wh, most_charge_w, taper_w, taper_per_wh, efficiency,
        efficiency_full, fall_per_wh, half_fall_per_wh, most_discharge_w; /* bank */
    WbLane depth, cold_before_charging_w;
    WbLane charge_wh, dark_h;
} WbLanes;

void wb_lanes_set(WbLanes *lanes, int lane, const WbYearKit *kit);

/* A whole year from its first day on; kind: of each month and weekday. */
void wb_lanes_year(WbVector vector, WbLanes *lanes,
                   const WbLaneKind *const kind[WB_MONTHS][WB_WEEK], const WbBankDays *days,
                   const WbPlaneHours *plane, int year);

#endif
