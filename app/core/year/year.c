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
    size_t day;
    int month, weekday;
    bool too_cold;
    WbStepHour step; /* what stays the same all day */
} Day;

/* Loads come before own draw: only what is missing beyond the own draw is missing to them. */
static void fill_terminals(const Day *day, int h, const WbStep *s, WbYearHour *hour)
{
    const WbYearKit *kit = day->kit;
    double idle_w = kit->array.idle_w;
    double own_missing_wh = s->missing_wh < idle_w ? s->missing_wh : idle_w;
    hour->alternator_wh = wb_step_alternator_wh(kit, day->month, h);
    hour->shore_wh = wb_step_shore_wh(kit, day->month, day->weekday, h);
    hour->need_wh = kit->demand->wh[kit->demand->kind[day->month][day->weekday]][h];
    hour->idle_wh = idle_w - own_missing_wh;
    hour->unmet_wh = s->missing_wh - own_missing_wh;
    hour->drawn_wh = s->given_wh;
}

static void fill_bank(const Day *day, double charge_wh, const WbStep *s, WbYearHour *hour)
{
    double in_wh = s->stored_wh / s->efficiency; /* less than taken where the bank became full */
    hour->charged_wh = in_wh < s->taken_wh ? in_wh : s->taken_wh;
    hour->heater_wh = day->too_cold && hour->charged_wh > 0 ? day->kit->heater_w : 0;
    hour->stored_wh = s->stored_wh;
    hour->drained_wh = s->drained_wh;
    hour->lost_wh = charge_wh - s->rested_wh;
    double surplus_wh = s->surplus_wh > 0 ? s->surplus_wh : 0;
    double spilled_wh = surplus_wh - hour->heater_wh - hour->charged_wh;
    hour->spilled_wh = spilled_wh > 0 ? spilled_wh : 0;
    hour->charge_wh = s->charge_wh;
    hour->floor_wh = day->step.floor_wh;
}

static double run_day(const Day *day, const WbStepKit *step_kit, double charge_wh, WbTally *tally,
                      WbYearHour *trace)
{
    const WbPlaneHours *plane = day->plane;
    bool used = wb_step_in_use(day->kit, day->month);
    double dark_above_wh = wb_step_dark_above_wh(day->kit, day->month);
    for (int h = 0; h < WB_HOURS; h++) {
        size_t at = day->day * WB_HOURS + (size_t)h;
        WbStepHour in = day->step;
        double offered_wh = wb_offered_w(&day->kit->array, plane->plane_w_m2[at], plane->air_c[at],
                                         plane->low_light[at]);
        in.kept_wh = wb_less(offered_wh, day->kit->array.limit_w);
        in.net_wh = day->kind->net_wh[h];
        in.cost = day->kind->cost[h];
        in.per_cost = day->kind->per_cost[h];
        WbStep s = wb_step(step_kit, &in, charge_wh);
        WbYearHour hour = {.array_wh = in.kept_wh, .clipped_wh = offered_wh - in.kept_wh};
        fill_terminals(day, h, &s, &hour);
        fill_bank(day, charge_wh, &s, &hour);
        wb_tally_hour(tally, at, day->month, used, s.missing_wh > dark_above_wh, &hour);
        if (trace)
            trace[at] = hour;
        charge_wh = s.charge_wh;
    }
    return charge_wh;
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
                   .day = d,
                   .month = wb_month_of_day((int)(d % WB_YEAR_DAYS)),
                   .weekday = (int)(d % WB_WEEK),
                   .too_cold = kit->days->too_cold[d]};
        day.kind = &kinds->kind[day.month][day.weekday];
        day.step.before_charging_w = wb_step_before_charging_w(kit, day.too_cold);
        day.step.floor_wh =
            wb_step_floor_wh(kit->capacity_wh, kit->depth, kit->days->capacity_factor[d]);
        charge_wh = run_day(&day, &step_kit, charge_wh, tally, trace);
        if ((d + 1) % WB_YEAR_DAYS == 0)
            wb_tally_year_ends(tally, (int)(d / WB_YEAR_DAYS));
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
    for (int m = 0; m < WB_MONTHS; m++)
        for (int w = 0; w < WB_WEEK; w++)
            kinds->kind[m][w] = wb_day_kind(kit, m, w);
    WbTally tally;
    wb_tally_start(kit->capacity_wh, &tally);
    run_years(kit, plane, kinds, &tally, trace);
    free(kinds);
    *year = wb_tally_end(&tally, plane->n_years);
    return WB_OK;
}
