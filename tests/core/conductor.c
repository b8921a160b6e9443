/* Copper conductors against the published tables: sizes, resistance, what they carry and what
 * lowers it. */
#include "conductor.h"
#include "brief.h"
#include "csv_rows.h"
#include "published.h"
#include <string.h>

static double number(const char *text)
{
    return g_ascii_strtod(text, NULL);
}

/* "2/0" is -1. */
static int gauge_of(const char *text)
{
    return strchr(text, '/') ? 1 - (int)csv_whole((char[]){text[0], 0}) : (int)csv_whole(text);
}

static int size_of(const char *text)
{
    for (int i = 0; i < WB_AWG_SIZES; i++)
        if (wb_awg_gauge(i) == gauge_of(text))
            return i;
    g_error("no gauge %s", text);
}

static void test_gauges(void)
{
    g_autoptr(GPtrArray) rows = csv_rows("awg.csv", 4);
    for (guint i = 0; i < rows->len; i++) {
        GStrv row = rows->pdata[i];
        int gauge = gauge_of(row[0]);
        double inches = wb_awg_diameter_mm(gauge) / 25.4;
        published("ASTM B258, diameter", inches, number(row[1]), 0.002 * inches);
        double mils = inches * inches * 1e6;
        published("HyperPhysics, circular mils", mils, number(row[2]), 0.002 * mils);
        double ohm_1000ft = wb_awg_r20_ohm_km(gauge) * 0.3048;
        published("HyperPhysics, ohm/1000 ft", ohm_1000ft, number(row[3]),
                  fmax(0.0006, 0.003 * ohm_1000ft));
    }
    published("ASTM B258, ratio of a gauge", wb_awg_diameter_mm(9) / wb_awg_diameter_mm(10),
              1.1229322, 1e-6);
    published("ASTM B258, 10 AWG", wb_awg_diameter_mm(10) / 25.4, 0.1019, 0.0002);
    published("ASTM B258, 4/0", wb_awg_diameter_mm(-3) / 25.4, 0.46, 1e-9);
}

/* IEC 60228: R20 = R(T) x kt; and a stranded class 5 conductor is never better than the solid
 * copper of its area. */
static void test_resistance(void)
{
    static const double kt[][2] = {{30, 0.962}, {50, 0.893}, {70, 0.833}, {90, 0.781}};
    for (size_t i = 0; i < G_N_ELEMENTS(kt); i++)
        published("IEC 60228, kt", 1 / wb_resistance_at(1, kt[i][0]), kt[i][1], 0.0006);
    published("4 mm2 class 5, 10 A, 5 m, 20 C", wb_drop_v(wb_resistance_at(4.95, 20), 5, 10), 0.495,
              1e-9);
    published("4 mm2 class 5, 10 A, 5 m, 60 C", wb_drop_v(wb_resistance_at(4.95, 60), 5, 10), 0.573,
              0.002);
    g_autoptr(GPtrArray) rows = csv_rows("resistance.csv", 3);
    for (guint i = 0; i < rows->len; i++) {
        GStrv row = rows->pdata[i];
        double ohm_mm2_km = number(row[0]) * number(row[2]);
        published("IEC 60228 class 5, R x mm2", ohm_mm2_km, 19.4, 1.0);
        g_assert_cmpfloat(number(row[2]) * 1.01, >=, number(row[1]));
    }
}

