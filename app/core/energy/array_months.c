/* What an array gives by month. Sums go by hour of the day first, so 24 of them grow side by side
 * and their order does not depend on the width of the machine's vectors. */
#include "array_watts.h"

typedef struct {
    double offered_wh[WB_HOURS], kept_wh[WB_HOURS];
} DaySums;

WB_INLINE void add_day(const WbArrayLaw *law, const WbPlaneHours *plane, size_t first,
                       DaySums *sums)
{
    const double *plane_w_m2 = plane->plane_w_m2 + first, *air_c = plane->air_c + first;
    const double *low_light = plane->low_light + first;
    for (int h = 0; h < WB_HOURS; h++) {
        double wh = wb_offered_w(law, plane_w_m2[h], air_c[h], low_light[h]);
        sums->offered_wh[h] += wh;
        sums->kept_wh[h] += wb_less(wh, law->limit_w);
    }
}

WB_INLINE void sum_months(const WbArrayLaw *law_of, const WbPlaneHours *plane, WbSupply *supply)
{
    const WbArrayLaw law = *law_of;
    for (int m = 0; m < WB_MONTHS; m++) {
        DaySums sums = {0};
        int n_days = wb_days_of_month(m);
        for (int year = 0; year < plane->n_years; year++) {
            size_t first =
                ((size_t)year * WB_YEAR_DAYS + (size_t)wb_first_day_of_month(m)) * WB_HOURS;
            for (int day = 0; day < n_days; day++)
                add_day(&law, plane, first + (size_t)day * WB_HOURS, &sums);
        }
        double offered_wh = 0, kept_wh = 0;
        for (int h = 0; h < WB_HOURS; h++) {
            offered_wh += sums.offered_wh[h];
            kept_wh += sums.kept_wh[h];
        }
        double days = (double)plane->n_years * n_days;
        supply->day_wh[m] = kept_wh / days - law.idle_w * WB_HOURS;
        supply->clipped_wh[m] = (offered_wh - kept_wh) / days;
    }
}

static void sum_plain(const WbArrayLaw *law, const WbPlaneHours *plane, WbSupply *supply)
{
    sum_months(law, plane, supply);
}

WB_FOR_AVX2 static void sum_avx2(const WbArrayLaw *law, const WbPlaneHours *plane, WbSupply *supply)
{
    sum_months(law, plane, supply);
}

WB_FOR_AVX512 static void sum_avx512(const WbArrayLaw *law, const WbPlaneHours *plane,
                                     WbSupply *supply)
{
    sum_months(law, plane, supply);
}

void wb_array_months_on(WbVector vector, const WbArrayLaw *law, const WbPlaneHours *plane,
                        WbSupply *supply)
{
    static void (*const way[WB_N_VECTORS])(const WbArrayLaw *, const WbPlaneHours *,
                                           WbSupply *) = {sum_plain, sum_avx2, sum_avx512};
    way[vector](law, plane, supply);
}

void wb_array_months(const WbArrayLaw *law, const WbPlaneHours *plane, WbSupply *supply)
{
    wb_array_months_on(wb_vector_best(), law, plane, supply);
}
