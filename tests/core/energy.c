/* What does an array give, and what can a bank deliver? */
#include "energy.h"
#include "array.h"
#include "published.h"
#include <string.h>

static const WbPanel panel = {.power_w = 100,
                              .voc_v = 22,
                              .vmp_v = 18,
                              .isc_a = 6,
                              .imp_a = 5.5,
                              .power_coeff_pct_k = -0.40,
                              .noct_c = 45};

static const WbChemistry lead_acid = {.cell_v = 2,
                                      .charge_v_per_cell = 2.4,
                                      .depth_limit = 0.5,
                                      .peukert = 1.2,
                                      .capacity_by_c = {3, {{-20, 0.5}, {25, 1.0}, {40, 1.08}}}};

static const WbStorage battery = {.nominal_v = 12,
                                  .capacity_ah = 100,
                                  .rated_hours = 20,
                                  .depth_limit = NAN,
                                  .peukert = NAN,
                                  .charge_v = NAN};

/* Open rack adders are 0, ours start at +2 K, so the published NOCT is entered less 2 K. */
static double open_rack_c(double irradiance_w_m2, double air_c, double noct_c)
{
    return wb_cell_c(irradiance_w_m2, air_c, noct_c - 2, WB_MOUNT_RAISED);
}

static void test_cell_by_noct(void)
{
    static const struct {
        double noct_c, air_c, irradiance_w_m2, cell_c;
    } rows[] = {{48, 30, 1000, 65.0}, {45, 30, 1000, 61.25}, {33, 30, 1000, 46.25},
                {58, 30, 1000, 77.5}, {50, 30, 1000, 67.5},  {47, 20, 800, 47}};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++)
        published("NOCT definition, pvpmc.sandia.gov; Ross 1981",
                  open_rack_c(rows[i].irradiance_w_m2, rows[i].air_c, rows[i].noct_c),
                  rows[i].cell_c, 0.1);
}

static void test_mounting_adders(void)
{
    const char *source = "stand-off adders, pvpmc.sandia.gov";
    published(source, wb_cell_c(800, 20, 45, WB_MOUNT_RAISED) - 45, 2, 1e-9);
    published(source, wb_cell_c(800, 20, 45, WB_MOUNT_CLOSE) - 45, 11, 1e-9);
    published(source, wb_cell_c(800, 20, 45, WB_MOUNT_BONDED) - 45, 18, 1e-9);
    g_assert_cmpfloat(wb_cell_c(0, 13, 45, WB_MOUNT_BONDED), ==, 13);
    g_assert_cmpfloat(wb_cell_c(700, 20, NAN, WB_MOUNT_CLOSE), ==,
                      wb_cell_c(700, 20, 45, WB_MOUNT_CLOSE));
}

/* One panel through a controller that loses nothing. */
static WbArrayLaw law_of(const WbPanel *of, int mounting)
{
    static const WbController ideal = {
        .technology = WB_CONTROLLER_MPPT, .efficiency = 1, .rated_output_a = 1000};
    static const WbBankVolts bank = {.nominal_v = 12, .system_v = 12};
    return wb_array_law(of, 1, 1, &ideal, 1, mounting, &bank);
}

/* King et al. 2004: at 1000 W/m2 an insulated back costs 8 to 12 % of an open rack's power. */
static void test_bonded_costs_power(void)
{
    WbArrayLaw raised = law_of(&panel, WB_MOUNT_RAISED), bonded = law_of(&panel, WB_MOUNT_BONDED);
    published("mounting range, King et al. 2004 (SAND2004-3535)",
              1 - wb_array_offered_w(&bonded, 1000, 25, 0) /
                      wb_array_offered_w(&raised, 1000, 25, 0),
              0.10, 0.02);
}

/* 1000 W/m2, 25 C, NOCT 45 raised: cell 25 + 27/800 x 1000 = 58.75 C; 100 W x (1 - 0.004 x 33.75).
 */
static void test_panel_by_hand(void)
{
    WbArrayLaw law = law_of(&panel, WB_MOUNT_RAISED);
    g_assert_cmpfloat_with_epsilon(wb_array_offered_w(&law, 1000, 25, 0), 86.5, 1e-9);
    g_assert_cmpfloat(wb_array_offered_w(&law, 0, 25, 0), ==, 0);
    WbPanel no_coefficient = panel;
    no_coefficient.power_coeff_pct_k = WB_MISSING;
    no_coefficient.noct_c = WB_MISSING;
    law = law_of(&no_coefficient, WB_MOUNT_RAISED);
    g_assert_cmpfloat_with_epsilon(wb_array_offered_w(&law, 1000, 25, 0),
                                   100 * (1 - 0.0045 * 33.75), 1e-9);
}

