/* What falls on the panel's plane, hour by hour, on the mean day of each month? */
#include "sky.h"
#include "published.h"
#include <string.h>

static const int days_in_month[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

/* A place that exists nowhere, with the same irradiation and air in every month. */
static WbSite even_site(double latitude_deg, double ghi_kwh_m2_day)
{
    WbSite site = {.months = 0xfff, .azimuth_deg = NAN, .ground_albedo = 0.2};
    site.place.latitude_deg = latitude_deg;
    for (int m = 0; m < WB_MONTHS; m++) {
        site.place.ghi_kwh_m2_day[m] = ghi_kwh_m2_day;
        site.place.air_mean_c[m] = 12;
        site.place.air_max_c[m] = 18;
        site.place.air_min_c[m] = 6;
    }
    return site;
}

static WbSky sky_of(const WbSite *site)
{
    WbSky sky;
    g_assert_cmpint(wb_sky(site, &sky), ==, WB_OK);
    return sky;
}

static double year_kwh_m2(const double day[WB_MONTHS])
{
    double sum = 0;
    for (int m = 0; m < WB_MONTHS; m++)
        sum += day[m] * days_in_month[m];
    return sum;
}

/* Columns of tests/published/tilt.csv. */
enum { PLACE, LATITUDE, TILT, AZIMUTH, QUANTITY, FIRST_MONTH };

static void read_months(char **cell, double months[WB_MONTHS])
{
    for (int m = 0; m < WB_MONTHS; m++)
        months[m] = g_ascii_strtod(cell[FIRST_MONTH + m], NULL);
}

/* An independent computation from hourly data: a monthly method promises 5 % a year, 10 % a month
 * and 25 % in dark months (below 2.5 kWh/m2 a day). */
static void compare_plane(WbSite *site, char **cell)
{
    double reference[WB_MONTHS];
    read_months(cell, reference);
    site->tilt_deg = g_ascii_strtod(cell[TILT], NULL);
    site->azimuth_deg = g_ascii_strtod(cell[AZIMUTH], NULL);
    WbSky sky = sky_of(site);
    double ratio = year_kwh_m2(sky.plane_kwh_m2_day) / year_kwh_m2(reference);
    g_test_message("%s, tilt %s: year %+.1f %%", cell[PLACE], cell[TILT], (ratio - 1) * 100);
    g_assert_cmpfloat_with_epsilon(ratio, 1, 0.05);
    for (int m = 0; m < WB_MONTHS; m++)
        g_assert_cmpfloat_with_epsilon(sky.plane_kwh_m2_day[m] / reference[m], 1,
                                       site->place.ghi_kwh_m2_day[m] < 2.5 ? 0.25 : 0.10);
}

static void test_tilt_against_hourly(void)
{
    const char *folder = g_getenv("WB_TEST_DATA"); /* set by tests/meson.build */
    g_assert_nonnull(folder);
    g_autofree char *file = g_build_filename(folder, "tilt.csv", NULL);
    g_autofree char *text = NULL;
    g_assert_true(g_file_get_contents(file, &text, NULL, NULL));
    g_auto(GStrv) line = g_strsplit(text, "\n", -1);
    int compared = 0;
    WbSite site = even_site(0, 0);
    for (int i = 1; line[i] != NULL && *line[i]; i++) {
        g_auto(GStrv) cell = g_strsplit(line[i], ",", -1);
        g_assert_cmpuint(g_strv_length(cell), ==, FIRST_MONTH + WB_MONTHS + 3);
        if (strcmp(cell[QUANTITY], "horizontal") == 0) {
            site.place.latitude_deg = g_ascii_strtod(cell[LATITUDE], NULL);
            read_months(cell, site.place.ghi_kwh_m2_day);
        } else {
            compare_plane(&site, cell);
            compared++;
        }
    }
    g_assert_cmpint(compared, ==, 12);
}

/* ASHRAE Standard 140-2020, Table B8-13: range of six reference simulations over the Denver file,
 * ground 0.2, kWh/m2 a year; vertical planes within the range +- 2 %. The monthly method knows no
 * morning from afternoon, so east and west must both fit the range of the two together. */
static void test_vertical_planes(void)
{
    static const double denver_ghi[WB_MONTHS] = {2.50, 3.17, 4.66, 4.79, 6.33, 7.27,
                                                 6.72, 5.99, 5.18, 3.68, 2.46, 2.08};
    static const struct {
        double tilt_deg, azimuth_deg, least, most;
    } rows[] = {{0, NAN, 1663, 1670},
                {90, 0, 399, 477},
                {90, 90, 903, 1068},
                {90, 180, 1291, 1387},
                {90, 270, 903, 1068}};
    WbSite site = even_site(39.833, 0);
    memcpy(site.place.ghi_kwh_m2_day, denver_ghi, sizeof denver_ghi);
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        site.tilt_deg = rows[i].tilt_deg;
        site.azimuth_deg = rows[i].azimuth_deg;
        WbSky sky = sky_of(&site);
        published("ASHRAE 140-2020 Table B8-13", year_kwh_m2(sky.plane_kwh_m2_day),
                  (rows[i].most + rows[i].least) / 2,
                  (rows[i].most - rows[i].least) / 2 + 0.02 * rows[i].most);
    }
}

