/* What do the loads take, when, and what does it cost at the bank's terminals? */
#include "load.h"
#include "load_window.h"
#include "published.h"
#include <string.h>

#define ALL_MONTHS 0xfffu

/* Sun from 6 to 18 h in every month, unless a test says otherwise. */
static WbSky plain_sky(void)
{
    WbSky sky = {0};
    for (int m = 0; m < WB_MONTHS; m++) {
        sky.sunrise_h[m] = 6;
        sky.sunset_h[m] = 18;
        for (int h = 0; h < WB_HOURS; h++)
            sky.dark_share[m][h] = h < 6 || h >= 18;
    }
    return sky;
}

static WbLoad load_of(double power_w, bool ac, double hours_day, WbDayPart part)
{
    return (WbLoad){.name = "load",
                    .power_w = power_w,
                    .count = 1,
                    .ac = ac,
                    .hours_day = hours_day,
                    .duty = 1,
                    .day_part = part,
                    .months = ALL_MONTHS,
                    .days_week = 7,
                    .surge_factor = 1,
                    .together = true,
                    .drop_pct = 3};
}

static WbBrief brief_of(const WbLoad *loads, size_t n_loads)
{
    return (WbBrief){.loads = loads,
                     .n_loads = n_loads,
                     .site = {.months = ALL_MONTHS},
                     .inverter_hours_day = NAN};
}

static WbLoadBudget budget_of(const WbBrief *brief)
{
    WbSky sky = plain_sky();
    WbLoadBudget budget;
    wb_load_budget(brief, &sky, &budget);
    return budget;
}

/* Half the load's watts at 0.80, full load at 0.90. */
static const WbInverter inverter = {
    .continuous_w = 1000, .idle_w = 10, .efficiency = {2, {{0.5, 0.80}, {1.0, 0.90}}}};

/* US DOE worked examples, quoted by a city's page. */
static void test_published_energy(void)
{
    WbLoad computer = load_of(120 + 150, true, 4, WB_DAY_ALL);
    WbLoad fan = load_of(200, true, 4, WB_DAY_ALL);
    published("DOE example: (120 + 150) W, 4 h, 365 days",
              wb_load_day_wh(&computer, 0) * 365 / 1000, 394, 0.003 * 394);
    published("DOE example: 200 W, 4 h, 120 days", wb_load_day_wh(&fan, 0) * 120 / 1000, 96, 1e-9);
}

/* Sandia SAND87-7023 worksheet arithmetic, our own figures: 1200 Wh DC + 600 Wh AC, inverter 0.90,
 * 12 V: 155.6 Ah. */
static void test_worksheet_amp_hours(void)
{
    WbLoad loads[] = {load_of(100, false, 12, WB_DAY_ALL), load_of(1000, true, 0.6, WB_DAY_ALL)};
    WbBrief brief = brief_of(loads, 2);
    WbSky sky = plain_sky();
    WbNeed need;
    WbInverter no_idle = inverter;
    no_idle.idle_w = 0;
    wb_need(&brief, &sky, &no_idle, &need);
    g_assert_cmpfloat_with_epsilon(need.day_wh[0] / 12, 155.6, 0.1);
    g_assert_cmpfloat_with_epsilon(wb_reference_need_wh(&brief, &sky), 1200 + 600 / 0.9, 1e-9);
}

