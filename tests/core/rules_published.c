/* The rules against published values. Each row names its source; "from memory" means that the
 * source was not at hand when the row was written. */
#include "rules.h"
#include <glib.h>

/* One line a test, for whoever counts. */
static void published(size_t values)
{
    g_test_message("published values: %zu", values);
}

/* NEC (NFPA 70) table 690.7(A), crystalline silicon, from memory: both ends of each row. */
static const struct {
    double warm_c, cold_c, factor;
} nec_690_7[] = {
    {24, 20, 1.02},   {19, 15, 1.04},   {14, 10, 1.06},   {9, 5, 1.08},     {4, 0, 1.10},
    {-1, -5, 1.12},   {-6, -10, 1.14},  {-11, -15, 1.16}, {-16, -20, 1.18}, {-21, -25, 1.20},
    {-26, -30, 1.21}, {-31, -35, 1.23}, {-36, -40, 1.25},
};

static double table_factor(double cold_c)
{
    WbPanel panel = {.voc_v = 1, .voc_coeff_pct_k = WB_MISSING};
    uint32_t assumed = 0;
    double factor = wb_cold_voc_v(&panel, cold_c, &assumed);
    g_assert_cmpuint(assumed, ==, WB_ASSUMED_VOC_TABLE);
    return factor;
}

static void test_cold_voc_table(void)
{
    for (size_t i = 0; i < G_N_ELEMENTS(nec_690_7); i++) {
        g_assert_cmpfloat(table_factor(nec_690_7[i].warm_c), ==, nec_690_7[i].factor);
        g_assert_cmpfloat(table_factor(nec_690_7[i].cold_c), ==, nec_690_7[i].factor);
        /* Between two whole degrees the colder row counts. */
        g_assert_cmpfloat(table_factor(nec_690_7[i].warm_c + 0.5), ==, nec_690_7[i].factor);
    }
    published(G_N_ELEMENTS(nec_690_7));
    g_assert_cmpfloat(table_factor(25), ==, 1);
    g_assert_cmpfloat(table_factor(-55), ==, 1.25);
}

/* NEC 690.7(A)(1) worked in a public study note: Voc 49.5 V, -0.27 %/K, -10 C: 54.18 V each, and
 * 11 in series under 600 V. */
static void test_cold_voc_coefficient(void)
{
    const WbPanel panel = {.voc_v = 49.5, .voc_coeff_pct_k = -0.27, .max_system_v = 600};
    uint32_t assumed = 0;
    double cold_v = wb_cold_voc_v(&panel, -10, &assumed);
    g_assert_cmpfloat_with_epsilon(cold_v, 54.18, 0.001 * 54.18);
    g_assert_cmpfloat_with_epsilon(cold_v / 49.5, 1.0945, 1e-9);
    g_assert_cmpuint(assumed, ==, 0);
    g_assert_true(wb_rule_system_voltage(&panel, 11, -10).holds);
    g_assert_false(wb_rule_system_voltage(&panel, 12, -10).holds);
    published(3);
}

/* The same note, by the table: 3 x 22.5 V at -9 C make 76.95 V, so an input of 75 V fails though
 * 67.5 V at 25 C would pass. */
static void test_cold_morning_string(void)
{
    const WbPanel panel = {.voc_v = 22.5, .voc_coeff_pct_k = WB_MISSING};
    const WbController controller = {.max_pv_v = 75};
    WbFinding cold = wb_rule_cold_voc(&panel, 3, &controller, -9);
    g_assert_cmpfloat_with_epsilon(cold.value, 76.95, 1e-9);
    g_assert_false(cold.holds);
    g_assert_cmpint(cold.severity, ==, WB_STOP);
    WbFinding mild = wb_rule_cold_voc(&panel, 3, &controller, 25);
    g_assert_cmpfloat_with_epsilon(mild.value, 67.5, 1e-9);
    g_assert_true(mild.holds);
    published(2);
}

/* NEC 690.8(A)(1), several public guides: Isc 11 A gives 13.75 A. */
static void test_pv_current(void)
{
    const WbPanel panel = {.isc_a = 11};
    const WbController enough = {.max_pv_a = 13.75}, little = {.max_pv_a = 13.7};
    g_assert_cmpfloat(wb_rule_pv_current(&panel, 1, &enough).value, ==, 13.75);
    g_assert_true(wb_rule_pv_current(&panel, 1, &enough).holds);
    g_assert_false(wb_rule_pv_current(&panel, 1, &little).holds);
    published(1);
}

/* NEC 690.9(A), from memory: Isc 9.5 A, series fuse 15 A: two strings 11.9 A, no fuse; three
 * 23.8 A, one fuse per string; a series fuse of 30 A frees three. */
static const struct {
    double series_fuse_a;
    int strings;
    double back_a;
    bool holds;
} nec_690_9[] = {{15, 1, 0, true}, {15, 2, 11.9, true}, {15, 3, 23.8, false}, {30, 3, 23.8, true}};

