#include "tally.h"

void wb_tally_start(double capacity_wh, WbTally *tally)
{
    *tally = (WbTally){.capacity_wh = capacity_wh, .worst_of_years_h = -1};
    tally->year.lowest_charge = 2;
    for (int m = 0; m < WB_MONTHS; m++)
        tally->year.month[m].lowest_charge = 2;
}

static void add_used(WbTally *tally, size_t index, bool dark, double share, WbYearMonth *month,
                     const WbYearHour *hour)
{
    WbYear *year = &tally->year;
    year->need_wh += hour->need_wh;
    year->unmet_wh += hour->unmet_wh;
    year->spilled_wh += hour->spilled_wh;
    month->need_wh += hour->need_wh;
    month->unmet_wh += hour->unmet_wh;
    month->spilled_wh += hour->spilled_wh;
    month->dark_h += dark;
    tally->dark_of_year += dark;
    tally->spell_h = dark ? tally->spell_h + 1 : 0;
    if (tally->spell_h > year->longest_dark_h)
        year->longest_dark_h = tally->spell_h;
    if (share < year->lowest_charge) {
        year->lowest_charge = share;
        year->worst_hour = (int)index;
    }
}

void wb_tally_hour(WbTally *tally, size_t index, int month, bool used, bool dark,
                   const WbYearHour *hour)
{
    WbYearMonth *to = &tally->year.month[month];
    double share = tally->capacity_wh > 0 ? hour->charge_wh / tally->capacity_wh : 0;
    to->array_wh += hour->array_wh;
    to->clipped_wh += hour->clipped_wh;
    to->alternator_wh += hour->alternator_wh;
    to->shore_wh += hour->shore_wh;
    to->own_draw_wh += hour->idle_wh + hour->heater_wh;
    to->lowest_charge = share < to->lowest_charge ? share : to->lowest_charge;
    tally->drained_wh += hour->drained_wh;
    if (used)
        add_used(tally, index, dark, share, to, hour);
    else
        tally->spell_h = 0;
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

WbYear wb_tally_end(WbTally *tally, int n_years)
{
    WbYear year = tally->year;
    year.n_years = n_years;
    year.loss_of_load = year.need_wh > 0 ? year.unmet_wh / year.need_wh : 0;
    year.dark_h /= n_years;
    year.need_wh /= n_years;
    year.unmet_wh /= n_years;
    year.spilled_wh /= n_years;
    year.full_cycles =
        tally->capacity_wh > 0 ? tally->drained_wh / tally->capacity_wh / n_years : 0;
    if (year.lowest_charge > 1) /* no month in use */
        year.lowest_charge = 1;
    for (int m = 0; m < WB_MONTHS; m++)
        mean_of_month(&year.month[m], n_years, wb_days_of_month(m));
    return year;
}