/* Wh of a 24 W load over its part of the day, for spot hours. */
static void test_windows(void)
{
    static const struct {
        WbDayPart part;
        double from_h, to_h;
        int hour;
        double share;
    } rows[] = {
        {WB_DAY_ALL, 0, 0, 3, 1 / 24.0},
        {WB_DAY_DAYLIGHT, 0, 0, 5, 0},
        {WB_DAY_DAYLIGHT, 0, 0, 6, 1 / 12.0},
        {WB_DAY_DAYLIGHT, 0, 0, 17, 1 / 12.0},
        {WB_DAY_EVENING, 0, 0, 16, 0},
        {WB_DAY_EVENING, 0, 0, 17, 1 / 6.0},
        {WB_DAY_EVENING, 0, 0, 23, 0},
        {WB_DAY_NIGHT, 0, 0, 23, 1 / 8.0},
        {WB_DAY_NIGHT, 0, 0, 0, 1 / 8.0},
        {WB_DAY_NIGHT, 0, 0, 7, 0},
        {WB_DAY_FROM_TO, 22.5, 1, 22, 0.5 / 2.5},
        {WB_DAY_FROM_TO, 22.5, 1, 0, 1 / 2.5},
        {WB_DAY_FROM_TO, 22.5, 1, 1, 0},
        {WB_DAY_FROM_TO, 9.25, 9.75, 9, 1},
        {WB_DAY_FROM_TO, 8, 8, 7, 1 / 24.0},
        {WB_DAY_FROM_TO, 24, 6, 0, 1 / 6.0},
        {WB_DAY_FROM_TO, 0, 24, 23, 1 / 24.0},
    };
    WbSky sky = plain_sky();
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        WbLoad load = load_of(24, false, 1, rows[i].part);
        double share[WB_HOURS], sum = 0;
        load.from_h = rows[i].from_h;
        load.to_h = rows[i].to_h;
        wb_load_window(&load, &sky, 0, share);
        for (int h = 0; h < WB_HOURS; h++)
            sum += share[h];
        g_assert_cmpfloat_with_epsilon(share[rows[i].hour], rows[i].share, 1e-12);
        g_assert_cmpfloat_with_epsilon(sum, 1, 1e-12);
    }
}

static void test_daylight_in_polar_night(void)
{
    WbLoad load = load_of(100, false, 2, WB_DAY_DAYLIGHT);
    WbSky sky = plain_sky();
    double share[WB_HOURS];
    sky.sunrise_h[11] = sky.sunset_h[11] = 12;
    wb_load_window(&load, &sky, 11, share);
    for (int h = 0; h < WB_HOURS; h++)
        g_assert_cmpfloat(share[h], ==, h >= 10 && h < 14 ? 0.25 : 0);
    sky.sunrise_h[5] = 0;
    sky.sunset_h[5] = 24;
    wb_load_window(&load, &sky, 5, share);
    g_assert_cmpfloat_with_epsilon(share[0], 1 / 24.0, 1e-12);
}

/* Every window, start and length: what is spread adds up to the energy of the load. */
static void test_spread_sums_to_energy(void)
{
    for (double from_h = 0; from_h <= 24; from_h += 0.7) {
        for (double to_h = 0; to_h <= 24; to_h += 0.9) {
            WbLoad loads[] = {load_of(35, false, 3, WB_DAY_FROM_TO),
                              load_of(80, true, 5, WB_DAY_FROM_TO)};
            loads[0].from_h = loads[1].from_h = from_h;
            loads[0].to_h = loads[1].to_h = to_h;
            loads[1].duty = 0.3;
            loads[1].days_week = 2;
            WbBrief brief = brief_of(loads, 2);
            WbLoadBudget budget = budget_of(&brief);
            double dc_wh = 0, ac_wh = 0;
            for (int h = 0; h < WB_HOURS; h++) {
                dc_wh += budget.dc_wh[4][h];
                ac_wh += budget.ac_wh[4][h];
            }
            g_assert_cmpfloat_with_epsilon(dc_wh, 35 * 3, 1e-9);
            g_assert_cmpfloat_with_epsilon(budget.dc_day_wh[4], 35 * 3, 1e-9);
            g_assert_cmpfloat_with_epsilon(ac_wh, 80 * 5 * 0.3 * 2 / 7, 1e-9);
            g_assert_cmpfloat_with_epsilon(budget.ac_day_wh[4], ac_wh, 1e-9);
        }
    }
}

static void test_months_and_weeks(void)
{
    WbLoad load = load_of(50, false, 4, WB_DAY_EVENING);
    load.count = 3;
    load.duty = 0.5;
    load.days_week = 3.5;
    load.months = 1u << 6 | 1u << 7;
    WbBrief brief = brief_of(&load, 1);
    WbLoadBudget budget = budget_of(&brief);
    for (int m = 0; m < WB_MONTHS; m++)
        g_assert_cmpfloat_with_epsilon(budget.dc_day_wh[m], m == 6 || m == 7 ? 150 : 0, 1e-9);
    brief.site.months = 1u << 0;
    budget = budget_of(&brief);
    g_assert_cmpfloat(budget.peak_dc_w, ==, 0);
    g_assert_cmpfloat(budget.dc_day_wh[6], ==, 150);
}