static void test_string_fuse(void)
{
    for (size_t i = 0; i < G_N_ELEMENTS(nec_690_9); i++) {
        const WbPanel panel = {.isc_a = 9.5, .series_fuse_a = nec_690_9[i].series_fuse_a};
        WbFinding finding = wb_rule_string_fuse(&panel, nec_690_9[i].strings);
        g_assert_cmpfloat_with_epsilon(finding.value, nec_690_9[i].back_a, 0.051);
        g_assert_cmpint(finding.holds, ==, nec_690_9[i].holds);
    }
    published(G_N_ELEMENTS(nec_690_9));
}

/* TM 10-6140-200-14 table 1-1: freezing point of the electrolyte by state of charge (specific
 * gravity 1.280, 1.250, 1.220, 1.160). A curve made of these points warns on their cold side. */
static const struct {
    double depth, freezing_c;
} tm_1_1[] = {{0, -70.6}, {0.25, -52.2}, {0.5, -35.0}, {0.75, -17.2}};

static void test_freezing(void)
{
    WbChemistry chemistry = {.freezing_by_depth = {.n = G_N_ELEMENTS(tm_1_1)}};
    const WbSite site = {0};
    for (size_t i = 0; i < G_N_ELEMENTS(tm_1_1); i++)
        chemistry.freezing_by_depth.point[i] = (WbPoint){tm_1_1[i].depth, tm_1_1[i].freezing_c};
    for (size_t i = 0; i < G_N_ELEMENTS(tm_1_1); i++) {
        const WbStorage storage = {.depth_limit = tm_1_1[i].depth};
        double at_c = tm_1_1[i].freezing_c;
        g_assert_cmpfloat(wb_rule_freezing(&site, at_c, &storage, &chemistry).limit, ==, at_c);
        g_assert_true(wb_rule_freezing(&site, at_c + 0.1, &storage, &chemistry).holds);
        WbFinding colder = wb_rule_freezing(&site, at_c - 0.1, &storage, &chemistry);
        g_assert_false(colder.holds);
        g_assert_cmpint(colder.severity, ==, WB_CAUTION);
    }
    published(G_N_ELEMENTS(tm_1_1));
}

/* Cell data of lithium iron phosphate, quoted alike by two pages: charging from 0 C. */
static void test_cold_charge(void)
{
    const WbChemistry lfp = {.min_charge_c = 0};
    const WbStorage storage = {0};
    const WbSite site = {.bank_where = WB_BANK_INSIDE, .inside_c = 15};
    g_assert_true(wb_rule_cold_charge(&site, 0, &storage, &lfp).holds);
    WbFinding cold = wb_rule_cold_charge(&site, -5, &storage, &lfp);
    g_assert_false(cold.holds);
    g_assert_cmpint(cold.severity, ==, WB_CAUTION);
    published(1);
}

/* IEC 62485-2, from memory: Q = 0.05 n I_gas C / 1000 m3/h, I_gas in boost charging 20 mA/Ah
 * vented and 8 mA/Ah valve-regulated, in float 5 and 1; two openings of 28 cm2 for each m3/h. The
 * flows are that formula worked by hand. */
static const struct {
    int gassing;
    double part_v, capacity_ah;
    int series, parallel;
    double flow_m3_h, float_m3_h;
} iec_62485[] = {
    {WB_GAS_VENTED, 12, 100, 1, 1, 0.6, 0.15},
    {WB_GAS_VALVE_REGULATED, 12, 100, 1, 1, 0.24, 0.03},
    {WB_GAS_VENTED, 6, 225, 4, 1, 2.7, 0.675},
    {WB_GAS_VALVE_REGULATED, 12, 100, 2, 2, 0.96, 0.12},
};

static void test_ventilation(void)
{
    for (size_t i = 0; i < G_N_ELEMENTS(iec_62485); i++) {
        const WbChemistry lead = {.gassing = iec_62485[i].gassing, .cell_v = 2};
        const WbStorage storage = {.nominal_v = iec_62485[i].part_v,
                                   .capacity_ah = iec_62485[i].capacity_ah};
        const WbSite site = {.sleeping_space = true};
        WbFinding finding =
            wb_rule_ventilation(&site, &storage, &lead, iec_62485[i].series, iec_62485[i].parallel);
        g_assert_cmpfloat_with_epsilon(finding.value, iec_62485[i].flow_m3_h, 1e-9);
        g_assert_cmpfloat_with_epsilon(
            wb_bank_air_m3_h(&storage, &lead, iec_62485[i].series, iec_62485[i].parallel, false),
            iec_62485[i].float_m3_h, 1e-9);
        g_assert_false(finding.holds);
        g_assert_cmpint(finding.severity, ==, WB_CAUTION);
    }
    g_assert_cmpfloat(wb_vent_cm2(0.5), ==, 14);
    const WbChemistry dry = {.gassing = WB_GAS_NONE, .cell_v = 3.2};
    const WbStorage lithium = {.nominal_v = 12.8, .capacity_ah = 100};
    g_assert_cmpfloat(wb_bank_air_m3_h(&lithium, &dry, 1, 1, true), ==, 0);
    published(5); /* four gas currents, the openings */
}

/* Common practice: two 100 W-class panels side by side behind a 20 A controller on 12 V give
 * no stop and need no fuse of their own. */
