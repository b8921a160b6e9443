/* One circuit: the fuse by current, volts and fault current, the conductor by current, fuse and
 * drop, and what is said where one of them fails. Whole kits: tests/core/wiring.c. */
#include "circuit.h"
#include "finding.h"
#include "published.h"

#define SOLD(minor)                                                                                \
    {                                                                                              \
        .priced = true, .price_minor = minor, .weight_g = 10                                       \
    }

/* Fuses as the trade sells them; DC ratings from memory. */
static const WbFuse fuses[] = {
    {{"blade-10"}, WB_FUSE_BLADE, 10, 32, 1000},
    {{"blade-20"}, WB_FUSE_BLADE, 20, 32, 1000},
    {{"blade-40"}, WB_FUSE_BLADE, 40, 32, 1000},
    {{"midi-60"}, WB_FUSE_MIDI, 60, 32, 1000},
    {{"mega-100"}, WB_FUSE_MEGA, 100, 32, 2000},
    {{"anl-150"}, WB_FUSE_ANL, 150, 32, 6000},
    {{"class-t-200"}, WB_FUSE_CLASS_T, 200, 125, 20000},
    {{"gpv-30"}, WB_FUSE_GPV, 30, 1000, 20000},
};
static const WbConductor conductors[] = {
    {{"mm2-2.5"}, WB_SIZE_METRIC, "2.5", 2.5, 7.98, 75},
    {{"mm2-6"}, WB_SIZE_METRIC, "6", 6, 3.30, 75},
    {{"mm2-16"}, WB_SIZE_METRIC, "16", 16, 1.21, 75},
    {{"mm2-35"}, WB_SIZE_METRIC, "35", 35, 0.554, 75},
    {{"mm2-70"}, WB_SIZE_METRIC, "70", 70, 0.272, 75},
};
static const WbFitting holder = {{"holder"}, WB_FITTING_HOLDER, WB_FUSE_BLADE, 40, 32};

#define N_FUSES G_N_ELEMENTS(fuses)
#define N_CONDUCTORS G_N_ELEMENTS(conductors)

typedef struct {
    WbConductorChoice conductor[N_CONDUCTORS];
    WbFuseChoice fuse[N_FUSES];
    WbFittingChoice fitting[1];
    WbWireStock stock;
} Shelf;

static void fill(Shelf *shelf, int rule_set, double ambient_c)
{
    static const int order[N_FUSES] = {0, 1, 7, 2, 3, 4, 5, 6}; /* by rating */
    *shelf = (Shelf){.fitting = {{&holder, SOLD(300)}}};
    shelf->stock = (WbWireStock){
        shelf->conductor, N_CONDUCTORS, shelf->fuse, N_FUSES, shelf->fitting, 1, {0}, {0}};
    shelf->stock.inside = shelf->stock.on_roof = (WbLaying){rule_set, ambient_c, 1, 75};
    for (size_t i = 0; i < N_CONDUCTORS; i++) {
        WbAmpacity amps = wb_ampacity(conductors[i].area_mm2, 75, &shelf->stock.inside);
        shelf->conductor[i] = (WbConductorChoice){
            &conductors[i], SOLD(100 * (int64_t)conductors[i].area_mm2), amps, amps, NULL, {0}};
    }
    for (size_t i = 0; i < N_FUSES; i++)
        shelf->fuse[i] = (WbFuseChoice){&fuses[order[i]], SOLD(100)};
}

static WbCircuitAsk ask(double run_a, double one_way_m)
{
    return (WbCircuitAsk){.kind = WB_CIRCUIT_CHARGE,
                          .load = -1,
                          .count = 1,
                          .one_way_m = one_way_m,
                          .wire_m = 2 * one_way_m,
                          .run_a = run_a,
                          .design_a = 1.25 * run_a,
                          .volts = 12,
                          .most_v = 14.4,
                          .allowed_pct = 3,
                          .fault_a = 900,
                          .most_fuse_a = INFINITY,
                          .fused = true};
}

static WbCircuit sized(const WbCircuitAsk *asked)
{
    Shelf shelf;
    WbCircuit circuit;
    fill(&shelf, WB_RULES_ROAD_VEHICLE, 30);
    wb_circuit_size(&shelf.stock, asked, &circuit, NULL, NULL);
    return circuit;
}

