#include "cli_circuits.h"

#include "words_circuit.h"
#include <math.h>

static void part_json(WbJsonOut *json, const char *key, const void *part)
{
    wb_out_text(json, key, part == NULL ? NULL : ((const WbPart *)part)->id);
}

static const char *fault_code(WbCircuitFault fault)
{
    static const char *const codes[WB_N_CIRCUIT_FAULTS] = {
        [WB_CIRCUIT_SOUND] = NULL,
        [WB_CIRCUIT_OVER_AMPS] = "over-ampacity",
        [WB_CIRCUIT_OVER_DROP] = "over-drop",
        [WB_CIRCUIT_OVER_FUSE_V] = "over-fuse-volts",
        [WB_CIRCUIT_OVER_INTERRUPT] = "over-interrupting",
        [WB_CIRCUIT_OVER_FUSE_A] = "over-fuse-ratings",
        [WB_CIRCUIT_OVER_SERIES_FUSE] = "over-series-fuse",
        [WB_CIRCUIT_UNPROTECTED] = "unprotected",
    };
    return codes[fault];
}

static void asked_json(WbJsonOut *json, const WbCircuitAsk *ask)
{
    wb_out_number(json, "one_way_m", ask->one_way_m);
    wb_out_number(json, "conductor_m", ask->wire_m);
    wb_out_number(json, "run_a", ask->run_a);
    wb_out_number(json, "design_a", ask->design_a);
    wb_out_number(json, "volts", ask->volts);
    wb_out_number(json, "most_v", ask->most_v);
    wb_out_number(json, "fault_a", ask->fault_a);
    wb_out_number(json, "largest_fuse_of_panel_a", ask->most_fuse_a);
    wb_out_number(json, "before_pct", ask->before_pct);
    wb_out_number(json, "allowed_pct", ask->allowed_pct);
    wb_out_flag(json, "fused", ask->fused);
    wb_out_flag(json, "switched", ask->switched);
}

static void ampacity_json(WbJsonOut *json, const WbAmpacity *ampacity)
{
    wb_out_object(json, "ampacity");
    wb_out_number(json, "table_a", ampacity->table_a);
    wb_out_number(json, "air_factor", ampacity->ambient);
    wb_out_number(json, "bundle_factor", ampacity->bundle);
    wb_out_number(json, "terminals_a", ampacity->terminals);
    wb_out_number(json, "amps", ampacity->amps);
    wb_out_number(json, "largest_fuse_a", ampacity->fuse_a);
    wb_out_end_object(json);
}

static void answer_json(WbJsonOut *json, const WbCircuit *circuit)
{
    part_json(json, "conductor", circuit->conductor);
    part_json(json, "fuse", circuit->fuse);
    part_json(json, "holder", circuit->holder);
    part_json(json, "lug", circuit->lug);
    wb_out_integer(json, "lugs", circuit->ask.lugs);
    part_json(json, "disconnect", circuit->disconnect);
    wb_out_flag(json, "in_block", circuit->in_block);
    wb_out_integer(json, "missing_fittings", circuit->missing_fittings);
    if (circuit->fault != WB_CIRCUIT_SOUND)
        return;
    ampacity_json(json, &circuit->ampacity);
    wb_out_text(json, "decided_by", circuit->by_drop ? "drop" : "current");
    wb_out_number(json, "conductor_c", circuit->conductor_c);
    wb_out_number(json, "ohm_km", circuit->r_ohm_km);
    wb_out_number(json, "drop_v", circuit->drop_v);
    wb_out_number(json, "drop_pct", circuit->drop_pct);
    wb_out_number(json, "total_pct", circuit->total_pct);
    wb_out_integer(json, "cost_minor", circuit->cost_minor);
    wb_out_number(json, "weight_kg", (double)circuit->weight_g / 1e3);
}

static void circuit_json(WbJsonOut *json, const WbProblem *problem, const WbKit *kit,
                         const WbCircuit *circuit)
{
    const WbCircuitAsk *ask = &circuit->ask;
    g_autofree char *place = wb_words_fuse_place(problem, circuit);
    g_autofree char *sentence = wb_words_circuit_line(problem, circuit);
    wb_out_object(json, NULL);
    wb_out_text(json, "circuit", wb_circuit_name(ask->kind));
    wb_out_text(json, "load", ask->load >= 0 ? problem->brief->loads[ask->load].name : NULL);
    wb_out_integer(json, "count", ask->count);
    wb_out_text(json, "sentence", sentence);
    asked_json(json, ask);
    wb_out_text(json, "fault", fault_code(circuit->fault));
    wb_out_number(json, "value", circuit->value);
    wb_out_number(json, "limit", circuit->limit);
    answer_json(json, circuit);
    wb_out_text(json, "fuse_place", place);
    wb_out_text(json, "caution", wb_words_circuit_safety(problem, kit, ask->kind));
    wb_out_end_object(json);
}

static void blocks_json(WbJsonOut *json, const WbWiring *wiring)
{
    wb_out_array(json, "blocks");
    for (int form = 0; form < WB_N_FUSE_FORMS; form++) {
        const WbBlock *block = &wiring->blocks[form];
        if (block->block == NULL)
            continue;
        wb_out_object(json, NULL);
        part_json(json, "part", block->block);
        wb_out_integer(json, "count", block->count);
        wb_out_end_object(json);
    }
    wb_out_end_array(json);
}

static void notes_json(WbJsonOut *json, const WbProblem *problem)
{
    int rules = problem->brief->rule_set;
    wb_out_array(json, "notes");
    wb_out_text(json, NULL, wb_words_earthing(rules));
    wb_out_text(json, NULL, wb_words_polarity(rules));
    wb_out_text(json, NULL, wb_words_disconnects());
    wb_out_text(json, NULL, wb_words_plans_only());
    wb_out_end_array(json);
}

void wb_cli_circuits_json(WbJsonOut *json, const char *key, const WbProblem *problem,
                          const WbKit *kit, const WbWiring *wiring)
{
    if (wiring->n == 0) {
        wb_out_null(json, key);
        return;
    }
    wb_out_object(json, key);
    wb_out_number(json, "bank_fault_a", wiring->bank_fault_a);
    wb_out_number(json, "bus_fault_a", wiring->bus_fault_a);
    wb_out_number(json, "block_fault_a", wiring->block_fault_a > 0 ? wiring->block_fault_a : NAN);
    wb_out_array(json, "list");
    for (gsize i = 0; i < wiring->n; i++)
        circuit_json(json, problem, kit, &wiring->circuit[i]);
    wb_out_end_array(json);
    part_json(json, "bus_bars", wiring->bus);
    blocks_json(json, wiring);
    wb_out_integer(json, "faults", wiring->faults);
    wb_out_integer(json, "missing_fittings", wiring->missing_fittings);
    wb_out_integer(json, "cost_minor", wiring->cost_minor);
    wb_out_number(json, "weight_kg", (double)wiring->weight_g / 1e3);
    notes_json(json, problem);
    wb_out_end_object(json);
}
