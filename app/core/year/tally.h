/* Sums up hours into a year's results. Private to core/year. */
#ifndef WB_TALLY_H
#define WB_TALLY_H

#include "vector_code.h"
#include "year.h"

/* One day; what its kind of day fixes is added once. */
typedef struct {
    double array_wh, clipped_wh, own_draw_wh, unmet_wh, spilled_wh, drained_wh;
    double lowest_wh; /* charge */
    int lowest_hour;  /* of the day; the first of equals */
    int dark_h;
    int spell_h, longest_h; /* of dark hours; the spell comes over from the day before */
} WbTallyDay;

typedef struct {
    WbYear year;
    double capacity_wh;
    double drained_wh, lowest_wh; /* in months in use */
    double lowest_of_month_wh[WB_MONTHS];
    int dark_of_year, spell_h;
    int worst_of_years_h;
} WbTally;

void wb_tally_start(double capacity_wh, WbTally *tally);
WbTallyDay wb_tally_day(const WbTally *tally);

WB_INLINE void wb_tally_hour(WbTallyDay *day, int h, bool dark, const WbYearHour *hour)
{
    day->array_wh += hour->array_wh;
    day->clipped_wh += hour->clipped_wh;
    day->own_draw_wh += hour->idle_wh + hour->heater_wh;
    day->unmet_wh += hour->unmet_wh;
    day->spilled_wh += hour->spilled_wh;
    day->drained_wh += hour->drained_wh;
    if (hour->charge_wh < day->lowest_wh) {
        day->lowest_wh = hour->charge_wh;
        day->lowest_hour = h;
    }
    day->dark_h += dark;
    day->spell_h = dark ? day->spell_h + 1 : 0;
    if (day->spell_h > day->longest_h)
        day->longest_h = day->spell_h;
}

/* first: index of the day's first hour. fixed: need, alternator and shore of the day. */
void wb_tally_day_ends(WbTally *tally, size_t first, int month, bool used, const WbTallyDay *day,
                       const WbYearHour *fixed);
void wb_tally_year_ends(WbTally *tally, int year);
WbYear wb_tally_end(WbTally *tally, int n_years);

#endif
