/* A kit's hourly year: fills the balance of year.h from the problem's parts, loads and weather. */
#ifndef WB_KIT_YEAR_H
#define WB_KIT_YEAR_H

#include "kit.h"
#include "year.h"

/* Pointers inside lead into the problem. Driving starts at 9 h, or earlier where its hours would
 * not fit into the day; a heated battery without a heater figure is taken to draw 40 W. */
void wb_kit_year_fill(const WbProblem *problem, const WbKit *kit, WbYearKit *year_kit);
WbArrayLaw wb_kit_array_law(const WbProblem *problem, const WbKit *kit, const WbBankVolts *bank);
/* What the array gives by month, mean over all years. */
void wb_kit_array_months(const WbProblem *problem, const WbKit *kit, const WbBankVolts *bank,
                         WbSupply *supply);
/* Wh a day by month, in the months in use: what the shore charger offers. */
double wb_shore_wh(const WbBrief *brief, const WbBankVolts *bank);

#endif
