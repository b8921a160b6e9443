/* What is said of one conductor, fuse or fitting, against the circuits as they were sized and the
 * figures of the part itself, over random kits. */
#include "wire_why.h"
#include "gen.h"
#include <glib.h>

static WbKit random_kit(const WbProblem *problem, WbRandom *random)
{
    const WbLargest *most = &problem->brief->largest;
    WbKit kit = {
        .panel = (int)wb_random_below(random, problem->n_panels),
        .n_series = 1 + (int)wb_random_below(random, (uint64_t)most->series),
        .n_parallel = 1 + (int)wb_random_below(random, (uint64_t)most->parallel),
        .controller = (int)wb_random_below(random, problem->n_controllers),
        .n_controllers = 1 + (int)wb_random_below(random, (uint64_t)most->controllers),
        .storage = (int)wb_random_below(random, problem->n_storage),
        .bank_series = 1 + (int)wb_random_below(random, (uint64_t)most->bank_series),
        .bank_parallel = 1 + (int)wb_random_below(random, (uint64_t)most->bank_parallel),
        .inverter = (int)wb_random_below(random, problem->n_inverters),
        .dcdc = (int)wb_random_below(random, problem->n_dcdc),
    };
    return kit;
}

static gboolean on_roof(const WbCircuit *circuit)
{
    return circuit->ask.kind == WB_CIRCUIT_STRING || circuit->ask.kind == WB_CIRCUIT_ARRAY;
}

static void check_conductor(const WbConductorChoice *choice, const WbCircuit *circuit,
                            const WbWirePlace *place)
{
    const WbCircuitAsk *ask = &circuit->ask;
    const WbAmpacity *ampacity = on_roof(circuit) ? &choice->on_roof : &choice->inside;
    g_assert_cmpint(place->verdict == WB_WIRE_USED, ==, circuit->conductor == choice->conductor);
    if (place->verdict == WB_WIRE_DEARER) {
        g_assert_cmpint(circuit->fault, ==, WB_CIRCUIT_SOUND);
        g_assert_cmpfloat(place->value, >=, place->limit);
        g_assert_cmpfloat(ampacity->amps, >=, ask->design_a * (1 - 1e-9));
        g_assert_true(!circuit->fuse || ampacity->fuse_a >= circuit->fuse->rating_a);
    }
    if (place->verdict == WB_WIRE_FAULT && place->fault == WB_CIRCUIT_OVER_AMPS) {
        g_assert_cmpfloat(place->limit, ==, ampacity->amps);
        g_assert_cmpfloat(place->value, ==, ask->design_a);
        g_assert_cmpfloat(place->value, >, place->limit);
    }
    if (place->verdict == WB_WIRE_FAULT && place->fault == WB_CIRCUIT_OVER_DROP)
        g_assert_cmpfloat(place->value, >, ask->allowed_pct);
    if (place->verdict == WB_WIRE_FAULT && place->fault == WB_CIRCUIT_UNPROTECTED)
        g_assert_cmpfloat(place->limit, ==, ampacity->fuse_a);
}

static void check_fuse(const WbFuse *fuse, const WbCircuit *circuit, const WbWirePlace *place)
{
    const WbCircuitAsk *ask = &circuit->ask;
    g_assert_true(ask->fused);
    g_assert_cmpint(place->verdict == WB_WIRE_USED, ==, circuit->fuse == fuse);
    if (place->verdict == WB_WIRE_LARGER) {
        g_assert_cmpfloat(place->value, ==, fuse->rating_a);
        g_assert_cmpfloat(fuse->rating_a, >, circuit->fuse->rating_a);
    }
    if (place->verdict == WB_WIRE_DEARER)
        g_assert_cmpfloat(fuse->rating_a, ==, circuit->fuse->rating_a);
    if (place->verdict == WB_WIRE_FAULT && place->fault == WB_CIRCUIT_OVER_FUSE_A)
        g_assert_cmpfloat(fuse->rating_a, <, ask->design_a);
    if (place->verdict == WB_WIRE_FAULT && place->fault == WB_CIRCUIT_OVER_INTERRUPT)
        g_assert_cmpfloat(fuse->interrupt_a, <, ask->fault_a);
}

static gboolean holds(const WbWiring *wiring, const WbCircuit *circuit, const WbFitting *fitting)
{
    switch ((WbFittingRole)fitting->role) {
    case WB_FITTING_HOLDER:
        return circuit->holder == fitting;
    case WB_FITTING_LUG:
        return circuit->lug == fitting;
    case WB_FITTING_SWITCH:
        return circuit->disconnect == fitting;
    case WB_FITTING_BLOCK:
        return circuit->ask.kind == WB_CIRCUIT_FEED &&
               wiring->blocks[fitting->form].block == fitting;
    case WB_FITTING_BUS:
        return circuit->ask.kind == WB_CIRCUIT_MAIN && wiring->bus == fitting;
    }
    return FALSE;
}