static void test_bank_volts(void)
{
    static const struct {
        double nominal_v;
        int series, system_v;
    } rows[] = {{12, 1, 12}, {12.8, 1, 12}, {12.8, 2, 24}, {12.8, 4, 48},
                {6, 2, 12},  {2, 12, 24},   {25.6, 1, 24}, {25.6, 2, 48},
                {12, 3, 0},  {14.8, 1, 0},  {6, 1, 0},     {3.2, 4, 12}};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        WbStorage storage = battery;
        storage.nominal_v = rows[i].nominal_v;
        WbBankVolts volts = wb_bank_volts(&storage, &lead_acid, rows[i].series);
        g_assert_cmpint(volts.system_v, ==, rows[i].system_v);
        g_assert_cmpfloat_with_epsilon(volts.nominal_v, rows[i].nominal_v * rows[i].series, 1e-9);
    }
    g_assert_cmpfloat_with_epsilon(wb_bank_volts(&battery, &lead_acid, 2).charge_v, 28.8, 1e-9);
    WbStorage own = battery;
    own.charge_v = 14.1;
    g_assert_cmpfloat_with_epsilon(wb_bank_volts(&own, &lead_acid, 2).charge_v, 28.2, 1e-9);
}

static void test_own_figures_before_chemistry(void)
{
    WbStorage own = battery;
    g_assert_cmpfloat(wb_depth_limit(&own, &lead_acid), ==, 0.5);
    g_assert_cmpfloat(wb_peukert_exponent(&own, &lead_acid), ==, 1.2);
    own.depth_limit = 0.7;
    own.peukert = 1.1;
    g_assert_cmpfloat(wb_depth_limit(&own, &lead_acid), ==, 0.7);
    g_assert_cmpfloat(wb_peukert_exponent(&own, &lead_acid), ==, 1.1);
}

static void test_peukert(void)
{
    static const struct {
        double capacity_ah, peukert, current_a, hours, amp_hours;
    } rows[] = {{100, 1.2, 5, 20.00, 100},
                {100, 1.2, 10, 8.706, 87.1},
                {100, 1.2, 20, 3.789, 75.8},
                {100, 1.05, 20, 4.665, 93.3},
                {200, 1.25, 40, 3.536, 141.4}};
    const char *source = "Peukert t = H (C/(I H))^k (recomputed)";
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        double hours =
            wb_peukert_hours(rows[i].capacity_ah, 20, rows[i].peukert, rows[i].current_a, 1);
        published(source, hours, rows[i].hours, 0.001 * rows[i].hours);
        published(source, hours * rows[i].current_a, rows[i].amp_hours, 0.001 * rows[i].amp_hours);
        /* What the rate leaves of the capacity is the factor that usable capacity carries. */
        g_assert_cmpfloat_with_epsilon(
            wb_rate_factor(rows[i].capacity_ah, 20, rows[i].peukert, rows[i].current_a),
            hours * rows[i].current_a / rows[i].capacity_ah, 1e-9);
    }
    published("common practice: 100 Ah at 10 A to half", wb_peukert_hours(100, 20, 1, 10, 0.5), 5,
              0.005);
    published("common practice: 100 Ah at 10 A to half, k 1.2",
              wb_peukert_hours(100, 20, 1.2, 10, 0.5), 4.35, 0.005);
    g_assert_true(isinf(wb_peukert_hours(100, 20, 1.2, 0, 0.5)));
}

/* IEEE 485 Table 1 (from memory): 1.52 at -3.9 C and 1.30 at 4.4 C, so 0.71 of capacity at 0 C. */
static void test_temperature_factor(void)
{
    WbChemistry ieee = {.capacity_by_c = {3, {{-3.9, 1 / 1.52}, {4.4, 1 / 1.30}, {25, 1}}}};
    published("IEEE 485 Table 1 (from memory)", wb_temperature_factor(&ieee, 0), 0.71, 0.03 * 0.71);
    g_assert_cmpfloat(wb_temperature_factor(&lead_acid, 40), ==, 1);
    g_assert_cmpfloat_with_epsilon(wb_temperature_factor(&lead_acid, -40), 0.5, 1e-12);
    WbChemistry no_curve = {0};
    g_assert_cmpfloat(wb_temperature_factor(&no_curve, -40), ==, 1);
    for (double c = -60; c <= 80; c += 0.5)
        g_assert_cmpfloat(wb_temperature_factor(&lead_acid, c), <=, 1);
}

