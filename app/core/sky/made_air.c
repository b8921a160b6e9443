#include "made_air.h"
#include "air.h"
#include <math.h>

#define CLEAR_SKY 0.7
#define MOST_OF_CLEAR 0.95
#define SWING_POWER 2.4
#define LOGISTIC_DEVIATION 0.534
#define LEAST_DEVIATION_K 0.2

/* What one calendar month adds to all its days. */
typedef struct {
    double mean_c, swing_k; /* swing of a day with s = 1 */
    double deviation_k, mean_deviate;
} MonthAir;

static double swing_share(double clearness, bool has_sun)
{
    if (!has_sun)
        return 1;
    double of_clear = fmin(clearness / CLEAR_SKY, MOST_OF_CLEAR);
    return pow(-log1p(-of_clear), 1 / SWING_POWER);
}

static double deviation_k(const WbPlace *place, int month)
{
    double mean = 0, square = 0;
    for (int m = 0; m < WB_MONTHS; m++)
        mean += place->air_mean_c[m] / WB_MONTHS;
    for (int m = 0; m < WB_MONTHS; m++)
        square += (place->air_mean_c[m] - mean) * (place->air_mean_c[m] - mean) / WB_MONTHS;
    double of_months = 1.45 - 0.0290 * place->air_mean_c[month] + 0.0664 * sqrt(square);
    return LOGISTIC_DEVIATION * sqrt(wb_days_of_month(month)) * fmax(LEAST_DEVIATION_K, of_months);
}

static MonthAir month_air(const WbPlace *place, const WbAirDays *days, int n_years, int month)
{
    int first = wb_first_day_of_month(month), n = wb_days_of_month(month);
    double share = 0, deviate = 0;
    for (int year = 0; year < n_years; year++) {
        for (int day = first; day < first + n; day++) {
            size_t d = (size_t)year * WB_YEAR_DAYS + (size_t)day;
            share += swing_share(days->clearness[d], days->has_sun[day]);
            deviate += days->deviate[d];
        }
    }
    double n_days = (double)n_years * n, swing = place->air_max_c[month] - place->air_min_c[month];
    return (MonthAir){.mean_c = place->air_mean_c[month],
                      .swing_k = share > 0 ? swing * n_days / share : 0,
                      .deviation_k = deviation_k(place, month),
                      .mean_deviate = deviate / n_days};
}

static void course_of_day(double sunrise_h, double course[WB_HOURS])
{
    double mean = 0;
    for (int h = 0; h < WB_HOURS; h++) {
        course[h] = wb_air_c(0, 1, -1, sunrise_h, h + 0.5);
        mean += course[h] / WB_HOURS;
    }
    for (int h = 0; h < WB_HOURS; h++)
        course[h] -= mean;
}

static void fill_day(const MonthAir *month, const WbAirDays *days, size_t d, int day,
                     const double course[WB_HOURS], double air_c[WB_HOURS])
{
    double mean = month->mean_c + month->deviation_k * (days->deviate[d] - month->mean_deviate);
    double half = month->swing_k * swing_share(days->clearness[d], days->has_sun[day]) / 2;
    for (int h = 0; h < WB_HOURS; h++)
        air_c[h] = mean + half * course[h];
}

void wb_made_air(const WbPlace *place, const WbAirDays *days, WbWeather *weather)
{
    for (int m = 0; m < WB_MONTHS; m++) {
        MonthAir month = month_air(place, days, weather->n_years, m);
        int first = wb_first_day_of_month(m);
        for (int day = first; day < first + wb_days_of_month(m); day++) {
            double course[WB_HOURS];
            course_of_day(days->sunrise_h[day], course);
            for (int year = 0; year < weather->n_years; year++) {
                size_t d = (size_t)year * WB_YEAR_DAYS + (size_t)day;
                fill_day(&month, days, d, day, course, &weather->air_c[d * WB_HOURS]);
            }
        }
    }
}
