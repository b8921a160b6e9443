/* What does a panel meet, hour by hour, under made-up weather and a person's own? */
#include "almanac.h"
#include "part.h"
#include "radiation.h"
#include "sun.h"
#include "weather.h"
#include <glib.h>
#include <math.h>
#include <stdlib.h>

static double rad(double degrees)
{
    return degrees * WB_RAD_PER_DEG;
}

static WbSite site_at(double latitude_deg, double longitude_deg)
{
    WbSite site = {.place = {.name = "Somewhere",
                             .latitude_deg = latitude_deg,
                             .longitude_deg = longitude_deg},
                   .months = 0xfff,
                   .ground_albedo = 0.2,
                   .azimuth_deg = NAN};
    for (int m = 0; m < WB_MONTHS; m++) {
        site.place.air_mean_c[m] = m;
        site.place.air_max_c[m] = m + 5;
        site.place.air_min_c[m] = m - 5;
    }
    return site;
}

/* Rows of a person's own: 60 % of what the sun sends at this longitude's clock, diffuse not told;
 * air counts up through the year. */
typedef struct {
    double *global, *diffuse, *air;
    WbHours hours;
} Own;

static Own own_hours(double latitude_deg, double shift_h, int n_years)
{
    size_t n = (size_t)n_years * WB_YEAR_HOURS;
    Own own = {g_new(double, n), g_new(double, n), g_new(double, n), {.n_years = n_years}};
    for (size_t i = 0; i < n; i++) {
        int day = (int)(i / WB_HOURS % WB_YEAR_DAYS);
        double solar_h = (double)(i % WB_HOURS) + 0.5 + shift_h;
        WbDirection sun = wb_sun_direction(rad(latitude_deg), wb_declination_rad(day + 1),
                                           wb_hour_angle_rad(solar_h));
        own.global[i] = 820 * fmax(0, sun.up);
        own.diffuse[i] = WB_MISSING;
        own.air[i] = (double)(i % WB_YEAR_HOURS) / 1000;
    }
    own.hours.global_w_m2 = own.global;
    own.hours.diffuse_w_m2 = own.diffuse;
    own.hours.air_c = own.air;
    return own;
}

static void free_own(Own *own)
{
    g_free(own->global);
    g_free(own->diffuse);
    g_free(own->air);
}

static WbWeather weather_at(const WbSite *site, int n_years)
{
    WbWeather weather;
    Own own = own_hours(site->place.latitude_deg, 0, n_years);
    own.hours.utc_offset_h = site->place.longitude_deg / 15;
    g_assert_cmpint(wb_weather_own(&site->place, &own.hours, &weather), ==, WB_OK);
    free_own(&own);
    return weather;
}

static void test_calendar(void)
{
    int day = 0;
    for (int month = 0; month < WB_MONTHS; month++) {
        g_assert_cmpint(wb_first_day_of_month(month), ==, day);
        g_assert_cmpint(wb_days_of_month(month), ==,
                        g_date_get_days_in_month((GDateMonth)(month + 1), 2022));
        for (int d = 0; d < wb_days_of_month(month); d++)
            g_assert_cmpint(wb_month_of_day(day++), ==, month);
    }
    g_assert_cmpint(day, ==, WB_YEAR_DAYS);
}

/* Solar time is the clock's less its offset, plus longitude and the equation of time; the date line
 * does not matter. */
static void test_shift(void)
{
    static const struct {
        double longitude_deg, utc_offset_h, mean_shift_h;
    } rows[] = {{0, 0, 0},
                {15, 1, 0},
                {-104.65, -7, 7 - 104.65 / 15},
                {7.5, 2, -1.5},
                {179, -12, -1 / 15.0},
                {-176, 13, 184 / 15.0 - 13},
                {100, NAN, 100 / 15.0 - 7}};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        WbSite site = site_at(30, rows[i].longitude_deg);
        Own own = own_hours(30, 0, 1);
        WbWeather weather;
        own.hours.utc_offset_h = rows[i].utc_offset_h;
        g_assert_cmpint(wb_weather_own(&site.place, &own.hours, &weather), ==, WB_OK);
        for (int d = 0; d < WB_YEAR_DAYS; d += 13) {
            double noon = wb_julian_day(2022, 1, 1 + d, 12 - rows[i].longitude_deg / 15);
            double equation_h = wb_sun_coordinates(noon).equation_of_time_h;
            g_assert_cmpfloat_with_epsilon(weather.solar_shift_h[d],
                                           rows[i].mean_shift_h + equation_h, 1e-4);
        }
        wb_weather_free(&weather);
        free_own(&own);
    }
}

