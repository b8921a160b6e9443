#include "array.h"
#include <math.h>

void wb_array_unit(const WbArrayLaw *law, const WbPlaneHours *plane, WbArrayUnit *unit)
{
    WbArrayLaw one = *law;
    WbSupply supply;
    one.peak_w = 1;
    one.limit_w = INFINITY;
    one.idle_w = 0;
    wb_array_months(&one, plane, &supply);
    for (int m = 0; m < WB_MONTHS; m++)
        unit->day_wh[m] = supply.day_wh[m];
    unit->most = 0;
    size_t n = (size_t)plane->n_years * WB_YEAR_HOURS;
    for (size_t i = 0; i < n; i++)
        if (plane->plane_w_m2[i] > 0)
            unit->most = fmax(unit->most, wb_array_offered_w(&one, plane->plane_w_m2[i],
                                                             plane->air_c[i], plane->low_light[i]));
}

void wb_array_months_by_unit(const WbArrayLaw *law, const WbArrayUnit *unit,
                             const WbPlaneHours *plane, WbSupply *supply)
{
    if (law->peak_w * unit->most > law->limit_w) {
        wb_array_months(law, plane, supply);
        return;
    }
    for (int m = 0; m < WB_MONTHS; m++) {
        supply->day_wh[m] = law->peak_w * unit->day_wh[m] - law->idle_w * WB_HOURS;
        supply->clipped_wh[m] = 0;
    }
}
