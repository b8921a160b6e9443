#include "tally.h"
#include <math.h>

void wb_tally_start(double capacity_wh, WbTally *tally)
{
    *tally = (WbTally){.capacity_wh = capacity_wh, .lowest_wh = INFINITY, .worst_of_years_h = -1};
    for (int m = 0; m < WB_MONTHS; m++)
        tally->lowest_of_month_wh[m] = INFINITY;
}

WbTallyDay wb_tally_day(const WbTally *tally)
{
    return (WbTallyDay){.lowest_wh = INFINITY, .spell_h = tally->spell_h};
}

static void add_used(WbTally *tally, size_t first, WbYearMonth *month, const WbTallyDay *day,
                     const WbYearHour *fixed)
{
    WbYear *year = &tally->year;
    year->need_wh += fixed->need_wh;
    year->unmet_wh += day->unmet_wh;
    year->spilled_wh += day->spilled_wh;
    month->need_wh += fixed->need_wh;
    month->unmet_wh += day->unmet_wh;
    month->spilled_wh += day->spilled_wh;
    month->dark_h += day->dark_h;
    tally->dark_of_year += day->dark_h;
    if (day->longest_h > year->longest_dark_h)
        year->longest_dark_h = day->longest_h;
    if (day->lowest_wh < tally->lowest_wh) {
        tally->lowest_wh = day->lowest_wh;
        year->worst_hour = (int)first + day->lowest_hour;
    }
}

void wb_tally_day_ends(WbTally *tally, size_t first, int month, bool used, const WbTallyDay *day,
                       const WbYearHour *fixed)
{
    WbYearMonth *to = &tally->year.month[month];
    to->array_wh += day->array_wh;
    to->clipped_wh += day->clipped_wh;
    to->alternator_wh += fixed->alternator_wh;
    to->shore_wh += fixed->shore_wh;
    to->own_draw_wh += day->own_draw_wh;
    tally->lowest_of_month_wh[month] = fmin(tally->lowest_of_month_wh[month], day->lowest_wh);
    tally->drained_wh += day->drained_wh;
    tally->spell_h = used ? day->spell_h : 0;
    if (used)
        add_used(tally, first, to, day, fixed);
}

void wb_tally_year_ends(WbTally *tally, int year)
{
    if (tally->dark_of_year > tally->worst_of_years_h) {
        tally->worst_of_years_h = tally->dark_of_year;
        tally->year.dark_worst_h = tally->dark_of_year;
        tally->year.dark_worst_year = year;
    }
    tally->year.dark_h += tally->dark_of_year;
    tally->dark_of_year = 0;
}

static void mean_of_month(WbYearMonth *month, int n_years, int n_days)
{
    double *sums[] = {&month->array_wh, &month->clipped_wh, &month->alternator_wh,
                      &month->shore_wh, &month->need_wh,    &month->own_draw_wh,
                      &month->unmet_wh, &month->spilled_wh};
    for (size_t i = 0; i < sizeof sums / sizeof *sums; i++)
        *sums[i] /= (double)n_years * n_days;
    month->dark_h /= n_years;
}

static double share_of(double wh, double capacity_wh)
{
    return capacity_wh > 0 ? wh / capacity_wh : 0;
}

WbYear wb_tally_end(WbTally *tally, int n_years)
{
    WbYear year = tally->year;
    year.n_years = n_years;
    year.loss_of_load = year.need_wh > 0 ? year.unmet_wh / year.need_wh : 0;
    year.dark_h /= n_years;
    year.need_wh /= n_years;
    year.unmet_wh /= n_years;
    year.spilled_wh /= n_years;
    year.full_cycles = share_of(tally->drained_wh, tally->capacity_wh) / n_years;
    bool any_used = isfinite(tally->lowest_wh);
    year.lowest_charge = any_used ? share_of(tally->lowest_wh, tally->capacity_wh) : 1;
    for (int m = 0; m < WB_MONTHS; m++) {
        mean_of_month(&year.month[m], n_years, wb_days_of_month(m));
        year.month[m].lowest_charge = share_of(tally->lowest_of_month_wh[m], tally->capacity_wh);
    }
    return year;
}
