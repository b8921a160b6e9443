/* What does an array give, hour by hour and by month, and does one never give less than another? */
#include "array.h"
#include "published.h"
#include "year_kits.h"

static const WbPanel panel = {
    .power_w = 100, .imp_a = 5.5, .power_coeff_pct_k = -0.4, .noct_c = 45, .low_light_pct = 95};
static const WbController mppt = {.technology = WB_CONTROLLER_MPPT,
                                  .max_pv_w_12v = 100,
                                  .rated_output_a = 20,
                                  .efficiency = 0.96,
                                  .idle_w = 1.5};
static const WbBankVolts bank = {.system_v = 24, .nominal_v = 25.6};

static double low_light(double w_m2)
{
    return log(1000 / w_m2) / log(5);
}

static void test_law_by_hand(void)
{
    WbArrayLaw law = wb_array_law(&panel, 2, 3, &mppt, 2, WB_MOUNT_RAISED, &bank);
    g_assert_cmpfloat_with_epsilon(law.peak_w, 576, 1e-9);
    g_assert_cmpfloat_with_epsilon(law.limit_w, 2 * 100 * 24 / 12 * 0.96, 1e-9);
    g_assert_cmpfloat_with_epsilon(law.heating_k_m2_w, 27.0 / 800, 1e-12);
    g_assert_cmpfloat_with_epsilon(law.low_light_loss, 0.05, 1e-12);
    g_assert_cmpfloat(law.idle_w, ==, 3);
    WbController wide = mppt;
    wide.max_pv_w_12v = NAN;
    law = wb_array_law(&panel, 2, 3, &wide, 2, WB_MOUNT_RAISED, &bank);
    g_assert_cmpfloat_with_epsilon(law.limit_w, 2 * 20 * 25.6, 1e-9);
    WbPanel bare = panel;
    bare.power_coeff_pct_k = bare.noct_c = bare.low_light_pct = NAN;
    law = wb_array_law(&bare, 1, 1, &mppt, 1, WB_MOUNT_BONDED, &bank);
    g_assert_cmpfloat_with_epsilon(law.power_coeff_k, -0.0045, 1e-15);
    g_assert_cmpfloat_with_epsilon(law.heating_k_m2_w, (45 + 18 - 20) / 800.0, 1e-15);
    g_assert_cmpfloat_with_epsilon(law.low_light_loss, 0.04, 1e-15);
}

/* Rated power at standard conditions; the data sheet's share of efficiency at 200 W/m2. */
static void test_standard_conditions(void)
{
    WbController perfect = {.technology = WB_CONTROLLER_MPPT,
                            .max_pv_w_12v = NAN,
                            .rated_output_a = 99,
                            .efficiency = 1};
    WbArrayLaw law = wb_array_law(&panel, 1, 1, &perfect, 1, WB_MOUNT_RAISED, &bank);
    double at_stc_c = 25 - law.heating_k_m2_w * 1000, dim_c = 25 - law.heating_k_m2_w * 200;
    published("IEC 61215 standard test conditions", wb_array_offered_w(&law, 1000, at_stc_c, 0),
              100, 1e-9);
    published("EN 50380: efficiency at 200 W/m2",
              wb_array_offered_w(&law, 200, dim_c, low_light(200)), 100 * 0.2 * 0.95, 1e-9);
    published("power coefficient, 25 K above", wb_array_offered_w(&law, 1000, at_stc_c + 25, 0), 90,
              1e-9);
    g_assert_cmpfloat(wb_array_offered_w(&law, 0, 20, 0), ==, 0);
    g_assert_cmpfloat(wb_array_offered_w(&law, 1e-9, 20, low_light(1e-9)), >=, 0);
    g_assert_cmpfloat(wb_array_offered_w(&law, 1000, 400, 0), ==, 0);
}

static void test_pwm_follows_the_sun(void)
{
    WbController pwm = {
        .technology = WB_CONTROLLER_PWM, .max_pv_w_12v = 10, .rated_output_a = 8, .efficiency = 1};
    WbArrayLaw law = wb_array_law(&panel, 1, 2, &pwm, 1, WB_MOUNT_RAISED, &bank);
    g_assert_cmpfloat_with_epsilon(wb_array_offered_w(&law, 500, 60, 2), 0.5 * 11 * 25.6, 1e-9);
    g_assert_cmpfloat_with_epsilon(law.limit_w, 8 * 25.6, 1e-9);
}