/* The handbook's formulas, and the size up from what they ask. */
static void test_handbook_sizes(void)
{
    double tenth = wb_handbook_circular_mils(10, 21, 1.2),
           third = wb_handbook_circular_mils(10, 21, 0.36);
    published("marine handbook example, 10 %", tenth, 1881, 1);
    published("marine handbook example, 3 %", third, 6271, 1);
    g_assert_cmpfloat(pow(wb_awg_diameter_mm(18) / 0.0254, 2), <, tenth);
    g_assert_cmpfloat(pow(wb_awg_diameter_mm(16) / 0.0254, 2), >=, tenth);
    g_assert_cmpfloat(pow(wb_awg_diameter_mm(14) / 0.0254, 2), <, third);
    g_assert_cmpfloat(pow(wb_awg_diameter_mm(12) / 0.0254, 2), >=, third);
    published("ISO 10133, 20 A, 20 m, 12 V, 3 %", wb_handbook_mm2(20, 20, 0.36), 18.2, 0.05);
    published("ISO 10133, 24 V", wb_handbook_mm2(20, 20, 0.72), 9.1, 0.05);
    published("ISO 10133, 10 %", wb_handbook_mm2(20, 20, 1.2), 5.5, 0.05);
}

static WbLaying laying(int rule_set, double ambient_c, int bundled)
{
    return (WbLaying){
        .rule_set = rule_set, .ambient_c = ambient_c, .bundled = bundled, .terminal_c = 90};
}

static void check_table(const char *file, int rule_set, const int64_t *insulation_c, int columns)
{
    const WbLaying cool = laying(rule_set, 30, 1);
    g_autoptr(GPtrArray) rows = csv_rows(file, 1 + columns);
    for (guint i = 0; i < rows->len; i++) {
        GStrv row = rows->pdata[i];
        double area_mm2 = wb_awg_area_mm2(wb_awg_gauge(size_of(row[0])));
        for (int c = 0; c < columns; c++) {
            WbAmpacity ampacity = wb_ampacity(area_mm2, insulation_c[c], &cool);
            published(file, ampacity.table_a, number(row[1 + c]), 0);
            published(file, ampacity.amps, number(row[1 + c]), 0);
        }
    }
}

static void test_boat_table(void)
{
    static const int64_t insulation_c[] = {60, 75, 80, 90, 105, 125, 200};
    check_table("ampacity_boat.csv", WB_RULES_BOAT, insulation_c, 7);
}

static void test_land_table(void)
{
    static const int64_t insulation_c[] = {60, 75, 90};
    check_table("ampacity_land.csv", WB_RULES_BUILDING, insulation_c, 3);
    check_table("ampacity_land.csv", WB_RULES_ROAD_VEHICLE, insulation_c, 3);
}

static double boat_a(int gauge, int64_t insulation_c, double ambient_c, int bundled)
{
    const WbLaying lies = laying(WB_RULES_BOAT, ambient_c, bundled);
    return wb_ampacity(wb_awg_area_mm2(gauge), insulation_c, &lies).amps;
}

/* 33 CFR 183.425: factors of a space at 50 C; 105 C from two worked examples, the others from
 * memory. */
static void test_hot_spaces(void)
{
    static const struct {
        int64_t insulation_c;
        double factor;
    } hot[] = {{60, 0.58}, {75, 0.75}, {80, 0.78}, {90, 0.82}, {105, 0.85}, {125, 0.89}, {200, 1}};
    for (size_t i = 0; i < G_N_ELEMENTS(hot); i++) {
        double cool_a = boat_a(2, hot[i].insulation_c, 30, 1);
        double hot_a = boat_a(2, hot[i].insulation_c, 50, 1);
        published("33 CFR 183.425, 50 C", hot_a / cool_a, hot[i].factor, 1e-9);
    }
    published("10 AWG 105 C in an engine space", boat_a(10, 105, 50, 1), 51, 0.5);
    published("2 AWG 105 C in an engine space", boat_a(2, 105, 50, 1), 178, 0.6);
    g_assert_cmpfloat(boat_a(2, 105, 60, 1), <, boat_a(2, 105, 50, 1));
    g_assert_cmpfloat(boat_a(2, 60, 60, 1), ==, 0);
}