/* Diffuse share at 45 N, 0 E by the sun in the middle of an hour UTC. */
static double erbs_at_45(double global_w_m2, int hour_of_year)
{
    WbObserver observer = {45, 0, 0, WB_MISSING, 10};
    double moment =
        wb_julian_day(2022, 1, 1 + hour_of_year / WB_HOURS, hour_of_year % WB_HOURS + 0.5);
    WbSunCoordinates sun = wb_sun_coordinates(moment);
    double up = cos(wb_sun_position(&observer, moment).true_zenith_rad);
    return wb_erbs_hour(global_w_m2 / (1367 * wb_sun_factor(&sun) * up));
}

static void test_own_hours_fill_what_is_missing(void)
{
    WbSite site = site_at(45, 0);
    Own own = own_hours(45, 0, 2);
    WbWeather weather;
    own.diffuse[12] = 30;
    own.diffuse[13] = own.global[13] + 40;
    for (int h = 0; h < WB_HOURS; h++)
        own.air[31 * WB_HOURS + h] = WB_MISSING;
    g_assert_cmpint(wb_weather_own(&site.place, &own.hours, &weather), ==, WB_OK);
    g_assert_cmpfloat(weather.diffuse_w_m2[12], ==, 30);
    g_assert_cmpfloat(weather.diffuse_w_m2[13], ==, own.global[13]);
    for (size_t i = 0; i < 2 * WB_YEAR_HOURS; i++) {
        g_assert_cmpfloat(weather.global_w_m2[i], ==, own.global[i]);
        g_assert_cmpfloat(weather.diffuse_w_m2[i], <=, weather.global_w_m2[i]);
        if (i % WB_HOURS == 11)
            g_assert_cmpfloat_with_epsilon(weather.diffuse_w_m2[i] / own.global[i],
                                           erbs_at_45(own.global[i], (int)(i % WB_YEAR_HOURS)),
                                           0.01);
    }
    double sum = 0;
    for (int h = 0; h < WB_HOURS; h++) {
        g_assert_cmpfloat(weather.air_c[31 * WB_HOURS + h], >=, 1 - 5);
        g_assert_cmpfloat(weather.air_c[31 * WB_HOURS + h], <=, 1 + 5);
        sum += weather.air_c[31 * WB_HOURS + h];
    }
    g_assert_cmpfloat_with_epsilon(sum / WB_HOURS, 1, 0.1);
    g_assert_cmpfloat(weather.air_c[32 * WB_HOURS], ==, own.air[32 * WB_HOURS]);
    g_assert_cmpfloat_with_epsilon(wb_light_middle_h(&weather), 12, 0.05);
    wb_weather_free(&weather);
    free_own(&own);
}

static void test_own_hours_refused(void)
{
    WbSite good = site_at(45, 0), north = site_at(90.5, 0), east = site_at(0, 181), cold = good;
    WbWeather weather = {.n_years = -7};
    Own own = own_hours(45, 0, 1);
    cold.place.air_mean_c[3] = NAN;
    g_assert_cmpint(wb_weather_own(&north.place, &own.hours, &weather), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_weather_own(&east.place, &own.hours, &weather), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_weather_own(&cold.place, &own.hours, &weather), ==, WB_BAD_INPUT);
    own.hours.utc_offset_h = 15;
    g_assert_cmpint(wb_weather_own(&good.place, &own.hours, &weather), ==, WB_BAD_INPUT);
    own.hours.utc_offset_h = 0;
    own.hours.n_years = 101;
    g_assert_cmpint(wb_weather_own(&good.place, &own.hours, &weather), ==, WB_BAD_INPUT);
    own.hours.n_years = 1;
    for (gsize i = 0; i < 3; i++) {
        own.global[5000] = (double[]){-1, NAN, INFINITY}[i];
        g_assert_cmpint(wb_weather_own(&good.place, &own.hours, &weather), ==, WB_BAD_INPUT);
    }
    g_assert_cmpint(weather.n_years, ==, -7);
    free_own(&own);
}