static void test_months_are_sums(void)
{
    WbRandom random;
    YearWorld world;
    wb_random_seed(&random, 3);
    year_world(&random, 2, 0xfff, 50, &world);
    for (int i = 0; i < 20; i++) {
        WbArrayLaw law = year_array(&random);
        WbSupply supply, other;
        double kept_wh[WB_MONTHS] = {0}, clipped_wh[WB_MONTHS] = {0};
        for (int at = 0; at < 2 * WB_YEAR_HOURS; at++) {
            int month = wb_month_of_day(at / WB_HOURS % WB_YEAR_DAYS);
            double wh = wb_array_offered_w(&law, world.plane.plane_w_m2[at], world.plane.air_c[at],
                                           world.plane.low_light[at]);
            kept_wh[month] += fmin(wh, law.limit_w);
            clipped_wh[month] += fmax(0, wh - law.limit_w);
        }
        wb_array_months(&law, &world.plane, &supply);
        for (int m = 0; m < WB_MONTHS; m++) {
            double days = 2 * wb_days_of_month(m);
            g_assert_cmpfloat_with_epsilon(supply.day_wh[m], kept_wh[m] / days - 24 * law.idle_w,
                                           1e-6);
            g_assert_cmpfloat_with_epsilon(supply.clipped_wh[m], clipped_wh[m] / days, 1e-6);
        }
        for (int v = 0; v < WB_N_VECTORS; v++) {
            if (!wb_vector_runs((WbVector)v))
                continue;
            wb_array_months_on((WbVector)v, &law, &world.plane, &other);
            g_assert_cmpmem(&supply, sizeof supply, &other, sizeof other);
        }
    }
    year_world_clear(&world);
}

/* Where it is said, it holds in every hour; and it is said often enough to be of use. */
static void test_never_less(void)
{
    WbRandom random;
    YearWorld world;
    wb_random_seed(&random, 4);
    year_world(&random, 1, 0xfff, 50, &world);
    int said = 0, true_of = 0;
    for (int i = 0; i < 400; i++) {
        WbArrayLaw a = year_array(&random), b = year_array(&random);
        if (i % 2)
            b.low_light_loss = a.low_light_loss;
        bool holds = a.idle_w <= b.idle_w;
        for (int at = 0; at < WB_YEAR_HOURS; at++) {
            double w_m2 = world.plane.plane_w_m2[at], air_c = world.plane.air_c[at];
            double measure = world.plane.low_light[at];
            double a_w = fmin(a.limit_w, wb_array_offered_w(&a, w_m2, air_c, measure));
            double b_w = fmin(b.limit_w, wb_array_offered_w(&b, w_m2, air_c, measure));
            holds = holds && a_w >= b_w * (1 - 1e-12);
        }
        bool proved = wb_array_never_less(&a, &b, &world.plane);
        g_assert_true(holds || !proved);
        g_assert_true(wb_array_never_less(&a, &a, &world.plane));
        said += proved;
        true_of += holds;
    }
    g_test_message("proved %d of %d pairs that hold", said, true_of);
    g_assert_cmpint(said, >, true_of / 2);
    year_world_clear(&world);
}

/* The box in which arrays are compared holds every hour with sun, and no more. */
static void test_extremes_of_the_sun(void)
{
    WbSite site = {
        .place = {.latitude_deg = 52}, .months = 0xfff, .tilt_deg = 30, .azimuth_deg = 180};
    for (int m = 0; m < WB_MONTHS; m++) {
        double summer = 1 - cos((m + 0.5) * 2 * G_PI / WB_MONTHS);
        site.place.ghi_kwh_m2_day[m] = 0.6 + 2.2 * summer;
        site.place.air_mean_c[m] = 2 + 8 * summer;
        site.place.air_max_c[m] = 6 + 8 * summer;
        site.place.air_min_c[m] = -2 + 8 * summer;
    }
    WbWeather weather;
    WbPlaneHours plane;
    g_assert_cmpint(wb_weather_make(&site.place, 2, 1, &weather), ==, WB_OK);
    g_assert_cmpint(wb_plane_hours(&site, &weather, &plane), ==, WB_OK);
    double coldest_c = INFINITY, hottest_c = -INFINITY, most_w_m2 = 0, dimmest = 0;
    for (int at = 0; at < 2 * WB_YEAR_HOURS; at++) {
        if (plane.plane_w_m2[at] <= 0)
            continue;
        coldest_c = fmin(coldest_c, plane.air_c[at]);
        hottest_c = fmax(hottest_c, plane.air_c[at]);
        most_w_m2 = fmax(most_w_m2, plane.plane_w_m2[at]);
        dimmest = fmax(dimmest, plane.low_light[at]);
    }
    g_assert_cmpfloat(plane.sun_air_min_c, ==, coldest_c);
    g_assert_cmpfloat(plane.sun_air_max_c, ==, hottest_c);
    g_assert_cmpfloat(plane.plane_max_w_m2, ==, most_w_m2);
    g_assert_cmpfloat(plane.low_light_max, ==, dimmest);
    g_assert_cmpfloat(most_w_m2, >, 500);
    wb_weather_free(&weather);
    wb_plane_hours_free(&plane);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/array/law-by-hand", test_law_by_hand);
    g_test_add_func("/array/standard-conditions", test_standard_conditions);
    g_test_add_func("/array/pwm", test_pwm_follows_the_sun);
    g_test_add_func("/array/months", test_months_are_sums);
    g_test_add_func("/array/never-less", test_never_less);
    g_test_add_func("/array/extremes", test_extremes_of_the_sun);
    g_test_add_func("/array/published-count", published_count);
    return g_test_run();
}