static void test_peaks(void)
{
    WbLoad loads[] = {load_of(300, true, 1, WB_DAY_ALL), load_of(200, true, 1, WB_DAY_ALL),
                      load_of(900, true, 1, WB_DAY_ALL), load_of(60, false, 1, WB_DAY_ALL)};
    loads[0].surge_factor = 2; /* adds 300 W */
    loads[1].surge_factor = 3; /* adds 400 W */
    loads[2].surge_factor = 1.5;
    loads[2].together = false;
    loads[3].count = 2;
    loads[3].surge_factor = 4; /* adds 360 W */
    WbBrief brief = brief_of(loads, 4);
    WbLoadBudget budget = budget_of(&brief);
    g_assert_cmpfloat(budget.peak_ac_w, ==, 900);   /* alone beats 500 together */
    g_assert_cmpfloat(budget.surge_ac_w, ==, 1350); /* alone beats 900 together */
    g_assert_cmpfloat(budget.peak_dc_w, ==, 120);
    g_assert_cmpfloat(budget.surge_dc_w, ==, 480);
    loads[2].together = true;
    budget = budget_of(&brief);
    g_assert_cmpfloat(budget.peak_ac_w, ==, 1400);
    g_assert_cmpfloat(budget.surge_ac_w, ==, 1850);
}

/* The largest month counts, and only loads of that month meet. */
static void test_peak_by_month(void)
{
    WbLoad loads[] = {load_of(300, true, 1, WB_DAY_ALL), load_of(500, true, 1, WB_DAY_ALL)};
    loads[0].months = 1u << 0;
    loads[1].months = 1u << 6;
    loads[1].needs_pure_sine = true;
    WbBrief brief = brief_of(loads, 2);
    WbLoadBudget budget = budget_of(&brief);
    g_assert_cmpfloat(budget.peak_ac_w, ==, 500);
    g_assert_true(budget.needs_pure_sine && budget.any_ac);
    brief.site.months = 1u << 0;
    budget = budget_of(&brief);
    g_assert_cmpfloat(budget.peak_ac_w, ==, 300);
    g_assert_false(budget.needs_pure_sine);
    brief.site.months = 1u << 3;
    g_assert_false(budget_of(&brief).any_ac);
}

/* AC through the inverter: 500 W at half load 0.80 for 2 h, 1000 W at full load 0.90 for 1 h; on
 * for 3 hours. */
static void test_need_through_inverter(void)
{
    WbLoad loads[] = {load_of(500, true, 2, WB_DAY_ALL), load_of(1000, true, 1, WB_DAY_ALL),
                      load_of(24, false, 24, WB_DAY_ALL)};
    WbBrief brief = brief_of(loads, 3);
    WbSky sky = plain_sky();
    WbNeed need;
    wb_need(&brief, &sky, &inverter, &need);
    double ac_wh = 1000 / 0.8 + 1000 / 0.9;
    g_assert_cmpfloat_with_epsilon(need.inverter_on_h[0], 3, 1e-9);
    g_assert_cmpfloat_with_epsilon(need.idle_wh[0], 30, 1e-9);
    g_assert_cmpfloat_with_epsilon(need.conversion_loss_wh[0], ac_wh - 2000, 1e-9);
    g_assert_cmpfloat_with_epsilon(need.day_wh[0], ac_wh + 30 + 576, 1e-9);
    g_assert_cmpfloat_with_epsilon(need.dark_wh[0], need.day_wh[0] / 2, 1e-9);
    g_assert_cmpfloat_with_epsilon(need.dark_h[0], 12, 1e-9);
    wb_need(&brief, &sky, NULL, &need);
    g_assert_cmpfloat_with_epsilon(need.day_wh[0], 576, 1e-9);
    g_assert_cmpfloat(need.idle_wh[0], ==, 0);
}

