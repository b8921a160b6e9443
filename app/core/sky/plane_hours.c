/* Weather on the panel's plane. What depends on the sun alone is worked out once for the 8760 hours
 * of a year; each hour of each year then costs a few products and, with sun, one logarithm. */
#include "perez.h"
#include "sun_hours.h"
#include <math.h>
#include <stdlib.h>

#define N_AZIMUTHS 16
#define LEAST_W_M2 0.1

/* One hour of the year, for all years. */
typedef struct {
    WbPerezSun sun;
    double extraterrestrial_w_m2;
    double positive_incidence; /* of the plane, or the mean over the azimuths */
    double kept;               /* after shading and soiling */
} PlaneSun;

static bool is_share(double share)
{
    return share >= 0 && share <= 1;
}

static bool is_accepted(const WbSite *site, const WbWeather *weather)
{
    if (!wb_has_sun(&site->place) || isinf(site->azimuth_deg))
        return false;
    if (!(site->tilt_deg >= 0 && site->tilt_deg <= 90) || !is_share(site->ground_albedo) ||
        !is_share(site->soiling_loss))
        return false;
    for (int m = 0; m < WB_MONTHS; m++)
        if (!is_share(site->shading_loss[m]))
            return false;
    return weather->n_years >= 1 && weather->n_years <= WB_MOST_WEATHER_YEARS;
}

static double facing(WbDirection sun, const WbSite *site, double azimuth_deg)
{
    WbDirection normal =
        wb_plane_normal(site->tilt_deg * WB_RAD_PER_DEG, azimuth_deg * WB_RAD_PER_DEG);
    return fmax(0, wb_cos_between(sun, normal));
}

static double positive_incidence(WbDirection sun, const WbSite *site)
{
    if (!isnan(site->azimuth_deg))
        return facing(sun, site, site->azimuth_deg);
    double sum = 0;
    for (int i = 0; i < N_AZIMUTHS; i++)
        sum += facing(sun, site, i * 360.0 / N_AZIMUTHS);
    return sum / N_AZIMUTHS;
}

static PlaneSun *plane_suns(const WbSite *site, const WbWeather *weather)
{
    WbSunHour *hours = malloc(WB_YEAR_HOURS * sizeof *hours);
    PlaneSun *suns = calloc(WB_YEAR_HOURS, sizeof *suns);
    if (!hours || !suns) {
        free(hours);
        free(suns);
        return NULL;
    }
    wb_sun_hours(&site->place, weather->solar_shift_h, hours);
    for (int i = 0; i < WB_YEAR_HOURS; i++) {
        int month = wb_month_of_day(i / WB_HOURS);
        suns[i].kept = (1 - site->shading_loss[month]) * (1 - site->soiling_loss);
        suns[i].extraterrestrial_w_m2 = hours[i].extraterrestrial_w_m2;
        if (hours[i].length_h <= 0 || site->tilt_deg == 0)
            continue; /* an even sky, or nothing to work out */
        suns[i].sun = wb_perez_sun(hours[i].sun.up);
        suns[i].positive_incidence = positive_incidence(hours[i].sun, site);
    }
    free(hours);
    return suns;
}

static WbStatus plane_room(int n_years, WbPlaneHours *plane)
{
    size_t n = (size_t)n_years * WB_YEAR_HOURS;
    *plane = (WbPlaneHours){.n_years = n_years,
                            .plane_w_m2 = malloc(n * sizeof(double)),
                            .air_c = malloc(n * sizeof(double)),
                            .low_light = malloc(n * sizeof(double)),
                            .day_air_c = malloc(n / WB_HOURS * sizeof(double))};
    if (plane->plane_w_m2 && plane->air_c && plane->low_light && plane->day_air_c)
        return WB_OK;
    wb_plane_hours_free(plane);
    return WB_NO_MEMORY;
}

static double on_plane_w_m2(const PlaneSun *sun, const WbPerezPlane *plane, double global_w_m2,
                            double diffuse_w_m2)
{
    if (global_w_m2 <= 0)
        return 0;
    if (plane->sin_tilt == 0)
        return global_w_m2;
    double beam = fmin(fmax(0, global_w_m2 - diffuse_w_m2), sun->extraterrestrial_w_m2);
    WbHorizontal on = {.beam = beam,
                       .diffuse = global_w_m2 - beam,
                       .extraterrestrial = sun->extraterrestrial_w_m2};
    return wb_perez(&on, &sun->sun, plane, sun->positive_incidence);
}

