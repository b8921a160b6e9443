/* Panel strings and what joins them. Design current 1.5625 x Isc (NEC 690.8(A)(1), (B)(1)); the
 * drop at Imp, a share of the string's Vmp: common practice. */
#include "loom.h"

#define SUN 1.25            /* brighter than 1000 W/m2: NEC 690.8(A)(1) */
#define STRING_DROP_PCT 1.0 /* of the 3 % from panel to controller: common practice */
#define SERIES_FUSE_A 15.0  /* where a data sheet gives none */

static WbCircuitAsk ask_of(const WbProblem *problem, const WbKit *kit, WbCircuitKind kind,
                           int strings)
{
    const WbPanel *panel = problem->panels[kit->panel].panel;
    WbCircuitAsk ask = wb_loom_ask(problem, kind);
    ask.run_a = strings * panel->imp_a;
    ask.design_a = WB_CONTINUOUS * SUN * panel->isc_a * strings;
    ask.volts = kit->n_series * panel->vmp_v;
    ask.most_v = kit->n_series * wb_cold_voc_v(panel, problem->design_cold_c, &ask.assumed);
    return ask;
}

/* The other strings feed a short in one (690.9(A)); two can do no harm to a panel that takes them.
 */
static void ask_fuse(const WbPanel *panel, int strings, WbCircuitAsk *ask)
{
    bool given = !isnan(panel->series_fuse_a);
    double most_a = given ? panel->series_fuse_a : SERIES_FUSE_A;
    ask->fault_a = (strings - 1) * SUN * panel->isc_a;
    ask->fused = ask->fault_a > most_a;
    if (!ask->fused)
        return;
    ask->most_fuse_a = most_a;
    ask->assumed |= given ? 0 : WB_ASSUMED_SERIES_FUSE;
}

/* One string alone needs no fuse (690.9(A)); several meet behind one. A switch opens the array. */
void wb_loom_array(const WbProblem *problem, const WbKit *kit, WbLoom *loom)
{
    if (!problem->brief->wiring.on)
        return;
    int strings = wb_strings_of_one(kit);
    const WbPanel *panel = problem->panels[kit->panel].panel;
    WbCircuit circuit = {0};
    if (strings > 1) {
        WbCircuitAsk string = ask_of(problem, kit, WB_CIRCUIT_STRING, 1);
        string.count = kit->n_parallel;
        string.allowed_pct = STRING_DROP_PCT;
        ask_fuse(panel, strings, &string);
        wb_loom_circuit(problem, loom, &string, &circuit);
    }
    WbCircuitAsk array = ask_of(problem, kit, WB_CIRCUIT_ARRAY, strings);
    array.count = kit->n_controllers;
    array.before_pct = circuit.drop_pct;
    array.fault_a = strings * SUN * panel->isc_a;
    array.fused = strings > 1;
    array.switched = true;
    if (strings == 1) {
        array.one_way_m += problem->brief->wiring.length_m[WB_CIRCUIT_STRING];
        array.wire_m = 2 * array.one_way_m;
    }
    wb_loom_circuit(problem, loom, &array, &circuit);
}