static void assert_fault(const WbCircuit *circuit, WbCircuitFault fault, double value, double limit)
{
    g_assert_cmpint(circuit->fault, ==, fault);
    g_assert_null(circuit->conductor);
    g_assert_cmpint(circuit->cost_minor, ==, 0);
    g_assert_cmpfloat_with_epsilon(circuit->value, value, 1e-9);
    g_assert_cmpfloat_with_epsilon(circuit->limit, limit, 1e-9);
}

/* 16 A run, 20 A design: the 20 A blade, not the 30 A one; 2.5 mm2 counts as 14 AWG (15 A) and is
 * too thin, 6 mm2 as 10 AWG. */
static void test_current_decides(void)
{
    WbCircuitAsk asked = ask(16, 1);
    WbCircuit circuit = sized(&asked);
    g_assert_cmpint(circuit.fault, ==, WB_CIRCUIT_SOUND);
    g_assert_cmpstr(circuit.fuse->part.id, ==, "blade-20");
    g_assert_cmpstr(circuit.conductor->part.id, ==, "mm2-6");
    g_assert_false(circuit.by_drop);
    /* By hand: 35 A heat it by 45 K; 30 + 45 (16/35)^2 = 39.40 C; 3.30 x 269.40 / 250 = 3.5561
     * ohm/km; 2 m: 0.1138 V, 0.948 %. */
    g_assert_cmpfloat_with_epsilon(circuit.conductor_c, 39.404, 0.001);
    g_assert_cmpfloat_with_epsilon(circuit.drop_pct, 0.9483, 0.0001);
    g_assert_cmpint(circuit.cost_minor, ==, 1200 + 100 + 300);
    g_assert_cmpint(circuit.weight_g, ==, 20 + 10 + 10);
    g_assert_cmpstr(circuit.holder->part.id, ==, "holder");
}

/* Five times as long: the drop asks for more copper. */
static void test_drop_decides(void)
{
    WbCircuitAsk asked = ask(16, 5);
    WbCircuit circuit = sized(&asked);
    g_assert_cmpstr(circuit.conductor->part.id, ==, "mm2-16");
    g_assert_true(circuit.by_drop);
    g_assert_cmpfloat(circuit.drop_pct, <=, 3);
    asked.before_pct = 2;
    circuit = sized(&asked);
    g_assert_cmpstr(circuit.conductor->part.id, ==, "mm2-35");
    g_assert_cmpfloat_with_epsilon(circuit.total_pct, 2 + circuit.drop_pct, 1e-12);
    asked.before_pct = 2.9;
    WbCircuit none = sized(&asked);
    assert_fault(&none, WB_CIRCUIT_OVER_DROP, none.value, 3);
    g_assert_cmpfloat(none.value, >, 3);
}

/* No size between design current and what the conductor may be fused at: it grows. 41 A ask for the
 * 60 A fuse, which 10 mm2 (50 A) may not have. */
static void test_conductor_grows(void)
{
    WbCircuitAsk asked = ask(32.8, 0.5);
    WbCircuit circuit = sized(&asked);
    g_assert_cmpstr(circuit.fuse->part.id, ==, "midi-60");
    g_assert_cmpstr(circuit.conductor->part.id, ==, "mm2-16");
    g_assert_cmpfloat(circuit.ampacity.fuse_a, >=, 60);
    asked.fused = false;
    circuit = sized(&asked);
    g_assert_null(circuit.fuse);
    g_assert_cmpstr(circuit.conductor->part.id, ==, "mm2-16");
}

/* A bank of 5 mohm, 12.8 V of lithium iron phosphate: 2.56 kA, charged to 14.4 V 2.9 kA, and the
 * fuses that break it; a 48 V bank rules out every 32 V type. DC ratings of fuses from memory. */
static void test_fault_current_decides(void)
{
    published("12.8 V over 5 mohm", wb_fault_a(12.8, 5, 0), 2560, 1);
    published("14.4 V over 5 mohm", wb_fault_a(14.4, 5, 0), 2880, 1);
    published("14.4 V over 5 mohm and 1 mohm of cable", wb_fault_a(14.4, 5, 1), 2400, 1);
    WbCircuitAsk asked = ask(60, 0.5);
    asked.fault_a = wb_fault_a(14.4, 5, 0);
    g_assert_cmpstr(sized(&asked).fuse->part.id, ==, "anl-150");
    asked.fault_a = 2000;
    g_assert_cmpstr(sized(&asked).fuse->part.id, ==, "mega-100");
    asked.fault_a = 2001;
    g_assert_cmpstr(sized(&asked).fuse->part.id, ==, "anl-150");
    asked.fault_a = 900;
    asked.most_v = 58.4;
    g_assert_cmpstr(sized(&asked).fuse->part.id, ==, "class-t-200");
    asked = ask(8, 1);
    asked.most_v = 58.4;
    g_assert_cmpstr(sized(&asked).fuse->part.id, ==, "gpv-30");
}