static void assert_hours_are_sane(const WbSky *sky)
{
    for (int m = 0; m < WB_MONTHS; m++) {
        double sum = 0;
        for (int h = 0; h < WB_HOURS; h++) {
            g_assert_true(isfinite(sky->plane_w_m2[m][h]) && isfinite(sky->air_c[m][h]));
            g_assert_cmpfloat(sky->plane_w_m2[m][h], >=, 0);
            g_assert_cmpfloat(sky->dark_share[m][h], >=, 0);
            g_assert_cmpfloat(sky->dark_share[m][h], <=, 1);
            sum += sky->plane_w_m2[m][h] / 1000;
        }
        g_assert_cmpfloat_with_epsilon(sum, sky->plane_kwh_m2_day[m], 1e-9);
    }
}

/* Whatever the latitude and the weather, a flat plane gets the day's global, no more and no less;
 * in polar night nothing. */
static void test_flat_gets_the_day(void)
{
    for (int latitude = -90; latitude <= 90; latitude += 6) {
        for (double ghi = 0; ghi <= 9; ghi += 0.75) {
            WbSite site = even_site(latitude, ghi);
            WbSky sky = sky_of(&site);
            assert_hours_are_sane(&sky);
            for (int m = 0; m < WB_MONTHS; m++)
                g_assert_cmpfloat_with_epsilon(sky.plane_kwh_m2_day[m],
                                               sky.sunset_h[m] > sky.sunrise_h[m] ? ghi : 0, 1e-9);
        }
    }
}

/* Near-flat planes come near the flat one: the tilt branch agrees with the short way for tilt 0. */
static void test_tilt_is_continuous(void)
{
    WbSite site = even_site(48, 3);
    site.azimuth_deg = 180;
    WbSky flat = sky_of(&site);
    site.tilt_deg = 1e-6;
    WbSky nearly = sky_of(&site);
    for (int m = 0; m < WB_MONTHS; m++)
        g_assert_cmpfloat_with_epsilon(flat.plane_kwh_m2_day[m], nearly.plane_kwh_m2_day[m], 1e-5);
}

