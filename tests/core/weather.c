/* Is made weather like weather? Its means, its spread, its persistence, what it does to a bank and
 * to a tilted plane. */
#include "weather.h"
#include "almanac.h"
#include "daily_balance.h"
#include "debilt.h"
#include "random.h"
#include "sun.h"
#include <glib.h>
#include <math.h>
#include <string.h>

#define SUN_YEAR 2022 /* whose declinations made weather takes */

static WbPlace place_at(double latitude_deg)
{
    WbPlace place = {.latitude_deg = latitude_deg};
    for (int m = 0; m < WB_MONTHS; m++) {
        place.air_mean_c[m] = 9.5 + 3 * m;
        place.air_max_c[m] = 14.5 + 3 * m;
        place.air_min_c[m] = 5 + 3 * m;
    }
    return place;
}

/* Outside the atmosphere, kWh/m2, worked out apart from the program's hours. */
static double outside_kwh_m2(const WbPlace *place, int day)
{
    WbSunCoordinates sun =
        wb_sun_coordinates(wb_julian_day(SUN_YEAR, 1, 1 + day, 12 - place->longitude_deg / 15));
    double latitude = place->latitude_deg * WB_RAD_PER_DEG, decl = sun.declination_rad;
    double ws = wb_sunset_rad(latitude, decl);
    double mean = cos(latitude) * cos(decl) * sin(ws) + ws * sin(latitude) * sin(decl);
    return 24 / WB_PI * WB_SOLAR_CONSTANT_W_M2 / 1000 * wb_sun_factor(&sun) * mean;
}

static double month_outside_kwh_m2(const WbPlace *place, int month)
{
    double sum = 0;
    for (int d = 0; d < wb_days_of_month(month); d++)
        sum += outside_kwh_m2(place, wb_first_day_of_month(month) + d);
    return sum / wb_days_of_month(month);
}

static WbWeather made(const WbPlace *place, int years, uint64_t seed)
{
    WbWeather weather;
    g_assert_cmpint(wb_weather_make(place, years, seed, &weather), ==, WB_OK);
    g_assert_cmpint(weather.n_years, ==, years);
    return weather;
}

static double day_kwh_m2(const WbWeather *weather, int d)
{
    double sum = 0;
    for (int h = 0; h < WB_HOURS; h++)
        sum += weather->global_w_m2[d * WB_HOURS + h];
    return sum / 1000;
}

static double *days_of(const WbWeather *weather)
{
    double *days = g_new(double, (gsize)weather->n_years *WB_YEAR_DAYS);
    for (int d = 0; d < weather->n_years * WB_YEAR_DAYS; d++)
        days[d] = day_kwh_m2(weather, d);
    return days;
}

/* ---- sane in every hour -------------------------------------------------------------------- */

static void assert_hours_can_be(const WbWeather *weather)
{
    for (int i = 0; i < weather->n_years * WB_YEAR_HOURS; i++) {
        double global = weather->global_w_m2[i], diffuse = weather->diffuse_w_m2[i];
        g_assert_true(global >= 0 && global < 1367 * 1.035);
        g_assert_true(diffuse >= 0 && diffuse <= global);
        g_assert_true(isfinite(weather->air_c[i]));
    }
    for (int d = 0; d < WB_YEAR_DAYS; d++)
        g_assert_cmpfloat(weather->solar_shift_h[d], ==, 0);
}

static void assert_days_can_be(const WbPlace *place, const WbWeather *weather)
{
    for (int d = 0; d < WB_YEAR_DAYS; d++) {
        double outside = outside_kwh_m2(place, d);
        for (int year = 0; year < weather->n_years; year++)
            g_assert_cmpfloat(day_kwh_m2(weather, year * WB_YEAR_DAYS + d), <=, outside + 1e-9);
    }
}

static double air_month_c(const WbWeather *weather, int month)
{
    double sum = 0;
    int first = wb_first_day_of_month(month) * WB_HOURS, n = wb_days_of_month(month) * WB_HOURS;
    for (int year = 0; year < weather->n_years; year++)
        for (int i = first; i < first + n; i++)
            sum += weather->air_c[year * WB_YEAR_HOURS + i];
    return sum / (weather->n_years * n);
}

