#include "bank_days.h"
#include "energy.h"
#include <math.h>
#include <stdlib.h>

WbStatus wb_bank_days(const WbSite *site, const WbPlaneHours *plane, const WbChemistry *chemistry,
                      WbBankDays *days)
{
    size_t n = (size_t)plane->n_years * WB_YEAR_DAYS;
    WbBankDays made = {.n_years = plane->n_years,
                       .capacity_factor = malloc(n * sizeof *made.capacity_factor),
                       .too_cold = malloc(n * sizeof *made.too_cold)};
    if (!made.capacity_factor || !made.too_cold) {
        wb_bank_days_free(&made);
        return WB_NO_MEMORY;
    }
    for (size_t d = 0; d < n; d++) {
        double bank_c = site->bank_where == WB_BANK_OUTSIDE
                            ? plane->day_air_c[d]
                            : wb_bank_temperature_c(site, wb_month_of_day((int)(d % WB_YEAR_DAYS)));
        made.capacity_factor[d] = wb_temperature_factor(chemistry, bank_c);
        made.too_cold[d] = !isnan(chemistry->min_charge_c) && bank_c < chemistry->min_charge_c;
    }
    *days = made;
    return WB_OK;
}

void wb_bank_days_free(WbBankDays *days)
{
    free(days->capacity_factor);
    free(days->too_cold);
    *days = (WbBankDays){0};
}