static void test_any_azimuth_lies_between(void)
{
    for (int latitude = -80; latitude <= 80; latitude += 20) {
        WbSite site = even_site(latitude, 3.2);
        site.tilt_deg = 35;
        WbSky any = sky_of(&site);
        double least[WB_MONTHS], most[WB_MONTHS];
        for (int m = 0; m < WB_MONTHS; m++)
            least[m] = INFINITY, most[m] = 0;
        for (double azimuth = 0; azimuth < 360; azimuth += 22.5) {
            site.azimuth_deg = azimuth;
            WbSky one = sky_of(&site);
            assert_hours_are_sane(&one);
            for (int m = 0; m < WB_MONTHS; m++) {
                least[m] = fmin(least[m], one.plane_kwh_m2_day[m]);
                most[m] = fmax(most[m], one.plane_kwh_m2_day[m]);
            }
        }
        for (int m = 0; m < WB_MONTHS; m++) {
            g_assert_cmpfloat(any.plane_kwh_m2_day[m], >=, least[m] - 1e-9);
            g_assert_cmpfloat(any.plane_kwh_m2_day[m], <=, most[m] + 1e-9);
        }
    }
}

/* Where the sun hardly rises, an upright plane never gets more than the beam outside the atmosphere
 * on top of what falls on flat ground. */
static void test_low_sun_stays_bounded(void)
{
    static const double ghi[] = {0.001, 0.02, 0.1, 0.4, 1, 3};
    for (double latitude = 56; latitude <= 90; latitude += 0.25) {
        for (gsize i = 0; i < G_N_ELEMENTS(ghi); i++) {
            WbSite site = even_site(latitude, ghi[i]);
            WbSky flat = sky_of(&site);
            site.tilt_deg = 90;
            site.azimuth_deg = 180;
            WbSky upright = sky_of(&site);
            assert_hours_are_sane(&upright);
            for (int m = 0; m < WB_MONTHS; m++)
                for (int h = 0; h < WB_HOURS; h++)
                    g_assert_cmpfloat(upright.plane_w_m2[m][h], <=,
                                      1367 * 1.04 + flat.plane_w_m2[m][h]);
        }
    }
}

/* East and west mirror each other about noon. */
static void test_morning_mirrors_evening(void)
{
    WbSite site = even_site(-33, 4.5);
    site.tilt_deg = 50;
    site.azimuth_deg = 90;
    WbSky east = sky_of(&site);
    site.azimuth_deg = 270;
    WbSky west = sky_of(&site);
    for (int m = 0; m < WB_MONTHS; m++)
        for (int h = 0; h < WB_HOURS; h++)
            g_assert_cmpfloat_with_epsilon(east.plane_w_m2[m][h], west.plane_w_m2[m][23 - h], 1e-6);
    g_assert_cmpfloat(east.plane_w_m2[0][8], >, east.plane_w_m2[0][15]);
}

/* Facing the equator is best in winter on either side of it. */
static void test_hemispheres(void)
{
    WbSite site = even_site(45, 1.8);
    site.tilt_deg = 45;
    site.azimuth_deg = 180;
    double north = sky_of(&site).plane_kwh_m2_day[11];
    site.azimuth_deg = 0;
    double away = sky_of(&site).plane_kwh_m2_day[11];
    g_assert_cmpfloat(north, >, 1.5 * away);
    site.place.latitude_deg = -45;
    double south = sky_of(&site).plane_kwh_m2_day[5];
    g_assert_cmpfloat(south, >, 1.8);
    site.azimuth_deg = 180;
    g_assert_cmpfloat(south, >, 1.5 * sky_of(&site).plane_kwh_m2_day[5]);
}

static void test_polar_day_and_night(void)
{
    WbSite site = even_site(78, 0.4);
    WbSky sky = sky_of(&site);
    g_assert_cmpfloat(sky.sunrise_h[11], ==, 12);
    g_assert_cmpfloat(sky.sunset_h[11], ==, 12);
    g_assert_cmpfloat(sky.plane_kwh_m2_day[11], ==, 0);
    g_assert_cmpfloat(sky.sunrise_h[5], ==, 0);
    g_assert_cmpfloat(sky.sunset_h[5], ==, 24);
    for (int h = 0; h < WB_HOURS; h++) {
        g_assert_cmpfloat(sky.dark_share[11][h], ==, 1);
        g_assert_cmpfloat(sky.dark_share[5][h], ==, 0);
    }
}