static void assert_means_kept(const WbPlace *place, const WbWeather *weather)
{
    g_autofree double *days = days_of(weather);
    double months[WB_MONTHS];
    debilt_months_kwh_m2(days, weather->n_years, months);
    for (int m = 0; m < WB_MONTHS; m++) {
        g_assert_cmpfloat_with_epsilon(months[m], place->ghi_kwh_m2_day[m],
                                       1e-6 * place->ghi_kwh_m2_day[m]);
        g_assert_cmpfloat_with_epsilon(air_month_c(weather, m), place->air_mean_c[m], 1e-6);
    }
}

/* Both hemispheres, dull and bright, few and many years: the twelve means come out. */
static void test_means_kept(void)
{
    WbRandom random;
    wb_random_seed(&random, 20250101);
    for (int trial = 0; trial < 150; trial++) {
        WbPlace place = place_at(-60 + 120 * wb_random_unit(&random));
        place.longitude_deg = -180 + 360 * wb_random_unit(&random);
        for (int m = 0; m < WB_MONTHS; m++)
            place.ghi_kwh_m2_day[m] =
                month_outside_kwh_m2(&place, m) * (0.12 + 0.68 * wb_random_unit(&random));
        WbWeather weather = made(&place, 1 + trial % 4, (uint64_t)trial);
        assert_hours_can_be(&weather);
        assert_days_can_be(&place, &weather);
        assert_means_kept(&place, &weather);
        wb_weather_free(&weather);
    }
}

/* From pole to pole with means no sky can give, or none at all: never more than the sun brings, no
 * light in the polar night, and as much of the mean as can be. */
static void test_poles_and_impossible_means(void)
{
    static const double ghi[] = {0, 1e-6, 0.02, 0.4, 3, 9, 40};
    for (double latitude = -90; latitude <= 90; latitude += 7.5) {
        for (gsize g = 0; g < G_N_ELEMENTS(ghi); g++) {
            WbPlace place = place_at(latitude);
            for (int m = 0; m < WB_MONTHS; m++)
                place.ghi_kwh_m2_day[m] = ghi[g];
            WbWeather weather = made(&place, 2, 5);
            assert_hours_can_be(&weather);
            assert_days_can_be(&place, &weather);
            g_autofree double *days = days_of(&weather);
            double months[WB_MONTHS];
            debilt_months_kwh_m2(days, 2, months);
            for (int m = 0; m < WB_MONTHS; m++)
                g_assert_cmpfloat_with_epsilon(
                    months[m], fmin(ghi[g], month_outside_kwh_m2(&place, m)), 1e-6 * ghi[g] + 1e-9);
            wb_weather_free(&weather);
        }
    }
}

static bool same(const WbWeather *a, const WbWeather *b)
{
    gsize n = sizeof(double) * (gsize)a->n_years * WB_YEAR_HOURS;
    return memcmp(a->global_w_m2, b->global_w_m2, n) == 0 &&
           memcmp(a->diffuse_w_m2, b->diffuse_w_m2, n) == 0 && memcmp(a->air_c, b->air_c, n) == 0;
}

static WbPlace debilt_place(void)
{
    WbPlace place = place_at(DEBILT_LATITUDE_DEG);
    place.longitude_deg = DEBILT_LONGITUDE_DEG;
    g_autofree double *days = debilt_days_kwh_m2();
    debilt_months_kwh_m2(days, DEBILT_YEARS, place.ghi_kwh_m2_day);
    return place;
}

static void test_seeds(void)
{
    WbPlace place = debilt_place();
    WbWeather one = made(&place, 3, 1), again = made(&place, 3, 1), other = made(&place, 3, 2);
    g_assert_true(same(&one, &again));
    g_assert_false(same(&one, &other));
    wb_weather_free(&one);
    wb_weather_free(&again);
    wb_weather_free(&other);
}

/* ---- against thirty years of measurement ---------------------------------------------------- */

/* Daily clearness of one calendar month: n_years x days of the month. */
static double *clearness_of_month(const double *days, int n_years, int month)
{
    WbPlace place = debilt_place();
    int first = wb_first_day_of_month(month), n = wb_days_of_month(month);
    double *clearness = g_new(double, n_years *n);
    for (int d = 0; d < n; d++)
        for (int year = 0; year < n_years; year++)
            clearness[year * n + d] =
                days[year * WB_YEAR_DAYS + first + d] / outside_kwh_m2(&place, first + d);
    return clearness;
}