static void check_fitting(const WbWiring *wiring, const WbFitting *fitting,
                          const WbCircuit *circuit, const WbWirePlace *place)
{
    g_assert_cmpint(place->verdict == WB_WIRE_USED, ==, holds(wiring, circuit, fitting));
    if (place->verdict == WB_WIRE_AMPS || place->verdict == WB_WIRE_VOLTS)
        g_assert_cmpfloat(place->value, >, place->limit);
    if (place->verdict == WB_WIRE_AREA)
        g_assert_true(place->limit == fitting->min_area_mm2 ||
                      place->limit == fitting->max_area_mm2);
    if (place->verdict == WB_WIRE_DEARER && !isnan(place->limit))
        g_assert_cmpfloat(place->value, >=, place->limit);
}

/* Every circuit in which the part is has its place among those told. */
static size_t count_uses(const WbProblem *problem, const WbWiring *wiring, WbPartKind kind,
                         size_t index)
{
    size_t n = 0;
    for (size_t i = 0; i < wiring->n; i++) {
        const WbCircuit *circuit = &wiring->circuit[i];
        if (kind == WB_KIND_CONDUCTOR)
            n += circuit->conductor == problem->wires.conductors[index].conductor;
        else if (kind == WB_KIND_FUSE)
            n += circuit->fuse == problem->wires.fuses[index].fuse;
        else
            n += holds(wiring, circuit, problem->wires.fittings[index].fitting);
    }
    return n;
}

static void check_part(const WbProblem *problem, const WbWiring *wiring, const char *id,
                       guint64 seen[8])
{
    WbPartKind kind;
    size_t index;
    g_assert_true(wb_wire_find(problem, id, &kind, &index));
    g_autofree WbWirePlace *places = g_new0(WbWirePlace, wiring->n + 1);
    size_t n = wb_wire_why(problem, wiring, kind, index, places), uses = 0;
    g_assert_cmpuint(n, <=, wiring->n);
    for (size_t i = 0; i < n; i++) {
        const WbCircuit *circuit = &wiring->circuit[places[i].circuit];
        seen[places[i].verdict]++;
        uses += places[i].verdict == WB_WIRE_USED;
        if (kind == WB_KIND_CONDUCTOR)
            check_conductor(&problem->wires.conductors[index], circuit, &places[i]);
        else if (kind == WB_KIND_FUSE)
            check_fuse(problem->wires.fuses[index].fuse, circuit, &places[i]);
        else
            check_fitting(wiring, problem->wires.fittings[index].fitting, circuit, &places[i]);
    }
    g_assert_cmpuint(uses, ==, count_uses(problem, wiring, kind, index));
}

static void test_random_kits(void)
{
    WbRandom random;
    wb_random_seed(&random, 77);
    Gen *gen = g_new(Gen, 1);
    guint64 seen[8] = {0};
    for (int i = 0; i < 600; i++) {
        GenSize size = gen_small(&random);
        gen_fill(gen, &random, &size);
        WbProblem *problem;
        g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
        const WbWireStock *stock = &problem->wires;
        if (gen->brief.wiring.on && problem->n_panels && problem->n_controllers &&
            problem->n_storage) {
            WbKit kit = random_kit(problem, &random);
            WbWiring wiring;
            g_assert_cmpint(wb_wiring(problem, &kit, &wiring), ==, WB_OK);
            for (size_t j = 0; j < stock->n_conductors; j++)
                check_part(problem, &wiring, stock->conductors[j].conductor->part.id, seen);
            for (size_t j = 0; j < stock->n_fuses; j++)
                check_part(problem, &wiring, stock->fuses[j].fuse->part.id, seen);
            for (size_t j = 0; j < stock->n_fittings; j++)
                check_part(problem, &wiring, stock->fittings[j].fitting->part.id, seen);
            wb_wiring_free(&wiring);
        }
        WbPartKind kind;
        size_t index;
        g_assert_false(wb_wire_find(problem, "no-such-part", &kind, &index));
        wb_problem_free(problem);
    }
    for (int v = 0; v <= WB_WIRE_DEARER; v++) {
        g_test_message("verdict %d: %" G_GUINT64_FORMAT, v, seen[v]);
        g_assert_cmpuint(seen[v], >, 0);
    }
    g_free(gen);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/wire-why/random-kits", test_random_kits);
    return g_test_run();
}