static void test_air_course(void)
{
    WbSite site = even_site(40, 4);
    WbSky sky = sky_of(&site);
    for (int m = 0; m < WB_MONTHS; m++) {
        double sum = 0, coldest = 99, warmest = -99;
        int coldest_h = 0, warmest_h = 0;
        for (int h = 0; h < WB_HOURS; h++) {
            double air = sky.air_c[m][h];
            sum += air;
            if (air < coldest)
                coldest = air, coldest_h = h;
            if (air > warmest)
                warmest = air, warmest_h = h;
        }
        g_assert_cmpfloat_with_epsilon(sum / 24, 12, 0.1);
        g_assert_cmpfloat_with_epsilon(coldest, 6, 0.2);
        g_assert_cmpfloat_with_epsilon(warmest, 18, 0.2);
        g_assert_cmpfloat(fabs(coldest_h + 0.5 - sky.sunrise_h[m]), <=, 1);
        g_assert_cmpint(warmest_h, >=, 13);
        g_assert_cmpint(warmest_h, <=, 14);
    }
}

static void test_bad_input(void)
{
    WbSite good = even_site(40, 4);
    WbSky sky = sky_of(&good), before = sky;
    WbSite bad[] = {good, good, good, good, good, good, good, good, good};
    bad[0].place.latitude_deg = 90.5;
    bad[1].place.latitude_deg = NAN;
    bad[2].place.ghi_kwh_m2_day[3] = -0.1;
    bad[3].place.ghi_kwh_m2_day[3] = NAN;
    bad[4].place.air_mean_c[0] = NAN;
    bad[5].place.air_max_c[0] = bad[5].place.air_min_c[0] - 1;
    bad[6].tilt_deg = 91;
    bad[7].ground_albedo = NAN;
    bad[8].azimuth_deg = INFINITY;
    for (gsize i = 0; i < G_N_ELEMENTS(bad); i++) {
        g_assert_cmpint(wb_sky(&bad[i], &sky), ==, WB_BAD_INPUT);
        g_assert_cmpmem(&sky, sizeof sky, &before, sizeof before);
    }
}

static void test_cold_and_bank(void)
{
    WbSite site = even_site(40, 4);
    site.place.air_min_c[1] = -7.5;
    g_assert_cmpfloat(wb_design_cold_c(&site.place), ==, -22.5);
    site.inside_c = 17;
    site.bank_own_c = 3;
    site.place.air_mean_c[2] = -4;
    site.bank_where = WB_BANK_INSIDE;
    g_assert_cmpfloat(wb_bank_temperature_c(&site, 2), ==, 17);
    site.bank_where = WB_BANK_OUTSIDE;
    g_assert_cmpfloat(wb_bank_temperature_c(&site, 2), ==, -4);
    site.bank_where = WB_BANK_OWN;
    g_assert_cmpfloat(wb_bank_temperature_c(&site, 2), ==, 3);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/sky/tilt-against-hourly", test_tilt_against_hourly);
    g_test_add_func("/sky/vertical-planes", test_vertical_planes);
    g_test_add_func("/sky/flat-gets-the-day", test_flat_gets_the_day);
    g_test_add_func("/sky/tilt-continuous", test_tilt_is_continuous);
    g_test_add_func("/sky/any-azimuth", test_any_azimuth_lies_between);
    g_test_add_func("/sky/low-sun", test_low_sun_stays_bounded);
    g_test_add_func("/sky/morning-mirrors-evening", test_morning_mirrors_evening);
    g_test_add_func("/sky/hemispheres", test_hemispheres);
    g_test_add_func("/sky/polar", test_polar_day_and_night);
    g_test_add_func("/sky/air", test_air_course);
    g_test_add_func("/sky/bad-input", test_bad_input);
    g_test_add_func("/sky/cold-and-bank", test_cold_and_bank);
    g_test_add_func("/sky/published-count", published_count);
    return g_test_run();
}
