/* Made weather: days first (clearness.h), then their hours (hours.h) and the air (made_air.h).
 *
 * Order of the draws from one generator: for each day of all years a pair, the first for clearness,
 * the second for air; then day by day the pairs of the hours with sun. */
#include "weather.h"
#include "clearness.h"
#include "hours.h"
#include "made_air.h"
#include "normal_draw.h"
#include "weather_room.h"
#include <math.h>
#include <stdlib.h>

/* Arrays of one run. By day of the year: outside, sunrise, has_sun; by hour of the year: hour; by
 * day of the record the others. `part` has room for one calendar month of all years. */
typedef struct {
    WbLightHour *hour;
    double *outside_kwh_m2, *sunrise_h;
    bool *has_sun;
    double *rank, *clearness, *deviate;
    WbClearnessMonth part;
    double *part_clearness;
} Work;

static bool is_accepted(const WbPlace *place)
{
    if (!wb_has_sun(place))
        return false;
    for (int m = 0; m < WB_MONTHS; m++) {
        double swing = place->air_max_c[m] - place->air_min_c[m];
        if (!(place->ghi_kwh_m2_day[m] >= 0 && isfinite(place->ghi_kwh_m2_day[m])))
            return false;
        if (!(swing >= 0 && isfinite(swing) && isfinite(place->air_mean_c[m])))
            return false;
    }
    return true;
}

static void work_free(Work *work)
{
    free(work->hour);
    free(work->outside_kwh_m2);
    free(work->sunrise_h);
    free(work->has_sun);
    free(work->rank);
    free(work->clearness);
    free(work->deviate);
    free(work->part.rank);
    free(work->part.above);
    free(work->part.outside_kwh_m2);
    free(work->part_clearness);
}

static WbStatus work_room(int years, Work *work)
{
    size_t n = (size_t)years * WB_YEAR_DAYS, most = (size_t)years * 31;
    *work = (Work){
        .hour = malloc(WB_YEAR_HOURS * sizeof *work->hour),
        .outside_kwh_m2 = malloc(WB_YEAR_DAYS * sizeof(double)),
        .sunrise_h = malloc(WB_YEAR_DAYS * sizeof(double)),
        .has_sun = malloc(WB_YEAR_DAYS * sizeof(bool)),
        .rank = malloc(n * sizeof(double)),
        .clearness = malloc(n * sizeof(double)),
        .deviate = malloc(n * sizeof(double)),
        .part = {.rank = malloc(most * sizeof(double)),
                 .above = malloc(most * sizeof(double)),
                 .outside_kwh_m2 = malloc(most * sizeof(double))},
        .part_clearness = malloc(most * sizeof(double)),
    };
    if (work->hour && work->outside_kwh_m2 && work->sunrise_h && work->has_sun && work->rank &&
        work->clearness && work->deviate && work->part.rank && work->part.above &&
        work->part.outside_kwh_m2 && work->part_clearness)
        return WB_OK;
    work_free(work);
    return WB_NO_MEMORY;
}

static WbStatus fill_sun(const WbPlace *place, const double shift_h[WB_YEAR_DAYS], Work *work)
{
    WbSunHour *suns = malloc(WB_YEAR_HOURS * sizeof *suns);
    if (!suns)
        return WB_NO_MEMORY;
    wb_sun_hours(place, shift_h, suns);
    for (int day = 0; day < WB_YEAR_DAYS; day++) {
        double outside_w_m2 = 0, length_h = 0;
        for (int i = day * WB_HOURS; i < (day + 1) * WB_HOURS; i++) {
            wb_light_hour(i % WB_HOURS, &suns[i], &work->hour[i]);
            outside_w_m2 += work->hour[i].outside_w_m2;
            length_h += suns[i].length_h;
        }
        work->outside_kwh_m2[day] = outside_w_m2 / 1000;
        work->has_sun[day] = outside_w_m2 > 0;
        work->sunrise_h[day] = 12 - length_h / 2;
    }
    free(suns);
    return WB_OK;
}

static void draw_days(int years, WbRandom *random, Work *work)
{
    const double keep = WB_CLEARNESS_PERSISTENCE, keep_air = WB_AIR_PERSISTENCE;
    double renew = sqrt(1 - keep * keep), renew_air = sqrt(1 - keep_air * keep_air);
    size_t n = (size_t)years * WB_YEAR_DAYS;
    for (size_t d = 0; d < n; d++) {
        WbNormalPair pair = wb_normal_pair(random);
        work->rank[d] = d == 0 ? pair.first : keep * work->rank[d - 1] + renew * pair.first;
        work->deviate[d] =
            d == 0 ? pair.second : keep_air * work->deviate[d - 1] + renew_air * pair.second;
    }
}

static double share_below(double z)
{
    return erfc(-z / sqrt(2)) / 2;
}

static void fill_clearness(const WbPlace *place, int years, int month, Work *work)
{
    size_t first = (size_t)wb_first_day_of_month(month), n = (size_t)wb_days_of_month(month);
    WbClearnessMonth *part = &work->part;
    part->n_days = (size_t)years * n;
    part->mean_kwh_m2 = place->ghi_kwh_m2_day[month];
    for (size_t i = 0; i < part->n_days; i++) {
        size_t day = first + i % n;
        double z = work->rank[i / n * WB_YEAR_DAYS + day];
        part->rank[i] = share_below(z);
        part->above[i] = share_below(-z);
        part->outside_kwh_m2[i] = work->outside_kwh_m2[day];
    }
    wb_clearness_month(part, work->part_clearness);
    for (size_t i = 0; i < part->n_days; i++)
        work->clearness[i / n * WB_YEAR_DAYS + first + i % n] = work->part_clearness[i];
}

static void make(const WbPlace *place, uint64_t seed, Work *work, WbWeather *weather)
{
    WbRandom random;
    wb_random_seed(&random, seed);
    draw_days(weather->n_years, &random, work);
    for (int m = 0; m < WB_MONTHS; m++)
        fill_clearness(place, weather->n_years, m, work);
    size_t n = (size_t)weather->n_years * WB_YEAR_DAYS;
    for (size_t d = 0; d < n; d++)
        wb_light_of_day(work->clearness[d], &work->hour[d % WB_YEAR_DAYS * WB_HOURS], &random,
                        &weather->global_w_m2[d * WB_HOURS], &weather->diffuse_w_m2[d * WB_HOURS]);
    WbAirDays days = {work->clearness, work->deviate, work->sunrise_h, work->has_sun};
    wb_made_air(place, &days, weather);
}

WbStatus wb_weather_make(const WbPlace *place, int years, uint64_t seed, WbWeather *weather)
{
    WbWeather made;
    Work work;
    if (!is_accepted(place))
        return WB_BAD_INPUT;
    WbStatus status = wb_weather_room(years, &made);
    if (status != WB_OK)
        return status;
    status = work_room(years, &work);
    if (status == WB_OK) {
        status = fill_sun(place, made.solar_shift_h, &work);
        if (status == WB_OK)
            make(place, seed, &work, &made);
        work_free(&work);
    }
    if (status == WB_OK)
        *weather = made;
    else
        wb_weather_free(&made);
    return status;
}
