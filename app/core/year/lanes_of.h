/* A year of as many kits as two vectors hold, for one kind of vector. Included once for each, as
 * step_of.h, with WB_WIDTH lanes in a vector, WB_LOAD and WB_STORE and WB_DARK(a, b): 1 where a >
 * b, else 0. Two vectors at a time: while one waits for its sums the other's go on. Private to
 * core/year. */

#include "step_of.h"

typedef struct {
    WB_NUM peak_w, power_coeff_k, heating_k_m2_w, low_light_loss, limit_w;
} WB_OF(Array);

/* One vector of kits. */
typedef struct {
    WB_OF(Array) array;
    WB_OF(WbStepKit) kit;
    WB_OF(WbStepHour) hour;
    WB_NUM depth, cold_before_charging_w;
    WB_NUM charge_wh, dark_h, dark_above_wh;
} WB_OF(Lanes);

WB_CODE WB_INLINE WB_OF(Lanes) WB_OF(load)(const WbLanes *from, int lane)
{
    return (WB_OF(Lanes)){.array = {.peak_w = WB_LOAD(&from->peak_w[lane]),
                                    .power_coeff_k = WB_LOAD(&from->power_coeff_k[lane]),
                                    .heating_k_m2_w = WB_LOAD(&from->heating_k_m2_w[lane]),
                                    .low_light_loss = WB_LOAD(&from->low_light_loss[lane]),
                                    .limit_w = WB_LOAD(&from->limit_w[lane])},
                          .kit = {.keep = WB_LOAD(&from->keep[lane]),
                                  .capacity_wh = WB_LOAD(&from->capacity_wh[lane]),
                                  .from_wh = WB_LOAD(&from->from_wh[lane]),
                                  .most_charge_w = WB_LOAD(&from->most_charge_w[lane]),
                                  .taper_w = WB_LOAD(&from->taper_w[lane]),
                                  .taper_per_wh = WB_LOAD(&from->taper_per_wh[lane]),
                                  .efficiency = WB_LOAD(&from->efficiency[lane]),
                                  .efficiency_full = WB_LOAD(&from->efficiency_full[lane]),
                                  .fall_per_wh = WB_LOAD(&from->fall_per_wh[lane]),
                                  .half_fall_per_wh = WB_LOAD(&from->half_fall_per_wh[lane]),
                                  .most_discharge_w = WB_LOAD(&from->most_discharge_w[lane])},
                          .depth = WB_LOAD(&from->depth[lane]),
                          .cold_before_charging_w = WB_LOAD(&from->cold_before_charging_w[lane]),
                          .charge_wh = WB_LOAD(&from->charge_wh[lane]),
                          .dark_h = WB_LOAD(&from->dark_h[lane])};
}

WB_CODE WB_INLINE void WB_OF(begin_day)(WB_OF(Lanes) * lanes, const WbLaneKind *kind, int lane,
                                        double capacity_factor, bool too_cold)
{
    lanes->hour.floor_wh = WB_FLOOR_WH(lanes->kit.capacity_wh, lanes->depth, capacity_factor);
    lanes->hour.before_charging_w = lanes->depth - lanes->depth;
    if (too_cold)
        lanes->hour.before_charging_w = lanes->cold_before_charging_w;
    lanes->dark_above_wh = WB_LOAD(&kind->dark_above_wh[lane]);
}

WB_CODE WB_INLINE WB_NUM WB_OF(kept_wh)(const WB_OF(Lanes) * lanes, double plane_w_m2, double air_c,
                                        double low_light)
{
    WB_NUM offered_wh = WB_OFFERED_W(&lanes->array, plane_w_m2, air_c, low_light, WB_OR_0);
    return WB_LESS(offered_wh, lanes->array.limit_w);
}

WB_CODE WB_INLINE void WB_OF(bank_hour)(WB_OF(Lanes) * lanes, const WbLaneKind *kind, int h,
                                        int lane)
{
    lanes->hour.net_wh = WB_LOAD(&kind->net_wh[h][lane]);
    lanes->hour.cost = WB_LOAD(&kind->cost[h][lane]);
    lanes->hour.per_cost = WB_LOAD(&kind->per_cost[h][lane]);
    WB_OF(WbStep) step = WB_OF(wb_step)(&lanes->kit, &lanes->hour, lanes->charge_wh);
    lanes->charge_wh = step.charge_wh;
    lanes->dark_h += WB_DARK(step.missing_wh, lanes->dark_above_wh);
}

/* At night the array's law is left out: it gives exactly 0. */
WB_CODE WB_INLINE void WB_OF(run_day)(WB_OF(Lanes) * a, WB_OF(Lanes) * b, const WbLaneKind *kind,
                                      int lane, const WbPlaneHours *plane, size_t first)
{
    const WB_NUM none = a->depth - a->depth;
    for (int h = 0; h < WB_HOURS; h++) {
        size_t at = first + (size_t)h;
        double w_m2 = plane->plane_w_m2[at];
        a->hour.kept_wh = b->hour.kept_wh = none;
        if (w_m2 > 0) {
            a->hour.kept_wh = WB_OF(kept_wh)(a, w_m2, plane->air_c[at], plane->low_light[at]);
            b->hour.kept_wh = WB_OF(kept_wh)(b, w_m2, plane->air_c[at], plane->low_light[at]);
        }
        WB_OF(bank_hour)(a, kind, h, lane);
        WB_OF(bank_hour)(b, kind, h, lane + WB_WIDTH);
    }
}

WB_CODE static void WB_OF(year)(WbLanes *lanes, const WbLaneKind *const kind[WB_MONTHS][WB_WEEK],
                                const WbBankDays *days, const WbPlaneHours *plane, int year)
{
    size_t first = (size_t)year * WB_YEAR_DAYS;
    for (int lane = 0; lane < WB_LANES; lane += 2 * WB_WIDTH) {
        WB_OF(Lanes) a = WB_OF(load)(lanes, lane), b = WB_OF(load)(lanes, lane + WB_WIDTH);
        for (size_t d = first; d < first + WB_YEAR_DAYS; d++) {
            const WbLaneKind *today = kind[wb_month_of_day((int)(d - first))][d % WB_WEEK];
            WB_OF(begin_day)(&a, today, lane, days->capacity_factor[d], days->too_cold[d]);
            WB_OF(begin_day)
            (&b, today, lane + WB_WIDTH, days->capacity_factor[d], days->too_cold[d]);
            WB_OF(run_day)(&a, &b, today, lane, plane, d * WB_HOURS);
        }
        WB_STORE(&lanes->charge_wh[lane], a.charge_wh);
        WB_STORE(&lanes->charge_wh[lane + WB_WIDTH], b.charge_wh);
        WB_STORE(&lanes->dark_h[lane], a.dark_h);
        WB_STORE(&lanes->dark_h[lane + WB_WIDTH], b.dark_h);
    }
}

#undef WB_NUM
#undef WB_OF
#undef WB_LESS
#undef WB_MORE
#undef WB_OR_0
#undef WB_CODE
#undef WB_WIDTH
#undef WB_LOAD
#undef WB_STORE
#undef WB_DARK