/* 12 V x 100 Ah x 2 strings x 0.5; 1440 Wh over 12 h is 5 A a string, the rated current. */
static void test_usable_by_hand(void)
{
    g_assert_cmpfloat_with_epsilon(wb_usable_wh(&battery, &lead_acid, 1, 2, 25, 1440, 12), 1200,
                                   1e-9);
    double doubled = 1200 * pow(0.5, 0.2);
    g_assert_cmpfloat_with_epsilon(wb_usable_wh(&battery, &lead_acid, 1, 2, 25, 2880, 12), doubled,
                                   1e-9);
    g_assert_cmpfloat_with_epsilon(wb_usable_wh(&battery, &lead_acid, 2, 2, -20, 2880, 12), 1200,
                                   1e-9);
}

/* The current usable capacity is reckoned at, read back from its rate factor (5 / I)^0.2. */
static void test_current_of_watts(void)
{
    double factor = wb_usable_wh(&battery, &lead_acid, 1, 1, 25, 110, 1) / 600;
    published("common practice: 110 W at 12 V", 5 / pow(factor, 5), 9.2, 0.05);
}

static void test_usable_never_grows_with_load(void)
{
    for (int chemistry_c = -30; chemistry_c <= 45; chemistry_c += 15) {
        double before = INFINITY;
        for (double dark_wh = 0; dark_wh <= 20000; dark_wh += 100) {
            double usable = wb_usable_wh(&battery, &lead_acid, 1, 2, chemistry_c, dark_wh, 13);
            g_assert_cmpfloat(usable, <=, before);
            g_assert_cmpfloat(usable, >=, 0);
            before = usable;
        }
    }
    for (double current_a = 0; current_a < 400; current_a += 0.5)
        g_assert_cmpfloat(wb_rate_factor(100, 20, 1.3, current_a), <=, 1);
}

static void test_degenerate_bank(void)
{
    WbStorage empty = battery;
    empty.capacity_ah = 0;
    g_assert_cmpfloat(wb_usable_wh(&empty, &lead_acid, 1, 1, 20, 500, 12), ==, 0);
    g_assert_cmpfloat(wb_usable_wh(&battery, &lead_acid, 0, 1, 20, 500, 12), ==, 0);
    g_assert_cmpfloat(wb_usable_wh(&battery, &lead_acid, 1, 0, 20, 500, 12), ==, 0);
    g_assert_cmpfloat_with_epsilon(wb_usable_wh(&battery, &lead_acid, 1, 1, 25, 0, 0), 600, 1e-9);
    g_assert_cmpfloat(wb_rate_factor(0, 20, 1.2, 5), ==, 0);
    g_assert_cmpfloat(wb_rate_factor(100, 20, 1.2, 0), ==, 1);
    g_assert_cmpfloat(wb_rate_factor(100, 20, 1.0, 500), ==, 1);
}

static void test_inverter(void)
{
    WbInverter inverter = {.continuous_w = 500,
                           .efficiency = {3, {{0.1, 0.7}, {0.5, 0.9}, {1.0, 0.84}}}};
    static const double rows[][2] = {{0, 0.7},    {25, 0.7},   {50, 0.7},   {150, 0.8},
                                     {250, 0.90}, {375, 0.87}, {500, 0.84}, {2000, 0.84}};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++)
        g_assert_cmpfloat_with_epsilon(wb_inverter_efficiency(&inverter, rows[i][0]), rows[i][1],
                                       1e-12);
    inverter.efficiency = (WbCurve){2, {{0, 0}, {1, 1.2}}};
    g_assert_cmpfloat(wb_inverter_efficiency(&inverter, 0), ==, 0.01);
    g_assert_cmpfloat(wb_inverter_efficiency(&inverter, 500), ==, 1);
    inverter.continuous_w = 0;
    g_assert_true(isfinite(wb_inverter_efficiency(&inverter, 0)));
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/energy/cell-by-noct", test_cell_by_noct);
    g_test_add_func("/energy/mounting-adders", test_mounting_adders);
    g_test_add_func("/energy/bonded", test_bonded_costs_power);
    g_test_add_func("/energy/panel-by-hand", test_panel_by_hand);
    g_test_add_func("/energy/bank-volts", test_bank_volts);
    g_test_add_func("/energy/own-figures", test_own_figures_before_chemistry);
    g_test_add_func("/energy/peukert", test_peukert);
    g_test_add_func("/energy/temperature-factor", test_temperature_factor);
    g_test_add_func("/energy/usable-by-hand", test_usable_by_hand);
    g_test_add_func("/energy/current-of-watts", test_current_of_watts);
    g_test_add_func("/energy/usable-falls", test_usable_never_grows_with_load);
    g_test_add_func("/energy/degenerate-bank", test_degenerate_bank);
    g_test_add_func("/energy/inverter", test_inverter);
    g_test_add_func("/energy/published-count", published_count);
    return g_test_run();
}