/* Flat, no losses: the weather itself; its measures of light and air as the header says. */
static void test_flat(void)
{
    WbSite site = site_at(48, 11);
    WbWeather weather = weather_at(&site, 2);
    WbPlaneHours plane;
    site.months = 1u << 2 | 1u << 4;
    g_assert_cmpint(wb_plane_hours(&site, &weather, &plane), ==, WB_OK);
    g_assert_cmpint(plane.n_years, ==, 2);
    for (size_t i = 0; i < 2 * WB_YEAR_HOURS; i++) {
        double w_m2 = plane.plane_w_m2[i];
        double global = weather.global_w_m2[i];
        g_assert_cmpfloat_with_epsilon(w_m2, global < 0.1 ? 0 : global, 1e-9);
        g_assert_cmpfloat(plane.air_c[i], ==, weather.air_c[i]);
        double low = w_m2 > 0 ? fmax(0, log(1000 / w_m2) / log(5)) : 0;
        g_assert_cmpfloat_with_epsilon(plane.low_light[i], low, 1e-9);
    }
    /* air counts up 0.001 an hour through a year */
    g_assert_cmpfloat_with_epsilon(plane.day_air_c[100], 2.4 + 0.0115, 1e-9);
    g_assert_cmpfloat_with_epsilon(plane.day_air_c[WB_YEAR_DAYS + 100], 2.4 + 0.0115, 1e-9);
    int last_hour_of_may = (wb_first_day_of_month(5)) * WB_HOURS - 1;
    g_assert_cmpfloat(plane.hottest_air_c, ==, last_hour_of_may / 1000.0);
    wb_plane_hours_free(&plane);
    wb_weather_free(&weather);
}

/* The ranges hold every hour with light, and are met. */
static void test_ranges(void)
{
    WbSite site = site_at(55, -3);
    WbWeather weather = weather_at(&site, 2);
    WbPlaneHours plane;
    site.tilt_deg = 20;
    g_assert_cmpint(wb_plane_hours(&site, &weather, &plane), ==, WB_OK);
    bool met[4] = {false};
    for (size_t i = 0; i < 2 * WB_YEAR_HOURS; i++) {
        if (plane.plane_w_m2[i] <= 0)
            continue;
        g_assert_true(plane.air_c[i] >= plane.sun_air_min_c &&
                      plane.air_c[i] <= plane.sun_air_max_c);
        g_assert_true(plane.plane_w_m2[i] <= plane.plane_max_w_m2 &&
                      plane.low_light[i] <= plane.low_light_max);
        met[0] |= plane.air_c[i] == plane.sun_air_min_c;
        met[1] |= plane.air_c[i] == plane.sun_air_max_c;
        met[2] |= plane.plane_w_m2[i] == plane.plane_max_w_m2;
        met[3] |= plane.low_light[i] == plane.low_light_max;
    }
    g_assert_true(met[0] && met[1] && met[2] && met[3]);
    g_assert_cmpfloat(plane.low_light_max, <, 5.8);
    wb_plane_hours_free(&plane);
    for (int m = 0; m < WB_MONTHS; m++)
        site.shading_loss[m] = 1;
    g_assert_cmpint(wb_plane_hours(&site, &weather, &plane), ==, WB_OK);
    g_assert_true(plane.sun_air_min_c == 0 && plane.sun_air_max_c == 0 &&
                  plane.plane_max_w_m2 == 0 && plane.low_light_max == 0);
    wb_plane_hours_free(&plane);
    wb_weather_free(&weather);
}

