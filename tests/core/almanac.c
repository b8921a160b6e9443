/* Where does the sun stand at a moment, and when does it rise and set? */
#include "almanac.h"
#include "part.h"
#include "published.h"
#include "sun.h"

#define SPA "NREL/TP-560-34302 (SPA), worked example A.5, as a library's test quotes it"
#define MEEUS "Meeus, Astronomical Algorithms"
#define SECONDS_A_DAY 86400.0

static double deg(double rad)
{
    return rad / WB_RAD_PER_DEG;
}

static double rad(double degrees)
{
    return degrees * WB_RAD_PER_DEG;
}

/* From -180 to 180. */
static double apart(double a_deg, double b_deg)
{
    return remainder(a_deg - b_deg, 360);
}

static void test_julian_day(void)
{
    static const struct {
        int year, month, day;
        double utc_h, julian_day;
    } rows[] = {{2000, 1, 1, 12, 2451545.0}, {1999, 1, 1, 0, 2451179.5},
                {1987, 1, 27, 0, 2446822.5}, {1987, 6, 19, 12, 2446966.0},
                {1988, 1, 27, 0, 2447187.5}, {1988, 6, 19, 12, 2447332.0},
                {1900, 1, 1, 0, 2415020.5},  {1957, 10, 4, 0.81 * 24, 2436116.31},
                {1600, 12, 31, 0, 2305812.5}};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++)
        published(MEEUS ", chapter 7 (from memory)",
                  wb_julian_day(rows[i].year, rows[i].month, rows[i].day, rows[i].utc_h),
                  rows[i].julian_day, 1e-8);
    published(SPA, wb_julian_day(2003, 10, 17, 12 + 7 + 30 / 60.0 + 30 / 3600.0), 2452930.312847,
              1e-6);
}

static void test_coordinates(void)
{
    const char *source = MEEUS ", examples 25.b and 28.a, 1992 October 13 (from memory)";
    WbSunCoordinates sun = wb_sun_coordinates(wb_julian_day(1992, 10, 13, 0));
    published(source, deg(sun.declination_rad), -7.783817, 0.005);
    published(source, deg(sun.right_ascension_rad), 198.378121, 0.01);
    published(source, sun.distance_au, 0.99760775, 2e-4);
    published(source, sun.equation_of_time_h * 3600, 13 * 60 + 42.6, 3);
}

/* Nearest and furthest sun of 2020, and its four seasons; The Astronomical Almanac. */
static void test_seasons(void)
{
    const char *source = "seasons of 2020, The Astronomical Almanac (from memory)";
    static const struct {
        int month, day;
        double utc_h, declination_deg, right_ascension_deg;
    } rows[] = {{3, 20, 3 + 50 / 60.0, 0, 0},
                {6, 20, 21 + 44 / 60.0, 23.436, 90},
                {9, 22, 13 + 31 / 60.0, 0, 180},
                {12, 21, 10 + 2 / 60.0, -23.436, 270}};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        WbSunCoordinates sun =
            wb_sun_coordinates(wb_julian_day(2020, rows[i].month, rows[i].day, rows[i].utc_h));
        published(source, deg(sun.declination_rad), rows[i].declination_deg, 0.01);
        published(source, apart(deg(sun.right_ascension_rad), rows[i].right_ascension_deg), 0,
                  0.01);
    }
    WbSunCoordinates near = wb_sun_coordinates(wb_julian_day(2020, 1, 5, 7.8));
    WbSunCoordinates far = wb_sun_coordinates(wb_julian_day(2020, 7, 4, 11.6));
    published(source, near.distance_au, 0.98324, 2e-4);
    published(source, far.distance_au, 1.01669, 2e-4);
    g_assert_cmpfloat_with_epsilon(wb_sun_factor(&near), 1 / (0.98324 * 0.98324), 5e-4);
}

static void test_position(void)
{
    WbObserver golden = {39.742476, -105.1786, 1830.14, 82000, 11};
    double moment = wb_julian_day(2003, 10, 17, 12 + 7 + 30 / 60.0 + 30 / 3600.0);
    WbSunCoordinates sun = wb_sun_coordinates(moment);
    published(SPA, sun.distance_au, 0.9965422974, 1e-4);
    published(SPA, deg(sun.declination_rad), -9.31434, 0.02);
    WbSunPosition seen = wb_sun_position(&golden, moment);
    published(SPA, deg(seen.zenith_rad), 50.11162, 0.02);
    published(SPA, deg(seen.azimuth_rad), 194.34024, 0.02);
    published(SPA, 90 - deg(seen.true_zenith_rad), 39.872046, 0.02);
    published(SPA, 90 - deg(seen.zenith_rad), 39.888378, 0.02);
    published(SPA, deg(seen.true_zenith_rad - seen.zenith_rad), 39.888378 - 39.872046, 2e-4);
    published(SPA, deg(seen.hour_angle_rad), 11.10590, 0.02);
    published(SPA " (from memory)", deg(wb_sun_incidence_rad(&seen, rad(30), rad(180 - 10))),
              25.18700, 0.02);
}