static void test_faults(void)
{
    WbCircuitAsk asked = ask(144, 0.5);
    WbCircuit circuit = sized(&asked); /* 180 A, fuse 200 A; 70 mm2 counts as 2/0: 175 A */
    assert_fault(&circuit, WB_CIRCUIT_OVER_AMPS, 180, 175);
    asked.design_a = 171;
    circuit = sized(&asked); /* 171 A are carried, but not with the 200 A fuse */
    assert_fault(&circuit, WB_CIRCUIT_UNPROTECTED, 200, 175);
    asked.design_a = 201;
    circuit = sized(&asked);
    assert_fault(&circuit, WB_CIRCUIT_OVER_FUSE_A, 201, 200);
    asked.fault_a = 20001;
    circuit = sized(&asked);
    assert_fault(&circuit, WB_CIRCUIT_OVER_INTERRUPT, 20001, 20000);
    asked.most_v = 1001;
    circuit = sized(&asked);
    assert_fault(&circuit, WB_CIRCUIT_OVER_FUSE_V, 1001, 1000);
    asked = ask(8.1, 1);
    asked.most_fuse_a = 15;
    circuit = sized(&asked);
    assert_fault(&circuit, WB_CIRCUIT_OVER_SERIES_FUSE, 20, 15);
    asked.most_fuse_a = 20;
    g_assert_cmpint(sized(&asked).fault, ==, WB_CIRCUIT_SOUND);
}

static void test_nothing_sold(void)
{
    const WbWireStock none = {0};
    WbCircuitAsk asked = ask(10, 1);
    WbCircuit circuit;
    wb_circuit_size(&none, &asked, &circuit, NULL, NULL);
    assert_fault(&circuit, WB_CIRCUIT_OVER_FUSE_V, 14.4, 0);
    asked.fused = false;
    wb_circuit_size(&none, &asked, &circuit, NULL, NULL);
    assert_fault(&circuit, WB_CIRCUIT_OVER_AMPS, 12.5, 0);
}

/* A data sheet's resistance, the chemistry's, the low default. */
static void test_battery_resistance(void)
{
    WbChemistry lfp = {.cell_v = 3.2, .cell_mohm_100ah = 0.5};
    WbStorage battery = {.nominal_v = 12.8, .capacity_ah = 200, .internal_mohm = 1.9};
    uint32_t assumed = 0;
    g_assert_cmpfloat(wb_battery_mohm(&battery, &lfp, &assumed), ==, 1.9);
    g_assert_cmpuint(assumed, ==, 0);
    battery.internal_mohm = WB_MISSING;
    g_assert_cmpfloat_with_epsilon(wb_battery_mohm(&battery, &lfp, &assumed), 4 * 0.5 / 2, 1e-12);
    g_assert_cmpuint(assumed, ==, WB_ASSUMED_INTERNAL_R);
    lfp.cell_mohm_100ah = WB_MISSING;
    g_assert_cmpfloat_with_epsilon(wb_battery_mohm(&battery, &lfp, &assumed), 4 * 0.4 / 2, 1e-12);
}

static void test_fuse_place(void)
{
    published("33 CFR 183.455, 7 inches", wb_fuse_within_mm(WB_RULES_BOAT), 7 * 25.4, 0.3);
    published("NEC 240.21, at the source", wb_fuse_within_mm(WB_RULES_BUILDING), 0, 0);
    published("NEC 240.21, at the source", wb_fuse_within_mm(WB_RULES_ROAD_VEHICLE), 0, 0);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/circuit/current-decides", test_current_decides);
    g_test_add_func("/circuit/drop-decides", test_drop_decides);
    g_test_add_func("/circuit/conductor-grows", test_conductor_grows);
    g_test_add_func("/circuit/fault-current-decides", test_fault_current_decides);
    g_test_add_func("/circuit/faults", test_faults);
    g_test_add_func("/circuit/nothing-sold", test_nothing_sold);
    g_test_add_func("/circuit/battery-resistance", test_battery_resistance);
    g_test_add_func("/circuit/fuse-place", test_fuse_place);
    g_test_add_func("/circuit/published-count", published_count);
    return g_test_run();
}
