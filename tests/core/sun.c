/* Where is the sun, and what reaches the top of the atmosphere? */
#include "sun.h"
#include "published.h"

#define DUFFIE "Duffie & Beckman, Solar Engineering of Thermal Processes"
#define MJ_PER_KWH 3.6

static double deg(double rad)
{
    return rad / WB_RAD_PER_DEG;
}

static double rad(double degrees)
{
    return degrees * WB_RAD_PER_DEG;
}

static double h0_mj(double solar_constant, int day, double latitude_deg)
{
    return MJ_PER_KWH *
           wb_extraterrestrial_kwh_m2(solar_constant, day, rad(latitude_deg), -WB_PI, WB_PI);
}

static WbDirection sun_at(int day, double latitude_deg, double solar_h)
{
    return wb_sun_direction(rad(latitude_deg), wb_declination_rad(day), wb_hour_angle_rad(solar_h));
}

static void test_mean_days(void)
{
    static const struct {
        int day;
        double declination_deg;
    } rows[12] = {{17, -20.9}, {47, -13.0}, {75, -2.4}, {105, 9.4},  {135, 18.8},  {162, 23.1},
                  {198, 21.2}, {228, 13.5}, {258, 2.2}, {288, -9.6}, {318, -18.9}, {344, -23.0}};
    const char *source = "Klein 1977; " DUFFIE ", Table 1.6.1 (from memory)";
    for (int m = 0; m < 12; m++) {
        published(source, wb_mean_day(m), rows[m].day, 0);
        published(source, deg(wb_declination_rad(rows[m].day)), rows[m].declination_deg, 0.1);
    }
}

static void test_incidence(void)
{
    const char *source = DUFFIE ", Ex 1.6.1 and 1.8.1 (from memory, recomputed)";
    WbDirection sun = sun_at(44, 43, 10.5);
    double incidence = wb_cos_between(sun, wb_plane_normal(rad(45), rad(180 + 15)));
    published(source, deg(acos(incidence)), 35, 0.5);
    published(source, incidence, 0.817, 0.005);
    published(source, incidence / sun.up, 1.66, 0.02);
}

static void test_zenith_azimuth(void)
{
    static const struct {
        const char *source;
        int day;
        double solar_h, zenith_deg, azimuth_deg;
    } rows[] = {
        {DUFFIE ", Ex 1.6.2a (from memory, recomputed)", 44, 9.5, 66.5, 180 - 40.0},
        {DUFFIE ", Ex 1.6.2b (from memory, recomputed)", 182, 18.5, 79.6, 180 + 112.0},
        {DUFFIE ", Ex 1.6.3 (from memory, recomputed)", 75, 16, 70.3, 180 + 66.8},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        WbDirection sun = sun_at(rows[i].day, 43, rows[i].solar_h);
        published(rows[i].source, deg(wb_zenith_rad(sun)), rows[i].zenith_deg, 0.3);
        published(rows[i].source, deg(wb_azimuth_rad(sun)), rows[i].azimuth_deg, 0.3);
    }
}

static void test_sunset_and_profile(void)
{
    const char *source = DUFFIE ", Ex 1.6.3 (from memory, recomputed)";
    double sunset = wb_sunset_rad(rad(43), wb_declination_rad(75));
    published(source, deg(sunset), 87.8, 0.3);
    published(source, 12 - deg(sunset) / 15, 6 + 9 / 60.0, 2 / 60.0);
    WbDirection sun = sun_at(75, 43, 16);
    double across = wb_azimuth_rad(sun) - rad(180 + 25);
    double profile = atan(tan(WB_PI / 2 - wb_zenith_rad(sun)) / cos(across));
    published(source, deg(profile), 25.65, 0.3);
}

static void test_extraterrestrial_examples(void)
{
    published(DUFFIE ", Ex 1.10.1 (from memory, recomputed)", h0_mj(1367, 105, 43), 33.8,
              0.005 * 33.8);
    double hour = wb_extraterrestrial_kwh_m2(1367, 105, rad(43), wb_hour_angle_rad(10),
                                             wb_hour_angle_rad(11));
    published(DUFFIE ", Ex 1.10.2 (from memory, recomputed)", MJ_PER_KWH * hour, 3.79,
              0.005 * 3.79);
    published(DUFFIE ", Ex 2.11 (from memory, recomputed)", h0_mj(1367, 246, 38.6), 33.3,
              0.04 * 33.3);
}