static void test_losses_by_month(void)
{
    WbSite site = site_at(-35, 150), lossy;
    WbWeather weather = weather_at(&site, 1);
    WbPlaneHours clean, dirty;
    site.tilt_deg = 35;
    site.azimuth_deg = 0;
    lossy = site;
    lossy.soiling_loss = 0.04;
    lossy.shading_loss[5] = 0.5;
    lossy.shading_loss[6] = 1;
    g_assert_cmpint(wb_plane_hours(&site, &weather, &clean), ==, WB_OK);
    g_assert_cmpint(wb_plane_hours(&lossy, &weather, &dirty), ==, WB_OK);
    for (int i = 0; i < WB_YEAR_HOURS; i++) {
        int month = wb_month_of_day(i / WB_HOURS);
        double kept = clean.plane_w_m2[i] * 0.96 * (1 - lossy.shading_loss[month]);
        g_assert_cmpfloat_with_epsilon(dirty.plane_w_m2[i], kept < 0.1 ? 0 : kept, 1e-9);
    }
    g_assert_cmpfloat(dirty.plane_kwh_m2_day[6], ==, 0);
    g_assert_cmpfloat_with_epsilon(dirty.plane_kwh_m2_day[5], 0.48 * clean.plane_kwh_m2_day[5],
                                   1e-5);
    wb_plane_hours_free(&clean);
    wb_plane_hours_free(&dirty);
    wb_weather_free(&weather);
}

/* Each hour again by the almanac and the plain formula, where the sun is up all hour. */
static void test_against_single_hours(void)
{
    WbSite site = site_at(52, 5);
    WbWeather weather = weather_at(&site, 1);
    WbPlaneHours plane;
    site.tilt_deg = 60;
    site.azimuth_deg = 200;
    g_assert_cmpint(wb_plane_hours(&site, &weather, &plane), ==, WB_OK);
    int compared = 0;
    for (int i = 0; i < WB_YEAR_HOURS; i += 7) {
        double utc_h = i % WB_HOURS + 0.5 - 5 / 15.0;
        double moment = wb_julian_day(2022, 1, 1 + i / WB_HOURS, utc_h);
        WbObserver observer = {52, 5, 0, WB_MISSING, 10};
        WbSunPosition sun = wb_sun_position(&observer, moment);
        if (sun.true_zenith_rad > rad(80))
            continue;
        WbSunCoordinates far = wb_sun_coordinates(moment);
        double cos_zenith = cos(sun.true_zenith_rad);
        WbHorizontal on = {weather.global_w_m2[i] - weather.diffuse_w_m2[i],
                           weather.diffuse_w_m2[i], 1367 * wb_sun_factor(&far) * cos_zenith};
        WbTilted tilted = {rad(60), cos(wb_sun_incidence_rad(&sun, rad(60), rad(200))), cos_zenith,
                           0.2};
        g_assert_cmpfloat_with_epsilon(plane.plane_w_m2[i], wb_plane_perez(&on, &tilted),
                                       0.01 * plane.plane_w_m2[i] + 2);
        compared++;
    }
    g_assert_cmpint(compared, >, 400);
    wb_plane_hours_free(&plane);
    wb_weather_free(&weather);
}

/* North and south half a year apart see the same, but for the distance of the sun. */
static void test_hemispheres(void)
{
    WbSite north = site_at(40, 0), south = site_at(-40, 0);
    WbWeather north_weather = weather_at(&north, 1), south_weather = weather_at(&south, 1);
    WbPlaneHours north_plane, south_plane;
    north.tilt_deg = south.tilt_deg = 40;
    north.azimuth_deg = 180;
    south.azimuth_deg = 0;
    g_assert_cmpint(wb_plane_hours(&north, &north_weather, &north_plane), ==, WB_OK);
    g_assert_cmpint(wb_plane_hours(&south, &south_weather, &south_plane), ==, WB_OK);
    for (int m = 0; m < WB_MONTHS; m++)
        g_assert_cmpfloat_with_epsilon(north_plane.plane_kwh_m2_day[m],
                                       south_plane.plane_kwh_m2_day[(m + 6) % 12],
                                       0.08 * north_plane.plane_kwh_m2_day[m]);
    wb_plane_hours_free(&north_plane);
    wb_plane_hours_free(&south_plane);
    wb_weather_free(&north_weather);
    wb_weather_free(&south_weather);
}