/* One year's radiation; sum_w_m2 grows by month. */
static void fill_light(const PlaneSun *suns, const WbPerezPlane *fixed, const WbWeather *weather,
                       size_t first, WbPlaneHours *plane, double sum_w_m2[WB_MONTHS])
{
    const double per_ln = 1 / log(5);
    for (int m = 0; m < WB_MONTHS; m++) {
        int from = wb_first_day_of_month(m) * WB_HOURS;
        int to = from + wb_days_of_month(m) * WB_HOURS;
        for (int i = from; i < to; i++) {
            size_t at = first + (size_t)i;
            double w_m2 = suns[i].kept * on_plane_w_m2(&suns[i], fixed, weather->global_w_m2[at],
                                                       weather->diffuse_w_m2[at]);
            if (w_m2 < LEAST_W_M2)
                w_m2 = 0;
            plane->plane_w_m2[at] = w_m2;
            plane->low_light[at] = w_m2 > 0 && w_m2 < 1000 ? log(1000 / w_m2) * per_ln : 0;
            sum_w_m2[m] += w_m2;
        }
    }
}

static void fill_air(const WbWeather *weather, uint32_t months, WbPlaneHours *plane)
{
    size_t n_days = (size_t)weather->n_years * WB_YEAR_DAYS;
    plane->hottest_air_c = -INFINITY;
    for (size_t d = 0; d < n_days; d++) {
        bool used = months == 0 || (months >> wb_month_of_day((int)(d % WB_YEAR_DAYS)) & 1);
        double sum = 0;
        for (size_t i = d * WB_HOURS; i < (d + 1) * WB_HOURS; i++) {
            plane->air_c[i] = weather->air_c[i];
            sum += weather->air_c[i];
            if (used)
                plane->hottest_air_c = fmax(plane->hottest_air_c, weather->air_c[i]);
        }
        plane->day_air_c[d] = sum / WB_HOURS;
    }
}

static void fill_extremes(WbPlaneHours *plane)
{
    bool any = false;
    size_t n = (size_t)plane->n_years * WB_YEAR_HOURS;
    plane->sun_air_min_c = plane->sun_air_max_c = plane->plane_max_w_m2 = plane->low_light_max = 0;
    for (size_t i = 0; i < n; i++) {
        if (!(plane->plane_w_m2[i] > 0))
            continue;
        double air_c = plane->air_c[i];
        plane->sun_air_min_c = any ? fmin(plane->sun_air_min_c, air_c) : air_c;
        plane->sun_air_max_c = any ? fmax(plane->sun_air_max_c, air_c) : air_c;
        plane->plane_max_w_m2 = fmax(plane->plane_max_w_m2, plane->plane_w_m2[i]);
        plane->low_light_max = fmax(plane->low_light_max, plane->low_light[i]);
        any = true;
    }
}

static void fill_range(WbPlaneHours *plane)
{
    size_t n = (size_t)plane->n_years * WB_YEAR_HOURS;
    double coldest = INFINITY, hottest = -INFINITY;
    plane->sun_air_min_c = plane->sun_air_max_c = plane->plane_max_w_m2 = plane->low_light_max = 0;
    for (size_t i = 0; i < n; i++) {
        if (plane->plane_w_m2[i] <= 0)
            continue;
        coldest = fmin(coldest, plane->air_c[i]);
        hottest = fmax(hottest, plane->air_c[i]);
        plane->plane_max_w_m2 = fmax(plane->plane_max_w_m2, plane->plane_w_m2[i]);
        plane->low_light_max = fmax(plane->low_light_max, plane->low_light[i]);
    }
    if (coldest <= hottest) {
        plane->sun_air_min_c = coldest;
        plane->sun_air_max_c = hottest;
    }
}

WbStatus wb_plane_hours(const WbSite *site, const WbWeather *weather, WbPlaneHours *plane)
{
    if (!is_accepted(site, weather))
        return WB_BAD_INPUT;
    WbPlaneHours made;
    PlaneSun *suns = plane_suns(site, weather);
    if (!suns || plane_room(weather->n_years, &made) != WB_OK) {
        free(suns);
        return WB_NO_MEMORY;
    }
    double sum_w_m2[WB_MONTHS] = {0};
    WbPerezPlane fixed = wb_perez_plane(site->tilt_deg * WB_RAD_PER_DEG, site->ground_albedo);
    for (int year = 0; year < weather->n_years; year++)
        fill_light(suns, &fixed, weather, (size_t)year * WB_YEAR_HOURS, &made, sum_w_m2);
    for (int m = 0; m < WB_MONTHS; m++)
        made.plane_kwh_m2_day[m] = sum_w_m2[m] / 1000 / (weather->n_years * wb_days_of_month(m));
    fill_air(weather, site->months, &made);
    fill_range(&made);
    fill_extremes(&made);
    free(suns);
    *plane = made;
    return WB_OK;
}

void wb_plane_hours_free(WbPlaneHours *plane)
{
    free(plane->plane_w_m2);
    free(plane->air_c);
    free(plane->low_light);
    free(plane->day_air_c);
    *plane = (WbPlaneHours){0};
}