/* Bundles: boats as common practice has it, from memory; land NEC 310.15(C)(1), from memory. */
static void test_bundles(void)
{
    static const struct {
        int n;
        double boat, land;
    } rows[] = {
        {1, 1, 1},       {2, 1, 1},       {3, 0.7, 1},     {4, 0.6, 0.8},
        {6, 0.6, 0.8},   {7, 0.5, 0.7},   {9, 0.5, 0.7},   {10, 0.5, 0.5},
        {20, 0.5, 0.5},  {21, 0.5, 0.45}, {24, 0.5, 0.45}, {25, 0.4, 0.45},
        {30, 0.4, 0.45}, {31, 0.4, 0.4},  {40, 0.4, 0.4},  {41, 0.4, 0.35},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++) {
        const WbLaying boat = laying(WB_RULES_BOAT, 30, rows[i].n);
        const WbLaying land = laying(WB_RULES_ROAD_VEHICLE, 30, rows[i].n);
        published("bundles on boats", wb_ampacity(21.2, 105, &boat).bundle, rows[i].boat, 0);
        published("NEC 310.15(C)(1)", wb_ampacity(21.2, 90, &land).bundle, rows[i].land, 0);
    }
}

static double land_factor(int64_t insulation_c, double ambient_c)
{
    const WbLaying lies = laying(WB_RULES_BUILDING, ambient_c, 1);
    return wb_ampacity(21.2, insulation_c, &lies).ambient;
}

/* NEC table 310.15(B)(1), warm end of each row, from memory; the code's formula rounds to it. */
static void test_hot_air(void)
{
    static const struct {
        double ambient_c, factor[3];
    } rows[] = {{35, {0.91, 0.94, 0.96}}, {40, {0.82, 0.88, 0.91}}, {45, {0.71, 0.82, 0.87}},
                {50, {0.58, 0.75, 0.82}}, {55, {0.41, 0.67, 0.76}}, {60, {0, 0.58, 0.71}}};
    static const int64_t insulation_c[] = {60, 75, 90};
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++)
        for (int c = 0; c < 3; c++)
            published("NEC 310.15(B)(1)", land_factor(insulation_c[c], rows[i].ambient_c),
                      rows[i].factor[c], 0.0051);
    g_assert_cmpfloat(land_factor(75, 20), ==, 1); /* cooler air is not counted */
    const WbLaying warm = {WB_RULES_BUILDING, 40, 3, 75};
    published("12 AWG 75 C at 40 C", wb_ampacity(wb_awg_area_mm2(12), 75, &warm).amps, 22, 0.1);
}

/* 110.14(C): the terminals' column bounds what better insulation would carry. */
static void test_terminals(void)
{
    static const struct {
        int64_t terminal_c;
        double amps;
    } rows[] = {{60, 55}, {75, 65}, {90, 75}};
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++) {
        WbLaying lies = laying(WB_RULES_ROAD_VEHICLE, 30, 1);
        lies.terminal_c = rows[i].terminal_c;
        published("NEC 310.16 by 110.14(C), 6 AWG", wb_ampacity(wb_awg_area_mm2(6), 90, &lies).amps,
                  rows[i].amps, 0);
    }
}

/* 240.4(D): small conductors. On boats the fuse goes up to what the conductor carries, less than
 * the 150 % that 33 CFR 183.455 allows. */
static void test_largest_fuse(void)
{
    static const struct {
        int gauge;
        double fuse_a;
    } rows[] = {{18, 7}, {16, 10}, {14, 15}, {12, 20}, {10, 30}, {8, 55}};
    const WbLaying land = laying(WB_RULES_ROAD_VEHICLE, 30, 1), boat = laying(WB_RULES_BOAT, 30, 1);
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++)
        published("NEC 240.4(D)", wb_ampacity(wb_awg_area_mm2(rows[i].gauge), 90, &land).fuse_a,
                  rows[i].fuse_a, 0);
    WbAmpacity ten = wb_ampacity(wb_awg_area_mm2(10), 105, &boat);
    published("33 CFR 183.455, 10 AWG", 1.5 * ten.table_a, 90, 1e-9);
    g_assert_cmpfloat(ten.fuse_a, ==, ten.amps);
}