/* Every latitude, tilt and clock gives finite light, none of it in the polar night. */
static void test_everywhere(void)
{
    for (int latitude = -90; latitude <= 90; latitude += 15)
        for (int shift = -11; shift <= 12; shift += 5) {
            WbSite site = site_at(latitude, 180 - latitude);
            if (site.place.longitude_deg > 180)
                site.place.longitude_deg -= 360;
            WbWeather weather;
            Own own = own_hours(latitude, shift, 1);
            own.hours.utc_offset_h = shift;
            g_assert_cmpint(wb_weather_own(&site.place, &own.hours, &weather), ==, WB_OK);
            site.tilt_deg = 30 + shift * 5;
            WbPlaneHours plane;
            site.tilt_deg = fmax(0, fmin(90, site.tilt_deg));
            g_assert_cmpint(wb_plane_hours(&site, &weather, &plane), ==, WB_OK);
            for (int i = 0; i < WB_YEAR_HOURS; i++) {
                g_assert_true(isfinite(plane.plane_w_m2[i]) && plane.plane_w_m2[i] >= 0);
                g_assert_cmpfloat(plane.plane_w_m2[i], <, 2500);
            }
            if (latitude >= 75)
                g_assert_cmpfloat(plane.plane_kwh_m2_day[11], ==, 0);
            if (latitude <= -75)
                g_assert_cmpfloat(plane.plane_kwh_m2_day[5], ==, 0);
            wb_plane_hours_free(&plane);
            wb_weather_free(&weather);
            free_own(&own);
        }
}

static void test_refused(void)
{
    WbSite good = site_at(40, 0);
    WbWeather weather = weather_at(&good, 1);
    WbPlaneHours plane;
    struct {
        double *figure, bad;
    } rows[] = {
        {&good.place.latitude_deg, 95},
        {&good.place.latitude_deg, NAN},
        {&good.place.longitude_deg, -181},
        {&good.tilt_deg, -1},
        {&good.tilt_deg, 91},
        {&good.tilt_deg, NAN},
        {&good.azimuth_deg, INFINITY},
        {&good.ground_albedo, 1.5},
        {&good.soiling_loss, -0.1},
        {&good.shading_loss[7], NAN},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        double kept = *rows[i].figure;
        *rows[i].figure = rows[i].bad;
        g_assert_cmpint(wb_plane_hours(&good, &weather, &plane), ==, WB_BAD_INPUT);
        *rows[i].figure = kept;
    }
    weather.n_years = 0;
    g_assert_cmpint(wb_plane_hours(&good, &weather, &plane), ==, WB_BAD_INPUT);
    wb_weather_free(&weather);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/plane-hours/calendar", test_calendar);
    g_test_add_func("/plane-hours/shift", test_shift);
    g_test_add_func("/plane-hours/own-filled", test_own_hours_fill_what_is_missing);
    g_test_add_func("/plane-hours/own-refused", test_own_hours_refused);
    g_test_add_func("/plane-hours/flat", test_flat);
    g_test_add_func("/plane-hours/ranges", test_ranges);
    g_test_add_func("/plane-hours/losses", test_losses_by_month);
    g_test_add_func("/plane-hours/single-hours", test_against_single_hours);
    g_test_add_func("/plane-hours/hemispheres", test_hemispheres);
    g_test_add_func("/plane-hours/everywhere", test_everywhere);
    g_test_add_func("/plane-hours/refused", test_refused);
    return g_test_run();
}
