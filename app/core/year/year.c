/* One kit, hour after hour, with everything that can be told of each. */
#include "array_watts.h"
#include "day_kind.h"
#include "tally.h"
#include <stdlib.h>

typedef struct {
    WbDayKind kind[WB_MONTHS][WB_WEEK];
} DayKinds;

typedef struct {
    const WbYearKit *kit;
    const WbPlaneHours *plane;
    const WbDayKind *kind;
    size_t first; /* index of its first hour */
    int month, weekday;
    bool too_cold;
    double before_charging_w, floor_wh;
} Day;

/* Loads come before own draw: only what is missing beyond the own draw is missing to them. */
WB_INLINE void fill_terminals(const Day *day, const WbStep *s, WbYearHour *hour)
{
    double idle_w = day->kit->array.idle_w;
    double own_missing_wh = wb_less(s->missing_wh, idle_w);
    hour->idle_wh = idle_w - own_missing_wh;
    hour->unmet_wh = s->missing_wh - own_missing_wh;
    hour->drawn_wh = s->given_wh;
}

WB_INLINE void fill_bank(const Day *day, double charge_wh, const WbStep *s, WbYearHour *hour)
{
    hour->charged_wh = s->taken_wh;
    if (s->stored_wh < s->taken_wh * s->efficiency) /* it became full */
        hour->charged_wh = s->stored_wh / s->efficiency;
    hour->heater_wh = day->too_cold && hour->charged_wh > 0 ? day->kit->heater_w : 0;
    hour->stored_wh = s->stored_wh;
    hour->drained_wh = s->drained_wh;
    hour->lost_wh = charge_wh - s->rested_wh;
    double surplus_wh = wb_more(s->surplus_wh, 0);
    hour->spilled_wh = wb_more(surplus_wh - hour->heater_wh - hour->charged_wh, 0);
    hour->charge_wh = s->charge_wh;
    hour->floor_wh = day->floor_wh;
}

static void fill_trace(const Day *day, int h, WbYearHour *hour)
{
    hour->alternator_wh = wb_step_alternator_wh(day->kit, day->month, h);
    hour->shore_wh = wb_step_shore_wh(day->kit, day->month, day->weekday, h);
    hour->need_wh = day->kit->demand->wh[day->kit->demand->kind[day->month][day->weekday]][h];
}

/* At night the array's law is left out: it gives exactly 0. */
WB_INLINE double fill_array(const Day *day, size_t at, WbYearHour *hour)
{
    const WbArrayLaw *law = &day->kit->array;
    double plane_w_m2 = day->plane->plane_w_m2[at];
    if (!(plane_w_m2 > 0))
        return 0;
    double offered_wh =
        wb_offered_w(law, plane_w_m2, day->plane->air_c[at], day->plane->low_light[at]);
    hour->array_wh = wb_less(offered_wh, law->limit_w);
    hour->clipped_wh = offered_wh - hour->array_wh;
    return hour->array_wh;
}

WB_INLINE double run_day(const Day *day, const WbStepKit *step_kit, double charge_wh,
                         WbTally *tally, WbYearHour *trace)
{
    bool used = wb_step_in_use(day->kit, day->month);
    double dark_above_wh = wb_step_dark_above_wh(day->kit, day->month);
    WbTallyDay sums = wb_tally_day(tally);
    for (int h = 0; h < WB_HOURS; h++) {
        WbYearHour hour = {0};
        WbStepHour in = {.kept_wh = fill_array(day, day->first + (size_t)h, &hour),
                         .net_wh = day->kind->net_wh[h],
                         .cost = day->kind->cost[h],
                         .per_cost = day->kind->per_cost[h],
                         .before_charging_w = day->before_charging_w,
                         .floor_wh = day->floor_wh};
        WbStep s = wb_step(step_kit, &in, charge_wh);
        fill_terminals(day, &s, &hour);
        fill_bank(day, charge_wh, &s, &hour);
        wb_tally_hour(&sums, h, s.missing_wh > dark_above_wh, &hour);
        if (trace) {
            fill_trace(day, h, &hour);
            trace[day->first + (size_t)h] = hour;
        }
        charge_wh = s.charge_wh;
    }
    wb_tally_day_ends(tally, day->first, day->month, used, &sums, &day->kind->day);
    return charge_wh;
}

static double run_day_alone(const Day *day, const WbStepKit *step_kit, double charge_wh,
                            WbTally *tally)
{
    return run_day(day, step_kit, charge_wh, tally, NULL);
}

static double run_day_traced(const Day *day, const WbStepKit *step_kit, double charge_wh,
                             WbTally *tally, WbYearHour *trace)
{
    return run_day(day, step_kit, charge_wh, tally, trace);
}

static void run_years(const WbYearKit *kit, const WbPlaneHours *plane, const DayKinds *kinds,
                      WbTally *tally, WbYearHour *trace)
{
    WbStepKit step_kit = wb_step_kit(kit);
    double charge_wh = kit->capacity_wh;
    size_t n_days = (size_t)plane->n_years * WB_YEAR_DAYS;
    for (size_t d = 0; d < n_days; d++) {
        Day day = {.kit = kit,
                   .plane = plane,
                   .first = d * WB_HOURS,
                   .month = wb_month_of_day((int)(d % WB_YEAR_DAYS)),
                   .weekday = (int)(d % WB_WEEK),
                   .too_cold = kit->days->too_cold[d]};
        day.kind = &kinds->kind[day.month][day.weekday];
        day.before_charging_w = wb_step_before_charging_w(kit, day.too_cold);
        day.floor_wh = WB_FLOOR_WH(kit->capacity_wh, kit->depth, kit->days->capacity_factor[d]);
        charge_wh = trace ? run_day_traced(&day, &step_kit, charge_wh, tally, trace)
                          : run_day_alone(&day, &step_kit, charge_wh, tally);
        if ((d + 1) % WB_YEAR_DAYS == 0)
            wb_tally_year_ends(tally, (int)(d / WB_YEAR_DAYS));
    }
}

static void fill_kinds(const WbYearKit *kit, DayKinds *kinds)
{
    for (int m = 0; m < WB_MONTHS; m++)
        for (int w = 0; w < WB_WEEK; w++) {
            int like = wb_day_like(kit->demand, m, w);
            if (like >= 0)
                kinds->kind[m][w] = kinds->kind[m][like];
            else
                wb_day_cost(kit, m, w, &kinds->kind[m][w]);
            wb_day_net(kit, m, w, &kinds->kind[m][w]);
        }
}

WbStatus wb_year_run(const WbYearKit *kit, const WbPlaneHours *plane, WbYear *year,
                     WbYearHour *trace)
{
    if (!wb_step_accepts(kit, plane))
        return WB_BAD_INPUT;
    DayKinds *kinds = malloc(sizeof *kinds);
    if (!kinds)
        return WB_NO_MEMORY;
    fill_kinds(kit, kinds);
    WbTally tally;
    wb_tally_start(kit->capacity_wh, &tally);
    run_years(kit, plane, kinds, &tally, trace);
    free(kinds);
    *year = wb_tally_end(&tally, plane->n_years);
    return WB_OK;
}