/* A metric size takes what the largest gauge not above it carries. */
static void test_metric_sizes(void)
{
    static const struct {
        double mm2;
        int gauge;
    } rows[] = {{1, 18}, {1.5, 16}, {2.5, 14}, {4, 12},  {6, 10},  {10, 8},  {16, 6},
                {25, 4}, {35, 2},   {50, 1},   {70, -1}, {95, -2}, {120, -3}};
    const WbLaying cool = laying(WB_RULES_BOAT, 30, 1);
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++) {
        g_assert_cmpint(wb_awg_gauge(wb_awg_size_within(rows[i].mm2)), ==, rows[i].gauge);
        g_assert_cmpfloat(wb_ampacity(rows[i].mm2, 105, &cool).table_a, ==,
                          wb_ampacity(wb_awg_area_mm2(rows[i].gauge), 105, &cool).table_a);
    }
    g_assert_cmpint(wb_awg_size_within(0.5), ==, -1);
    g_assert_cmpfloat(wb_ampacity(0.5, 105, &cool).amps, ==, 0);
}

static void test_own_heat(void)
{
    const WbLaying lies = laying(WB_RULES_BUILDING, 40, 1);
    WbAmpacity ampacity = wb_ampacity(wb_awg_area_mm2(6), 75, &lies);
    g_assert_cmpfloat(wb_conductor_c(&ampacity, 40, 0), ==, 40);
    g_assert_cmpfloat_with_epsilon(
        wb_conductor_c(&ampacity, 40, ampacity.table_a * ampacity.ambient), 75, 1e-9);
    g_assert_cmpfloat_with_epsilon(
        wb_conductor_c(&ampacity, 40, ampacity.table_a * ampacity.ambient / 2), 48.75, 1e-9);
}

/* Hotter, more bundled, thinner, worse insulated: never more. */
static void test_never_more(void)
{
    static const int64_t insulation_c[] = {60, 75, 80, 90, 105, 125, 200};
    for (int rules = 0; rules < 3; rules++)
        for (int i = 0; i < 7; i++)
            for (double mm2 = 0.5; mm2 < 150; mm2 *= 1.1)
                for (int c = 10; c < 100; c += 5) {
                    const WbLaying lies = laying(rules, c, c / 5);
                    const WbLaying hotter = laying(rules, c + 5, c / 5);
                    const WbLaying tighter = laying(rules, c, c / 5 + 1);
                    double amps = wb_ampacity(mm2, insulation_c[i], &lies).amps;
                    g_assert_cmpfloat(amps, >=, wb_ampacity(mm2, insulation_c[i], &hotter).amps);
                    g_assert_cmpfloat(amps, >=, wb_ampacity(mm2, insulation_c[i], &tighter).amps);
                    g_assert_cmpfloat(amps, <=,
                                      wb_ampacity(mm2 * 1.2, insulation_c[i], &lies).amps);
                    if (i > 0)
                        g_assert_cmpfloat(amps, >=,
                                          wb_ampacity(mm2, insulation_c[i - 1], &lies).amps);
                }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/conductor/gauges", test_gauges);
    g_test_add_func("/conductor/resistance", test_resistance);
    g_test_add_func("/conductor/handbook-sizes", test_handbook_sizes);
    g_test_add_func("/conductor/boat-table", test_boat_table);
    g_test_add_func("/conductor/land-table", test_land_table);
    g_test_add_func("/conductor/hot-spaces", test_hot_spaces);
    g_test_add_func("/conductor/bundles", test_bundles);
    g_test_add_func("/conductor/hot-air", test_hot_air);
    g_test_add_func("/conductor/terminals", test_terminals);
    g_test_add_func("/conductor/largest-fuse", test_largest_fuse);
    g_test_add_func("/conductor/metric-sizes", test_metric_sizes);
    g_test_add_func("/conductor/own-heat", test_own_heat);
    g_test_add_func("/conductor/never-more", test_never_more);
    g_test_add_func("/conductor/published-count", published_count);
    return g_test_run();
}
