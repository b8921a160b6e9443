/* A kit, its brief and a wiring made by hand, of as many loads, strings and controllers as a test
 * asks for. */
#ifndef WB_TEST_DIAGRAM_PARTS_H
#define WB_TEST_DIAGRAM_PARTS_H

#include "wiring.h"
#include <glib.h>

#define MOST_LOADS 40

typedef struct {
    WbBrief brief;
    WbLoad load[MOST_LOADS];
    char name[MOST_LOADS][80];
    WbPanel panel;
    WbController controller;
    WbStorage storage;
    WbChemistry chemistry;
    WbInverter inverter;
    WbDcdc dcdc;
    WbPanelChoice panels[1];
    WbControllerChoice controllers[1];
    WbStorageChoice storages[1];
    WbInverterChoice inverters[2];
    WbDcdcChoice dcdcs[2];
    WbConductor conductor;
    WbFuse fuse;
    WbProblem problem;
    WbKit kit;
    WbCircuit circuit[WB_N_CIRCUITS + MOST_LOADS];
    WbWiring wiring;
} Parts;

typedef struct {
    int loads, strings, series, controllers, bank_strings;
    gboolean inverter, dcdc, shore, faulty, long_names;
    int rule_set;
} Wish;

static inline WbCircuit *parts_add(Parts *parts, WbCircuitKind kind, int count, gboolean faulty)
{
    WbCircuit *circuit = &parts->circuit[parts->wiring.n++];
    *circuit = (WbCircuit){.ask = {.kind = kind,
                                   .load = -1,
                                   .count = count,
                                   .one_way_m = 12.5,
                                   .wire_m = 25,
                                   .run_a = 104.2,
                                   .design_a = 130.25,
                                   .volts = 12,
                                   .most_v = 14.6,
                                   .allowed_pct = 3,
                                   .fault_a = 2315,
                                   .most_fuse_a = INFINITY,
                                   .fused = TRUE,
                                   .switched = kind == WB_CIRCUIT_ARRAY || kind == WB_CIRCUIT_MAIN},
                           .fault = faulty ? WB_CIRCUIT_OVER_AMPS : WB_CIRCUIT_SOUND,
                           .value = faulty ? 130.25 : NAN,
                           .limit = faulty ? 95 : NAN,
                           .conductor = faulty ? NULL : &parts->conductor,
                           .fuse = faulty ? NULL : &parts->fuse,
                           .ampacity = {195, 90, 0.87, 0.8, 150, 135.7, 135.7},
                           .conductor_c = 71,
                           .r_ohm_km = 0.637,
                           .drop_v = 0.166,
                           .drop_pct = 1.38,
                           .total_pct = 2.11,
                           .cost_minor = 12345,
                           .weight_g = 2345};
    return circuit;
}

static inline void parts_wire(Parts *parts, const Wish *wish)
{
    if (wish->strings / wish->controllers > 1)
        parts_add(parts, WB_CIRCUIT_STRING, wish->strings, FALSE);
    parts_add(parts, WB_CIRCUIT_ARRAY, wish->controllers, FALSE);
    parts_add(parts, WB_CIRCUIT_CHARGE, wish->controllers, wish->faulty);
    if (wish->dcdc) {
        parts_add(parts, WB_CIRCUIT_DCDC_IN, 1, FALSE);
        parts_add(parts, WB_CIRCUIT_DCDC_OUT, 1, FALSE);
    }
    if (wish->shore)
        parts_add(parts, WB_CIRCUIT_SHORE, 1, FALSE);
    if (wish->bank_strings > 1)
        parts_add(parts, WB_CIRCUIT_BATTERY, wish->bank_strings, FALSE);
    parts_add(parts, WB_CIRCUIT_MAIN, 1, FALSE);
    if (wish->inverter)
        parts_add(parts, WB_CIRCUIT_INVERTER, 1, wish->faulty);
    if (wish->loads > 0)
        parts_add(parts, WB_CIRCUIT_FEED, 1, FALSE);
    for (int i = 0; i < wish->loads; i++)
        parts_add(parts, WB_CIRCUIT_LOAD, 1, wish->faulty && i % 5 == 2)->ask.load = i;
    parts->wiring.circuit = parts->circuit;
}

static inline void parts_fill(Parts *parts, const Wish *wish)
{
    *parts = (Parts){
        .panel = {.part = {.model = "Alder 240"}, .power_w = 240},
        .controller = {.part = {.model = "Tide 30"},
                       .technology = WB_CONTROLLER_MPPT,
                       .rated_output_a = 30},
        .storage = {.part = {.model = "Kalt 100"}, .capacity_ah = 100},
        .chemistry = {.id = "lfp", .name = "LFP", .family = WB_FAMILY_LITHIUM},
        .inverter = {.part = {.model = "Heron 2000"}, .continuous_w = 2000},
        .dcdc = {.part = {.model = "Weir 30"}, .input_v = 12, .output_a = 30},
        .conductor = {.system = WB_SIZE_METRIC, .size = "70", .insulation_c = 105},
        .fuse = {.form = WB_FUSE_CLASS_T, .rating_a = 250, .max_v = 125, .interrupt_a = 20000}};
    for (int i = 0; i < wish->loads; i++) {
        g_snprintf(parts->name[i], sizeof parts->name[i],
                   wish->long_names ? "Reading lamp over the folding desk at the back, number %d"
                                    : "Lamp %d",
                   i + 1);
        parts->load[i] = (WbLoad){.name = parts->name[i], .power_w = 5 + i, .count = 1 + i % 3};
    }
    parts->panels[0].panel = &parts->panel;
    parts->controllers[0].controller = &parts->controller;
    parts->storages[0].storage = &parts->storage;
    parts->storages[0].chemistry = &parts->chemistry;
    parts->inverters[1].inverter = &parts->inverter;
    parts->dcdcs[1].dcdc = &parts->dcdc;
    parts->brief = (WbBrief){.name = "The Plover",
                             .currency = "EUR",
                             .loads = parts->load,
                             .n_loads = (gsize)wish->loads,
                             .shore = {2, 10},
                             .rule_set = wish->rule_set};
    parts->problem = (WbProblem){.brief = &parts->brief,
                                 .panels = parts->panels,
                                 .controllers = parts->controllers,
                                 .storage = parts->storages,
                                 .inverters = parts->inverters,
                                 .dcdc = parts->dcdcs};
    parts->kit = (WbKit){.n_series = wish->series,
                         .n_parallel = wish->strings,
                         .n_controllers = wish->controllers,
                         .bank_series = 1,
                         .bank_parallel = wish->bank_strings,
                         .inverter = wish->inverter,
                         .dcdc = wish->dcdc};
    parts_wire(parts, wish);
}

#endif