static void test_extraterrestrial_table(void)
{
    static const struct {
        double latitude_deg, mj[12];
    } rows[] = {
        {0, {36.2, 37.5, 37.9, 36.8, 34.8, 33.5, 33.9, 35.7, 37.2, 37.4, 36.4, 35.7}},
        {20, {26.9, 30.7, 34.8, 37.9, 39.3, 39.5, 39.3, 38.3, 35.8, 31.8, 27.8, 25.8}},
        {40, {15.2, 20.5, 27.4, 34.6, 39.7, 41.8, 40.7, 36.5, 30.0, 22.5, 16.4, 13.8}},
        {60, {3.4, 8.5, 16.8, 27.5, 36.6, 41.0, 38.9, 31.0, 20.6, 10.9, 4.5, 2.3}},
        {-35, {43.2, 38.9, 32.5, 24.9, 18.6, 15.8, 17.0, 22.0, 29.2, 36.5, 41.9, 44.2}},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++)
        for (int m = 0; m < 12; m++)
            published(DUFFIE ", formula 1.10.3 (recomputed)",
                      h0_mj(1367, wb_mean_day(m), rows[i].latitude_deg), rows[i].mj[m], 0.1);
}

/* Allen et al. 1998, FAO Irrigation and Drainage Paper 56, as quoted by the tests of a library. */
static void test_fao(void)
{
    const double fao_solar_constant = 0.0820 * 1e6 / 60;
    const char *example_8 = "FAO-56 Ex 8, p. 80";
    double sunset = wb_sunset_rad(rad(-20), wb_declination_rad(246));
    published(example_8, wb_earth_sun_factor(246), 0.985, 0.001);
    published(example_8, wb_declination_rad(246), 0.120, 0.002);
    published(example_8, sunset, 1.527, 0.002);
    published(example_8, h0_mj(fao_solar_constant, 246, -20), 32.2, 0.1);
    published("FAO-56 Ex 9, p. 83", 24 / WB_PI * sunset, 11.7, 0.1);

    static const struct {
        int day;
        double latitude_deg, mj, tolerance;
    } spot[] = {{15, 70, 0.0, 0.1}, {15, 68, 0.1, 0.1},   {15, 66, 0.6, 0.1},
                {15, 64, 1.4, 0.1}, {15, 62, 2.3, 0.1},   {15, 60, 3.3, 0.1},
                {15, 58, 4.3, 0.1}, {46, -34, 39.2, 0.2}, {46, -36, 38.9, 0.2}};
    for (gsize i = 0; i < G_N_ELEMENTS(spot); i++)
        published("FAO-56 Table 2.6", h0_mj(fao_solar_constant, spot[i].day, spot[i].latitude_deg),
                  spot[i].mj, spot[i].tolerance);
}

static void test_polar(void)
{
    for (int pole = -1; pole <= 1; pole += 2) {
        double june = wb_sunset_rad(rad(90 * pole), wb_declination_rad(162));
        double december = wb_sunset_rad(rad(90 * pole), wb_declination_rad(344));
        g_assert_cmpfloat(june, ==, pole > 0 ? WB_PI : 0);
        g_assert_cmpfloat(december, ==, pole > 0 ? 0 : WB_PI);
    }
    g_assert_cmpfloat(h0_mj(1367, 344, 75), ==, 0);
    g_assert_cmpfloat(h0_mj(1367, 162, 75), >, 40);
}

/* The hours of a day add up to the day, whatever the hours are. */
static void test_hours_sum_to_day(void)
{
    for (int latitude = -90; latitude <= 90; latitude += 5) {
        for (int m = 0; m < 12; m++) {
            double sum = 0;
            for (int h = 0; h < 24; h++)
                sum += wb_extraterrestrial_kwh_m2(1367, wb_mean_day(m), rad(latitude),
                                                  wb_hour_angle_rad(h), wb_hour_angle_rad(h + 1));
            g_assert_cmpfloat_with_epsilon(sum * MJ_PER_KWH, h0_mj(1367, wb_mean_day(m), latitude),
                                           1e-9);
        }
    }
}

static void test_directions_are_unit_vectors(void)
{
    for (int latitude = -90; latitude <= 90; latitude += 15) {
        for (double hour = 0; hour <= 24; hour += 1.5) {
            WbDirection sun = sun_at(200, latitude, hour);
            g_assert_cmpfloat_with_epsilon(wb_cos_between(sun, sun), 1, 1e-12);
            WbDirection again = wb_plane_normal(wb_zenith_rad(sun), wb_azimuth_rad(sun));
            g_assert_cmpfloat_with_epsilon(wb_cos_between(sun, again), 1, 1e-12);
        }
    }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/sun/mean-days", test_mean_days);
    g_test_add_func("/sun/incidence", test_incidence);
    g_test_add_func("/sun/zenith-azimuth", test_zenith_azimuth);
    g_test_add_func("/sun/sunset-and-profile", test_sunset_and_profile);
    g_test_add_func("/sun/extraterrestrial-examples", test_extraterrestrial_examples);
    g_test_add_func("/sun/extraterrestrial-table", test_extraterrestrial_table);
    g_test_add_func("/sun/fao", test_fao);
    g_test_add_func("/sun/polar", test_polar);
    g_test_add_func("/sun/hours-sum-to-day", test_hours_sum_to_day);
    g_test_add_func("/sun/unit-vectors", test_directions_are_unit_vectors);
    g_test_add_func("/sun/published-count", published_count);
    return g_test_run();
}