static void test_two_small_panels(void)
{
    const WbPanel panel = {.power_w = 100,
                           .voc_v = 22.5,
                           .vmp_v = 18.6,
                           .isc_a = 6.4,
                           .cells = 36,
                           .imp_a = 5.4,
                           .voc_coeff_pct_k = -0.3,
                           .noct_c = 45,
                           .max_system_v = WB_MISSING,
                           .series_fuse_a = WB_MISSING};
    const WbController controller = {.technology = WB_CONTROLLER_PWM,
                                     .max_pv_v = 50,
                                     .max_pv_a = 20,
                                     .max_pv_w_12v = 260,
                                     .rated_output_a = 20,
                                     .bus_12v = true,
                                     .efficiency = 1,
                                     .headroom_v = 0.5};
    const WbBankVolts bank = {12, 12, 14.4};
    const WbFinding findings[] = {
        wb_rule_controllers_alike(1),
        wb_rule_unlike_panels(&panel, &panel, 1),
        wb_rule_touch_voltage(&panel, 1, -20, WB_RULES_ROAD_VEHICLE),
        wb_rule_mppt_start(&panel, 1, &controller, &bank, 60),
        wb_rule_pwm_cells(&panel, 1, &controller, &bank),
        wb_rule_system_voltage(&panel, 1, -20),
        wb_rule_cold_voc(&panel, 1, &controller, -20),
        wb_rule_pv_current(&panel, 2, &controller),
        wb_rule_hot_vmp(&panel, 1, &controller, &bank, 60),
        wb_rule_pwm_match(&panel, 1, &controller, &bank, 60),
        wb_rule_array_watts(&panel, 1, 2, &controller, &bank),
        wb_rule_output_clipped(&panel, 1, 2, &controller, &bank),
        wb_rule_string_fuse(&panel, 2),
        wb_rule_controller_bus(&controller, &bank),
    };
    for (size_t i = 0; i < G_N_ELEMENTS(findings); i++) {
        g_test_message("%s: %g against %g", wb_rule_info(findings[i].rule)->code, findings[i].value,
                       findings[i].limit);
        g_assert_true(findings[i].holds || findings[i].severity != WB_STOP);
    }
    g_assert_true(wb_rule_string_fuse(&panel, 2).holds);
    published(1);
}

/* Common practice: PWM wants 36 cells for each 12 V, so 60 cells suit neither 12 V nor 24 V. */
static const struct {
    int64_t cells;
    int series, system_v;
    bool holds;
} cell_counts[] = {{36, 1, 12, true},  {36, 2, 24, true},  {72, 1, 24, true},  {36, 4, 48, true},
                   {60, 1, 12, false}, {60, 1, 24, false}, {72, 1, 12, false}, {36, 1, 24, false}};

static void test_cell_counts(void)
{
    const WbController pwm = {.technology = WB_CONTROLLER_PWM};
    for (size_t i = 0; i < G_N_ELEMENTS(cell_counts); i++) {
        const WbPanel panel = {.cells = cell_counts[i].cells};
        const WbBankVolts bank = {.system_v = cell_counts[i].system_v};
        g_assert_cmpint(wb_rule_pwm_cells(&panel, cell_counts[i].series, &pwm, &bank).holds, ==,
                        cell_counts[i].holds);
    }
    published(3); /* 36 cells for 12 V, 72 for 24 V, 60 for neither */
}

/* 33 CFR 183.401: the rules for boats are for less than 50 V. NEC 110.27(A), from memory: live
 * parts of 60 V dc and more are guarded. */
static void test_touch_voltage(void)
{
    const WbPanel panel = {.voc_v = 55, .voc_coeff_pct_k = 0};
    g_assert_false(wb_rule_touch_voltage(&panel, 1, -10, WB_RULES_BOAT).holds);
    g_assert_cmpfloat(wb_rule_touch_voltage(&panel, 1, -10, WB_RULES_BOAT).limit, ==, 50);
    g_assert_true(wb_rule_touch_voltage(&panel, 1, -10, WB_RULES_BUILDING).holds);
    g_assert_cmpfloat(wb_rule_touch_voltage(&panel, 1, -10, WB_RULES_BUILDING).limit, ==, 60);
    published(2);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/rules-published/cold-voc-table", test_cold_voc_table);
    g_test_add_func("/rules-published/cold-voc-coefficient", test_cold_voc_coefficient);
    g_test_add_func("/rules-published/cold-morning-string", test_cold_morning_string);
    g_test_add_func("/rules-published/pv-current", test_pv_current);
    g_test_add_func("/rules-published/string-fuse", test_string_fuse);
    g_test_add_func("/rules-published/freezing", test_freezing);
    g_test_add_func("/rules-published/cold-charge", test_cold_charge);
    g_test_add_func("/rules-published/ventilation", test_ventilation);
    g_test_add_func("/rules-published/two-small-panels", test_two_small_panels);
    g_test_add_func("/rules-published/cell-counts", test_cell_counts);
    g_test_add_func("/rules-published/touch-voltage", test_touch_voltage);
    return g_test_run();
}
