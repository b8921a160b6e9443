#include "place.h"
#include <math.h>

#define COLDER_THAN_MEAN_MINIMUM_K 15.0

double wb_design_cold_c(const WbPlace *place)
{
    double coldest_c = place->air_min_c[0];
    for (int m = 1; m < WB_MONTHS; m++)
        coldest_c = fmin(coldest_c, place->air_min_c[m]);
    return coldest_c - COLDER_THAN_MEAN_MINIMUM_K;
}

double wb_bank_temperature_c(const WbSite *site, int month)
{
    switch ((WbBankWhere)site->bank_where) {
    case WB_BANK_OUTSIDE:
        return site->place.air_mean_c[month];
    case WB_BANK_OWN:
        return site->bank_own_c;
    case WB_BANK_INSIDE:
        break;
    }
    return site->inside_c;
}