static double next_day_correlation(const double *value, int n_years, int n)
{
    double mean = 0, square = 0, product = 0;
    for (int i = 0; i < n_years * n; i++)
        mean += value[i] / (n_years * n);
    for (int i = 0; i < n_years * n; i++) {
        square += (value[i] - mean) * (value[i] - mean);
        if (i % n > 0)
            product += (value[i] - mean) * (value[i - 1] - mean);
    }
    return product / square * n / (n - 1);
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Kolmogorov's distance of two samples; sorts them. */
static double distance(double *a, int n_a, double *b, int n_b)
{
    qsort(a, (size_t)n_a, sizeof *a, by_size);
    qsort(b, (size_t)n_b, sizeof *b, by_size);
    double most = 0;
    for (int i = 0, j = 0; i < n_a && j < n_b;) {
        if (a[i] <= b[j])
            i++;
        else
            j++;
        most = fmax(most, fabs((double)i / n_a - (double)j / n_b));
    }
    return most;
}

/* Standard deviation of the month's mean from year to year, as a share of the mean. */
static double year_to_year(const double *clearness, int n_years, int n)
{
    double mean = 0, square = 0;
    for (int i = 0; i < n_years * n; i++)
        mean += clearness[i] / (n_years * n);
    for (int year = 0; year < n_years; year++) {
        double month = 0;
        for (int d = 0; d < n; d++)
            month += clearness[year * n + d] / n;
        square += (month - mean) * (month - mean) / n_years;
    }
    return sqrt(square) / mean;
}

/* No figure of the method was fitted to this place. Bendt's distribution, which knows only the
 * mean, is too wide for its summers; the bounds tell when that gets worse. */
static void test_debilt_days(void)
{
    enum { YEARS = 100 };
    WbPlace place = debilt_place();
    WbWeather weather = made(&place, YEARS, 1);
    g_autofree double *measured = debilt_days_kwh_m2(), *days = days_of(&weather);
    double apart = 0, spread = 0, spread_measured = 0;
    for (int m = 0; m < WB_MONTHS; m++) {
        int n = wb_days_of_month(m);
        g_autofree double *theirs = clearness_of_month(measured, DEBILT_YEARS, m);
        g_autofree double *ours = clearness_of_month(days, YEARS, m);
        double r_theirs = next_day_correlation(theirs, DEBILT_YEARS, n);
        double r_ours = next_day_correlation(ours, YEARS, n);
        double v_theirs = year_to_year(theirs, DEBILT_YEARS, n), v = year_to_year(ours, YEARS, n);
        double d = distance(theirs, DEBILT_YEARS * n, ours, YEARS * n);
        g_test_message("De Bilt month %2d: Kolmogorov %.3f; next day %.2f, measured %.2f; month "
                       "from year to year %.1f %%, measured %.1f %%",
                       m + 1, d, r_ours, r_theirs, 100 * v, 100 * v_theirs);
        g_assert_cmpfloat(d, <, 0.15);
        g_assert_cmpfloat_with_epsilon(r_ours, r_theirs, 0.15);
        g_assert_cmpfloat_with_epsilon(r_ours, 0.28, 0.05);
        apart += d / WB_MONTHS, spread += v / WB_MONTHS, spread_measured += v_theirs / WB_MONTHS;
    }
    g_test_message("De Bilt: mean Kolmogorov %.3f; year to year %.1f %%, measured %.1f %%", apart,
                   100 * spread, 100 * spread_measured);
    g_assert_cmpfloat(apart, <, 0.08);
    g_assert_cmpfloat_with_epsilon(spread / spread_measured, 1, 0.2);
    wb_weather_free(&weather);
}

#define BLOCKS 12
#define N_ARRAYS 3
#define N_BANKS 5
static const double arrays[N_ARRAYS] = {1.0, 1.2, 1.5}, banks[N_BANKS] = {1, 2, 3, 5, 10};

static void losses(const double *days, double loss[N_ARRAYS][N_BANKS])
{
    double worst = debilt_worst_month_kwh_m2(days, DEBILT_YEARS);
    for (int a = 0; a < N_ARRAYS; a++)
        for (int b = 0; b < N_BANKS; b++)
            g_assert_cmpint(
                wb_loss_of_load_daily(DEBILT_DAYS, days, worst, arrays[a], banks[b], &loss[a][b]),
                ==, WB_OK);
}

/* Loss of load by days, as measured and as made: within a factor of 1.5 where the measured one is
 * 0.005 or more; the rarer ones told beside the spread of made blocks of as many years. */
static void test_debilt_loss_of_load(void)
{
    WbPlace place = debilt_place();
    g_autofree double *measured = debilt_days_kwh_m2();
    double theirs[N_ARRAYS][N_BANKS], ours[BLOCKS][N_ARRAYS][N_BANKS];
    losses(measured, theirs);
    for (int block = 0; block < BLOCKS; block++) {
        WbWeather weather = made(&place, DEBILT_YEARS, (uint64_t)block + 1);
        g_autofree double *days = days_of(&weather);
        losses(days, ours[block]);
        wb_weather_free(&weather);
    }
    int judged = 0;
    for (int a = 0; a < N_ARRAYS; a++) {
        for (int b = 0; b < N_BANKS; b++) {
            double mean = 0, least = 1, most = 0, is = theirs[a][b];
            for (int block = 0; block < BLOCKS; block++) {
                mean += ours[block][a][b] / BLOCKS;
                least = fmin(least, ours[block][a][b]);
                most = fmax(most, ours[block][a][b]);
            }
            g_test_message("De Bilt, array %.1f, bank %2.0f: measured %.5f, made %.5f, blocks "
                           "%.5f..%.5f",
                           arrays[a], banks[b], is, mean, least, most);
            if (is < 0.005)
                continue;
            judged++;
            g_assert_cmpfloat(mean, <, 1.5 * is);
            g_assert_cmpfloat(mean, >, is / 1.5);
        }
    }
    g_assert_cmpint(judged, ==, 7);
}

/* ---- on a tilted plane ---------------------------------------------------------------------- */

enum { PLACE, LATITUDE, TILT, AZIMUTH, QUANTITY, FIRST_MONTH }; /* columns of tilt.csv */

typedef struct {
    int rows, near, far, months_off;
} Tally;

static double of_year(const double months[WB_MONTHS])
{
    double sum = 0;
    for (int m = 0; m < WB_MONTHS; m++)
        sum += months[m] * wb_days_of_month(m);
    return sum;
}

static bool is_dark(int month, double latitude_deg)
{
    return latitude_deg >= 0 ? month <= 1 || month >= 10 : month >= 4 && month <= 7;
}

static void compare_plane(const WbPlace *place, const WbWeather *weather, char **cell, Tally *tally)
{
    double reference[WB_MONTHS];
    for (int m = 0; m < WB_MONTHS; m++)
        reference[m] = g_ascii_strtod(cell[FIRST_MONTH + m], NULL);
    WbSite site = {.place = *place,
                   .months = 0xfff,
                   .ground_albedo = 0.2,
                   .tilt_deg = g_ascii_strtod(cell[TILT], NULL),
                   .azimuth_deg = g_ascii_strtod(cell[AZIMUTH], NULL)};
    WbPlaneHours plane;
    g_assert_cmpint(wb_plane_hours(&site, weather, &plane), ==, WB_OK);
    double off = of_year(plane.plane_kwh_m2_day) / of_year(reference) - 1, worst = 0;
    for (int m = 0; m < WB_MONTHS; m++) {
        double month = plane.plane_kwh_m2_day[m] / reference[m] - 1;
        worst = fabs(month) > fabs(worst) ? month : worst;
        tally->months_off += fabs(month) > (is_dark(m, place->latitude_deg) ? 0.25 : 0.10);
    }
    g_test_message("%s, tilt %s: year %+.1f %%, worst month %+.1f %%", cell[PLACE], cell[TILT],
                   100 * off, 100 * worst);
    tally->rows++;
    tally->near += fabs(off) <= 0.03;
    tally->far += fabs(off) > 0.06;
    wb_plane_hours_free(&plane);
}

static void compare_file(const char *name, Tally *tally)
{
    g_autofree char *file = g_build_filename(g_getenv("WB_TEST_DATA"), name, NULL);
    g_autofree char *text = NULL;
    g_assert_true(g_file_get_contents(file, &text, NULL, NULL));
    g_auto(GStrv) line = g_strsplit(text, "\n", -1);
    WbPlace place = {0};
    WbWeather weather = {0};
    for (int i = 1; line[i] != NULL && *line[i]; i++) {
        g_auto(GStrv) cell = g_strsplit(line[i], ",", -1);
        g_assert_cmpuint(g_strv_length(cell), ==, FIRST_MONTH + WB_MONTHS + 3);
        if (strcmp(cell[QUANTITY], "horizontal") != 0) {
            compare_plane(&place, &weather, cell, tally);
            continue;
        }
        wb_weather_free(&weather);
        place = place_at(g_ascii_strtod(cell[LATITUDE], NULL));
        for (int m = 0; m < WB_MONTHS; m++)
            place.ghi_kwh_m2_day[m] = g_ascii_strtod(cell[FIRST_MONTH + m], NULL);
        weather = made(&place, 20, 1);
    }
    wb_weather_free(&weather);
}

/* Twelve monthly means of eight places against an independent hourly computation (not published):
 * 3 % a year in 20 of 24 rows, 6 % in all; 10 % a month, 25 % in the dark four. */
static void test_tilt(void)
{
    Tally tally = {0};
    compare_file("tilt.csv", &tally);
    compare_file("tilt_hourly.csv", &tally);
    g_test_message("%d of %d rows within 3 %% a year, %d months too far off", tally.near,
                   tally.rows, tally.months_off);
    g_assert_cmpint(tally.rows, ==, 24);
    g_assert_cmpint(tally.near, >=, 20);
    g_assert_cmpint(tally.far, ==, 0);
    g_assert_cmpint(tally.months_off, ==, 0);
}

/* ASHRAE 140-2020 Table B8-13 is made from hours with cloudy afternoons, of which the means know
 * nothing: told, and near. */
static void test_vertical_from_means(void)
{
    static const double ghi[WB_MONTHS] = {2.50, 3.17, 4.66, 4.79, 6.33, 7.27,
                                          6.72, 5.99, 5.18, 3.68, 2.46, 2.08};
    static const double range[5][4] = {{0, 0, 1663, 1670},
                                       {90, 0, 399, 477},
                                       {90, 90, 1017, 1068},
                                       {90, 180, 1291, 1387},
                                       {90, 270, 903, 997}};
    WbSite site = {.place = place_at(39.833), .months = 0xfff, .ground_albedo = 0.2};
    site.place.longitude_deg = -104.65;
    memcpy(site.place.ghi_kwh_m2_day, ghi, sizeof ghi);
    WbWeather weather = made(&site.place, 20, 1);
    for (gsize i = 0; i < G_N_ELEMENTS(range); i++) {
        WbPlaneHours plane;
        site.tilt_deg = range[i][0];
        site.azimuth_deg = range[i][1];
        g_assert_cmpint(wb_plane_hours(&site, &weather, &plane), ==, WB_OK);
        double year = of_year(plane.plane_kwh_m2_day);
        g_test_message("Denver from twelve means, tilt %.0f facing %.0f: %.0f kWh/m2, "
                       "ASHRAE 140-2020 %.0f..%.0f",
                       site.tilt_deg, site.azimuth_deg, year, range[i][2], range[i][3]);
        g_assert_cmpfloat(year, >=, 0.98 * range[i][2]);
        g_assert_cmpfloat(year, <=, 1.12 * range[i][3]);
        wb_plane_hours_free(&plane);
    }
    wb_weather_free(&weather);
}

/* ---- hours and air -------------------------------------------------------------------------- */

/* Clear hours are mostly beam, dull ones all diffuse, and a clear noon outshines a dull one. */
static void test_hours_by_clearness(void)
{
    WbPlace place = debilt_place();
    WbWeather weather = made(&place, 10, 3);
    double clear = 0, dull = 0;
    int n_clear = 0, n_dull = 0;
    for (int d = 0; d < 10 * WB_YEAR_DAYS; d++) {
        double k = day_kwh_m2(&weather, d) / outside_kwh_m2(&place, d % WB_YEAR_DAYS), global = 0,
               diffuse = 0;
        for (int h = 0; h < WB_HOURS; h++) {
            global += weather.global_w_m2[d * WB_HOURS + h];
            diffuse += weather.diffuse_w_m2[d * WB_HOURS + h];
        }
        if (k > 0.6)
            clear += diffuse / global, n_clear++;
        else if (k < 0.15)
            dull += diffuse / global, n_dull++;
    }
    g_assert_cmpfloat(clear / n_clear, <, 0.45);
    g_assert_cmpfloat(dull / n_dull, >, 0.95);
    wb_weather_free(&weather);
}

typedef struct {
    double swing_k, mean_c;
} AirDay;

static AirDay air_day(const WbWeather *weather, int d)
{
    double least = INFINITY, most = -INFINITY, sum = 0;
    for (int h = 0; h < WB_HOURS; h++) {
        double air = weather->air_c[d * WB_HOURS + h];
        least = fmin(least, air), most = fmax(most, air), sum += air;
    }
    return (AirDay){most - least, sum / WB_HOURS};
}

/* June: clear days swing more; days differ as Erbs, Klein & Beckman 1983 have it. */
static void test_air(void)
{
    enum { YEARS = 40, MONTH = 5 };
    WbPlace place = debilt_place();
    WbWeather weather = made(&place, YEARS, 4);
    double clear = 0, dull = 0, swing = 0, square = 0;
    int n_clear = 0, n_dull = 0, n = 0, first = wb_first_day_of_month(MONTH);
    for (int year = 0; year < YEARS; year++) {
        for (int day = first; day < first + wb_days_of_month(MONTH); day++) {
            int d = year * WB_YEAR_DAYS + day;
            AirDay air = air_day(&weather, d);
            double k = day_kwh_m2(&weather, d) / outside_kwh_m2(&place, day);
            if (k > 0.6)
                clear += air.swing_k, n_clear++;
            else if (k < 0.2)
                dull += air.swing_k, n_dull++;
            swing += air.swing_k, n++;
            square += pow(air.mean_c - place.air_mean_c[MONTH], 2);
        }
    }
    g_test_message("June: swing %.1f K on clear days, %.1f K on dull ones; days' means differ by "
                   "%.2f K",
                   clear / n_clear, dull / n_dull, sqrt(square / n));
    g_assert_cmpfloat_with_epsilon(swing / n, place.air_max_c[MONTH] - place.air_min_c[MONTH], 0.3);
    g_assert_cmpfloat(clear / n_clear, >, 1.8 * dull / n_dull);
    double yearly = 3 * sqrt(143.0 / 12); /* twelve steps of 3 K */
    double expected =
        0.534 * sqrt(30) * (1.45 - 0.0290 * place.air_mean_c[MONTH] + 0.0664 * yearly);
    g_assert_cmpfloat_with_epsilon(sqrt(square / n) / expected, 1, 0.1);
    wb_weather_free(&weather);
}

/* ---- bad input ------------------------------------------------------------------------------ */

static void test_bad_input(void)
{
    WbPlace good = debilt_place(), bad[8];
    for (gsize i = 0; i < G_N_ELEMENTS(bad); i++)
        bad[i] = good;
    bad[0].latitude_deg = 95;
    bad[1].latitude_deg = NAN;
    bad[2].longitude_deg = NAN;
    bad[3].ghi_kwh_m2_day[4] = -0.1;
    bad[4].ghi_kwh_m2_day[4] = NAN;
    bad[5].air_mean_c[0] = NAN;
    bad[6].air_max_c[0] = bad[6].air_min_c[0] - 1;
    bad[7].ghi_kwh_m2_day[0] = INFINITY;
    WbWeather untouched = {.n_years = 77};
    for (gsize i = 0; i < G_N_ELEMENTS(bad); i++)
        g_assert_cmpint(wb_weather_make(&bad[i], 1, 1, &untouched), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_weather_make(&good, 0, 1, &untouched), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_weather_make(&good, WB_MOST_WEATHER_YEARS + 1, 1, &untouched), ==,
                    WB_BAD_INPUT);
    g_assert_cmpint(untouched.n_years, ==, 77);
    g_assert_null(untouched.global_w_m2);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/weather/means-kept", test_means_kept);
    g_test_add_func("/weather/poles", test_poles_and_impossible_means);
    g_test_add_func("/weather/seeds", test_seeds);
    g_test_add_func("/weather/debilt-days", test_debilt_days);
    g_test_add_func("/weather/debilt-loss-of-load", test_debilt_loss_of_load);
    g_test_add_func("/weather/tilt", test_tilt);
    g_test_add_func("/weather/vertical-from-means", test_vertical_from_means);
    g_test_add_func("/weather/hours", test_hours_by_clearness);
    g_test_add_func("/weather/air", test_air);
    g_test_add_func("/weather/bad-input", test_bad_input);
    return g_test_run();
}