/* Without refraction, by a general astronomy library with the whole VSOP87 theory: an independent
 * computation, not published. */
static void test_a_century(void)
{
    static const struct {
        int year, month, day;
        double utc_h, latitude_deg, longitude_deg, zenith_deg, azimuth_deg;
    } rows[] = {
        {1950, 4, 19, 13.1, 64.1, -21.9, 53.1387, 173.6145},
        {1957, 6, 20, 11.4, -33.9, 18.4, 57.9847, 350.1873},
        {1963, 10, 3, 14.5, 0, 0, 40.3536, 264.0840},
        {1970, 8, 9, 13.2, 45.5, -122.7, 89.5082, 67.5569},
        {1976, 4, 23, 11.3, -54.8, -68.3, 93.7662, 73.2801},
        {1983, 9, 16, 9.5, 78.2, 15.6, 76.1814, 158.7180},
        {1990, 11, 25, 1.5, 35.7, 139.7, 58.0189, 163.9615},
        {1996, 8, 20, 17.3, -17.7, -149.4, 75.9091, 72.0278},
        {2000, 7, 23, 18.9, 64.1, -21.9, 67.8237, 270.0914},
        {2004, 3, 16, 5.2, -33.9, 18.4, 85.5811, 88.9666},
        {2008, 7, 19, 8.4, 0, 0, 58.0904, 65.3295},
        {2012, 6, 22, 22.0, 45.5, -122.7, 30.9276, 233.4879},
        {2016, 10, 22, 16.7, -54.8, -68.3, 43.7016, 351.3139},
        {2020, 9, 19, 13.7, 78.2, 15.6, 80.2076, 223.4807},
        {2024, 12, 21, 5.1, 35.7, 139.7, 68.5600, 216.0559},
        {2028, 2, 16, 20.5, -17.7, -149.4, 25.1117, 81.0775},
        {2032, 8, 3, 8.3, 64.1, -21.9, 69.6578, 92.1225},
        {2036, 7, 23, 14.1, -33.9, 18.4, 70.7217, 311.9713},
        {2040, 4, 14, 7.0, 0, 0, 75.2647, 80.0119},
        {2043, 5, 5, 16.6, 45.5, -122.7, 52.6456, 105.7362},
        {2046, 8, 28, 12.5, -54.8, -68.3, 81.9909, 60.6809},
        {2050, 9, 4, 14.9, 78.2, 15.6, 77.1839, 241.1526},

    };
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        WbObserver observer = {rows[i].latitude_deg, rows[i].longitude_deg, 0, WB_MISSING, 10};
        WbSunPosition seen = wb_sun_position(
            &observer, wb_julian_day(rows[i].year, rows[i].month, rows[i].day, rows[i].utc_h));
        g_assert_cmpfloat_with_epsilon(deg(seen.true_zenith_rad), rows[i].zenith_deg, 0.01);
        g_assert_cmpfloat_with_epsilon(apart(deg(seen.azimuth_rad), rows[i].azimuth_deg), 0, 0.02);
    }
}

static double utc_s(double julian_day)
{
    double days = julian_day + 0.5;
    return (days - floor(days)) * SECONDS_A_DAY;
}

static void test_rise_and_set(void)
{
    const char *source = "rise and set of the SPA report, as a library's test quotes them";
    static const struct {
        double latitude_deg;
        int year, month, day;
        int rise[3], set[3];
    } rows[] = {
        {-35, 1996, 7, 5, {7, 8, 15}, {17, 1, 4}},
        {-35, 2004, 12, 4, {4, 38, 57}, {19, 2, 2}},
        {35, 1994, 1, 2, {7, 8, 12}, {16, 59, 55}},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        WbObserver observer = {rows[i].latitude_deg, 0, 0, WB_MISSING, 10};
        WbSunDay day = wb_sun_day(&observer, rows[i].year, rows[i].month, rows[i].day);
        g_assert_false(day.up_all_day || day.down_all_day);
        const int *rise = rows[i].rise, *set = rows[i].set;
        g_test_message("rise %.1f s, set %.1f s off",
                       utc_s(day.rise_day) - (rise[0] * 3600 + rise[1] * 60 + rise[2]),
                       utc_s(day.set_day) - (set[0] * 3600 + set[1] * 60 + set[2]));
        published(source, utc_s(day.rise_day), rise[0] * 3600 + rise[1] * 60 + rise[2], 2);
        published(source, utc_s(day.set_day), set[0] * 3600 + set[1] * 60 + set[2], 2);
    }
}

