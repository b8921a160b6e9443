/* Sums up a year's hours into its results. Private to core/year. */
#ifndef WB_TALLY_H
#define WB_TALLY_H

#include "year.h"

typedef struct {
    WbYear year;
    double capacity_wh;
    double drained_wh;
    int dark_of_year, spell_h;
    double worst_of_years_h;
} WbTally;

void wb_tally_start(double capacity_wh, WbTally *tally);
void wb_tally_hour(WbTally *tally, size_t index, int month, bool used, bool dark,
                   const WbYearHour *hour);
void wb_tally_year_ends(WbTally *tally, int year);
WbYear wb_tally_end(WbTally *tally, int n_years);

#endif
