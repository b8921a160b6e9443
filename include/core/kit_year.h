/* A kit's hourly year: fills the balance of year.h from the problem's parts, loads and weather. */
#ifndef WB_KIT_YEAR_H
#define WB_KIT_YEAR_H

#include "kit.h"
#include "year.h"

/* Pointers inside lead into the problem. */
void wb_kit_year_fill(const WbProblem *problem, const WbKit *kit, WbYearKit *year_kit);

/* Loads by kind of day through one inverter (NULL: AC loads left out). A load of d days a week runs
 * on the last d days of it (a part of a day counts in proportion), so loads of some days fall
 * together. WB_NO_MEMORY. */
WbStatus wb_demand(const WbBrief *brief, const WbSky *sky, const WbInverter *inverter,
                   WbDemand *demand);
void wb_demand_free(WbDemand *demand);

#endif