/* At the events the sun's centre stands where they are defined, due south or north at transit. */
static void test_events_are_where_they_should_be(void)
{
    for (int latitude = -64; latitude <= 64; latitude += 8)
        for (int month = 1; month <= 12; month++) {
            WbObserver observer = {latitude, latitude * 2.5, 0, WB_MISSING, 10};
            WbSunDay day = wb_sun_day(&observer, 2026, month, 20);
            WbSunPosition rise = wb_sun_position(&observer, day.rise_day);
            WbSunPosition set = wb_sun_position(&observer, day.set_day);
            WbSunPosition noon = wb_sun_position(&observer, day.transit_day);
            /* parallax of 9 seconds of arc is left out of the definition */
            g_assert_cmpfloat_with_epsilon(deg(rise.true_zenith_rad), 90.833, 0.004);
            g_assert_cmpfloat_with_epsilon(deg(set.true_zenith_rad), 90.833, 0.004);
            g_assert_cmpfloat_with_epsilon(deg(noon.hour_angle_rad), 0, 1e-3);
            g_assert_cmpfloat(rise.hour_angle_rad, <, 0);
            g_assert_cmpfloat(set.hour_angle_rad, >, 0);
            g_assert_cmpfloat(fabs(deg(rise.azimuth_rad) - 90), <, 75);
            g_assert_cmpfloat(fabs(deg(set.azimuth_rad) - 270), <, 75);
        }
}

static void test_polar(void)
{
    static const struct {
        double latitude_deg;
        int month;
        bool up, down;
    } rows[] = {{90, 6, true, false},   {90, 12, false, true},    {-90, 6, false, true},
                {-90, 12, true, false}, {69.6, 6, true, false},   {69.6, 12, false, true},
                {-75, 1, true, false},  {65.5, 12, false, false}, {0, 6, false, false}};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        WbObserver observer = {rows[i].latitude_deg, 19, 0, WB_MISSING, -5};
        WbSunDay day = wb_sun_day(&observer, 2026, rows[i].month, 21);
        g_assert_cmpint(day.up_all_day, ==, rows[i].up);
        g_assert_cmpint(day.down_all_day, ==, rows[i].down);
        double length = day.set_day - day.rise_day;
        if (rows[i].up)
            g_assert_cmpfloat_with_epsilon(length, 1, 1e-9);
        else if (rows[i].down)
            g_assert_cmpfloat_with_epsilon(length, 0, 1e-9);
        else
            g_assert_true(length > 0.05 && length < 0.95);
        WbSunPosition noon = wb_sun_position(&observer, day.transit_day);
        g_assert_cmpint(deg(noon.true_zenith_rad) > 90.833, ==, rows[i].down);
    }
}

/* South of the equator the sun stands in the north, and moves from right to left. */
static void test_south(void)
{
    WbObserver observer = {-33.9, 18.4, 0, WB_MISSING, 20};
    WbSunDay day = wb_sun_day(&observer, 2026, 6, 21);
    WbSunPosition noon = wb_sun_position(&observer, day.transit_day);
    g_assert_cmpfloat_with_epsilon(apart(deg(noon.azimuth_rad), 0), 0, 0.01);
    g_assert_cmpfloat_with_epsilon(deg(noon.true_zenith_rad), 33.9 + 23.436, 0.01);
    WbSunPosition morning = wb_sun_position(&observer, day.transit_day - 0.1);
    g_assert_true(deg(morning.azimuth_rad) > 20 && deg(morning.azimuth_rad) < 70);
}

static void test_pressure(void)
{
    static const double rows[][2] = {{0, 101325}, {1000, 89874.75}, {8000, 35600.5}};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++)
        published("US Standard Atmosphere (quoted by a library's test)",
                  wb_standard_pressure_pa(rows[i][0]), rows[i][1], 1);
    WbObserver low = {50, 0, 0, WB_MISSING, 10}, high = {50, 0, 4000, WB_MISSING, 10};
    WbSunDay day = wb_sun_day(&low, 2026, 3, 20);
    WbSunPosition from_low = wb_sun_position(&low, day.rise_day + 0.01);
    WbSunPosition from_high = wb_sun_position(&high, day.rise_day + 0.01);
    g_assert_cmpfloat(from_low.zenith_rad, <, from_high.zenith_rad);
    g_assert_cmpfloat(from_high.zenith_rad, <, from_high.true_zenith_rad);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/almanac/julian-day", test_julian_day);
    g_test_add_func("/almanac/coordinates", test_coordinates);
    g_test_add_func("/almanac/seasons", test_seasons);
    g_test_add_func("/almanac/position", test_position);
    g_test_add_func("/almanac/century", test_a_century);
    g_test_add_func("/almanac/rise-and-set", test_rise_and_set);
    g_test_add_func("/almanac/events", test_events_are_where_they_should_be);
    g_test_add_func("/almanac/polar", test_polar);
    g_test_add_func("/almanac/south", test_south);
    g_test_add_func("/almanac/pressure", test_pressure);
    g_test_add_func("/almanac/published-count", published_count);
    return g_test_run();
}