static void test_inverter_hours(void)
{
    WbLoad loads[] = {load_of(100, true, 6, WB_DAY_EVENING), load_of(200, true, 6, WB_DAY_EVENING)};
    WbBrief brief = brief_of(loads, 2);
    WbSky sky = plain_sky();
    WbNeed need;
    wb_need(&brief, &sky, &inverter, &need);
    g_assert_cmpfloat_with_epsilon(need.inverter_on_h[2], 6, 1e-9); /* both at once, not 12 h */
    loads[0].duty = 0.25;
    loads[1].months = 0;
    wb_need(&brief, &sky, &inverter, &need);
    g_assert_cmpfloat_with_epsilon(need.inverter_on_h[2], 6,
                                   1e-9); /* duty does not switch it off */
    brief.inverter_hours_day = 24;
    wb_need(&brief, &sky, &inverter, &need);
    g_assert_cmpfloat_with_epsilon(need.inverter_on_h[2], 24, 1e-9);
    g_assert_cmpfloat_with_epsilon(need.idle_wh[2], 240, 1e-9);
    brief.inverter_hours_day = 0;
    wb_need(&brief, &sky, &inverter, &need);
    g_assert_cmpfloat(need.idle_wh[2], ==, 0);
}

static void test_day_without_darkness(void)
{
    WbLoad load = load_of(10, false, 24, WB_DAY_ALL);
    WbBrief brief = brief_of(&load, 1);
    WbSky sky = plain_sky();
    memset(sky.dark_share[5], 0, sizeof sky.dark_share[5]);
    WbNeed need;
    wb_need(&brief, &sky, NULL, &need);
    g_assert_cmpfloat(need.dark_h[5], ==, 24);
    g_assert_cmpfloat_with_epsilon(need.dark_wh[5], 240, 1e-9);
}

/* Nothing to run is nothing needed, and no NaN anywhere. */
static void test_degenerate_loads(void)
{
    WbLoad loads[] = {load_of(0, true, 4, WB_DAY_ALL), load_of(50, true, 0, WB_DAY_NIGHT),
                      load_of(50, true, 4, WB_DAY_NIGHT), load_of(50, false, 4, WB_DAY_NIGHT)};
    loads[2].duty = 0;
    loads[3].days_week = 0;
    WbBrief brief = brief_of(loads, 4);
    WbSky sky = plain_sky();
    WbLoadBudget budget = budget_of(&brief);
    WbInverter no_watts = inverter, starts_at_zero = inverter;
    no_watts.continuous_w = 0;
    starts_at_zero.efficiency = (WbCurve){2, {{0, 0}, {1, 0.9}}};
    const WbInverter *inverters[] = {&inverter, &no_watts, &starts_at_zero, NULL};
    g_assert_false(budget.any_ac);
    g_assert_cmpfloat(budget.peak_ac_w, ==, 0);
    g_assert_cmpfloat(budget.surge_dc_w, ==, 0);
    for (gsize i = 0; i < G_N_ELEMENTS(inverters); i++) {
        WbNeed need;
        wb_need(&brief, &sky, inverters[i], &need);
        g_assert_cmpfloat(need.day_wh[0], ==, 0);
        g_assert_cmpfloat(need.dark_wh[0], ==, 0);
    }
    brief.n_loads = 0;
    g_assert_cmpfloat(wb_reference_need_wh(&brief, &sky), ==, 0);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/load/published-energy", test_published_energy);
    g_test_add_func("/load/worksheet", test_worksheet_amp_hours);
    g_test_add_func("/load/windows", test_windows);
    g_test_add_func("/load/polar-daylight", test_daylight_in_polar_night);
    g_test_add_func("/load/spread-sums", test_spread_sums_to_energy);
    g_test_add_func("/load/months-and-weeks", test_months_and_weeks);
    g_test_add_func("/load/peaks", test_peaks);
    g_test_add_func("/load/peak-by-month", test_peak_by_month);
    g_test_add_func("/load/need", test_need_through_inverter);
    g_test_add_func("/load/inverter-hours", test_inverter_hours);
    g_test_add_func("/load/no-darkness", test_day_without_darkness);
    g_test_add_func("/load/degenerate", test_degenerate_loads);
    g_test_add_func("/load/published-count", published_count);
    return g_test_run();
}
