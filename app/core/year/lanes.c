/* The step over lanes. Loops over lanes have a fixed length and no branch, so the compiler makes
 * vector code of them, compiled here once for each way of WbVector. At night the array's law is
 * left out: it gives exactly 0. */
#include "lanes.h"
#include <string.h>

/* What changes; local to a run, so that the compiler knows nothing else points at it. */
typedef struct {
    WbLane charge_wh, dark_h;
    WbLane before_charging_w, floor_wh; /* today */
} State;
#include "array_watts.h"

void wb_lanes_set(WbLanes *lanes, int lane, const WbYearKit *kit)
{
    WbStepKit step = wb_step_kit(kit);
    lanes->peak_w[lane] = kit->array.peak_w;
    lanes->power_coeff_k[lane] = kit->array.power_coeff_k;
    lanes->heating_k_m2_w[lane] = kit->array.heating_k_m2_w;
    lanes->low_light_loss[lane] = kit->array.low_light_loss;
    lanes->limit_w[lane] = kit->array.limit_w;
    lanes->keep[lane] = step.keep;
    lanes->capacity_wh[lane] = step.capacity_wh;
    lanes->from_wh[lane] = step.from_wh;
    lanes->most_charge_w[lane] = step.most_charge_w;
    lanes->taper_w[lane] = step.taper_w;
    lanes->taper_per_wh[lane] = step.taper_per_wh;
    lanes->efficiency[lane] = step.efficiency;
    lanes->efficiency_full[lane] = step.efficiency_full;
    lanes->fall_per_wh[lane] = step.fall_per_wh;
    lanes->half_fall_per_wh[lane] = step.half_fall_per_wh;
    lanes->most_discharge_w[lane] = step.most_discharge_w;
    lanes->depth[lane] = kit->depth;
    lanes->cold_before_charging_w[lane] = wb_step_before_charging_w(kit, true);
    lanes->charge_wh[lane] = kit->capacity_wh;
    lanes->dark_h[lane] = 0;
}

WB_INLINE void array_hour(const WbLanes *lanes, double plane_w_m2, double air_c, double low_light,
                          WbLane kept_wh)
{
    for (int l = 0; l < WB_LANES; l++) {
        WbArrayLaw law = {.peak_w = lanes->peak_w[l],
                          .power_coeff_k = lanes->power_coeff_k[l],
                          .heating_k_m2_w = lanes->heating_k_m2_w[l],
                          .low_light_loss = lanes->low_light_loss[l]};
        kept_wh[l] = wb_less(wb_offered_w(&law, plane_w_m2, air_c, low_light), lanes->limit_w[l]);
    }
}

WB_INLINE void bank_hour(const WbLanes *lanes, const WbLaneKind *kind, int h, const WbLane kept_wh,
                         State *state)
{
    for (int l = 0; l < WB_LANES; l++) {
        WbStepKit kit = {.keep = lanes->keep[l],
                         .capacity_wh = lanes->capacity_wh[l],
                         .from_wh = lanes->from_wh[l],
                         .most_charge_w = lanes->most_charge_w[l],
                         .taper_w = lanes->taper_w[l],
                         .taper_per_wh = lanes->taper_per_wh[l],
                         .efficiency = lanes->efficiency[l],
                         .efficiency_full = lanes->efficiency_full[l],
                         .fall_per_wh = lanes->fall_per_wh[l],
                         .half_fall_per_wh = lanes->half_fall_per_wh[l],
                         .most_discharge_w = lanes->most_discharge_w[l]};
        WbStepHour hour = {.kept_wh = kept_wh[l],
                           .net_wh = kind->net_wh[h][l],
                           .cost = kind->cost[h][l],
                           .per_cost = kind->per_cost[h][l],
                           .before_charging_w = state->before_charging_w[l],
                           .floor_wh = state->floor_wh[l]};
        WbStep step = wb_step(&kit, &hour, state->charge_wh[l]);
        state->charge_wh[l] = step.charge_wh;
        state->dark_h[l] += step.missing_wh > kind->dark_above_wh[l] ? 1.0 : 0.0;
    }
}

WB_INLINE void begin_day(const WbLanes *lanes, State *state, double capacity_factor, bool too_cold)
{
    for (int l = 0; l < WB_LANES; l++) {
        state->floor_wh[l] =
            wb_step_floor_wh(lanes->capacity_wh[l], lanes->depth[l], capacity_factor);
        state->before_charging_w[l] = too_cold ? lanes->cold_before_charging_w[l] : 0;
    }
}

WB_INLINE void run_year(WbLanes *lanes, const WbLaneKind *const kind[WB_MONTHS][WB_WEEK],
                        const WbBankDays *days, const WbPlaneHours *plane, int year)
{
    static const WbLane no_sun_wh = {0};
    size_t first = (size_t)year * WB_YEAR_DAYS;
    State state;
    memcpy(state.charge_wh, lanes->charge_wh, sizeof(WbLane));
    memcpy(state.dark_h, lanes->dark_h, sizeof(WbLane));
    for (size_t d = first; d < first + WB_YEAR_DAYS; d++) {
        const WbLaneKind *today = kind[wb_month_of_day((int)(d - first))][d % WB_WEEK];
        begin_day(lanes, &state, days->capacity_factor[d], days->too_cold[d]);
        for (int h = 0; h < WB_HOURS; h++) {
            size_t at = d * WB_HOURS + (size_t)h;
            WbLane kept_wh;
            if (plane->plane_w_m2[at] > 0) {
                array_hour(lanes, plane->plane_w_m2[at], plane->air_c[at], plane->low_light[at],
                           kept_wh);
                bank_hour(lanes, today, h, kept_wh, &state);
            } else {
                bank_hour(lanes, today, h, no_sun_wh, &state);
            }
        }
    }
    memcpy(lanes->charge_wh, state.charge_wh, sizeof(WbLane));
    memcpy(lanes->dark_h, state.dark_h, sizeof(WbLane));
}

static void year_plain(WbLanes *lanes, const WbLaneKind *const kind[WB_MONTHS][WB_WEEK],
                       const WbBankDays *days, const WbPlaneHours *plane, int year)
{
    run_year(lanes, kind, days, plane, year);
}

WB_FOR_AVX2 static void year_avx2(WbLanes *lanes, const WbLaneKind *const kind[WB_MONTHS][WB_WEEK],
                                  const WbBankDays *days, const WbPlaneHours *plane, int year)
{
    run_year(lanes, kind, days, plane, year);
}

WB_FOR_AVX512 static void year_avx512(WbLanes *lanes,
                                      const WbLaneKind *const kind[WB_MONTHS][WB_WEEK],
                                      const WbBankDays *days, const WbPlaneHours *plane, int year)
{
    run_year(lanes, kind, days, plane, year);
}

void wb_lanes_year(WbVector vector, WbLanes *lanes,
                   const WbLaneKind *const kind[WB_MONTHS][WB_WEEK], const WbBankDays *days,
                   const WbPlaneHours *plane, int year)
{
    switch (vector) {
    case WB_VECTOR_AVX2:
        year_avx2(lanes, kind, days, plane, year);
        return;
    case WB_VECTOR_AVX512:
        year_avx512(lanes, kind, days, plane, year);
        return;
    case WB_VECTOR_PLAIN:
    case WB_N_VECTORS:
        break;
    }
    year_plain(lanes, kind, days, plane, year);
}
