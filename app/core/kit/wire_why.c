#include "wire_why.h"
#include "round.h"
#include <string.h>

bool wb_wire_find(const WbProblem *problem, const char *id, WbPartKind *kind, size_t *index)
{
    const WbWireStock *stock = &problem->wires;
    for (*index = 0, *kind = WB_KIND_CONDUCTOR; *index < stock->n_conductors; (*index)++)
        if (strcmp(stock->conductors[*index].conductor->part.id, id) == 0)
            return true;
    for (*index = 0, *kind = WB_KIND_FUSE; *index < stock->n_fuses; (*index)++)
        if (strcmp(stock->fuses[*index].fuse->part.id, id) == 0)
            return true;
    for (*index = 0, *kind = WB_KIND_FITTING; *index < stock->n_fittings; (*index)++)
        if (strcmp(stock->fittings[*index].fitting->part.id, id) == 0)
            return true;
    return false;
}

static WbWirePlace place_of(WbWireVerdict verdict, double value, double limit)
{
    return (WbWirePlace){.verdict = verdict, .value = value, .limit = limit};
}

static WbWirePlace used(void)
{
    return place_of(WB_WIRE_USED, WB_MISSING, WB_MISSING);
}

static WbWirePlace failed(const WbCircuit *alone)
{
    WbWirePlace place = place_of(WB_WIRE_FAULT, alone->value, alone->limit);
    place.fault = alone->fault;
    return place;
}

/* ---- conductors and fuses: the circuit sized with nothing else of that kind ---- */

static double copper_minor(const WbWireStock *stock, const WbCircuit *circuit)
{
    const WbCircuitAsk *ask = &circuit->ask;
    for (size_t i = 0; i < stock->n_conductors; i++) {
        const WbConductorChoice *choice = &stock->conductors[i];
        if (choice->conductor != circuit->conductor)
            continue;
        int64_t minor = wb_round_half_up(ask->wire_m * (double)choice->sourced.price_minor);
        return (double)(ask->count *
                        (minor + (choice->lug ? ask->lugs * choice->lug_sourced.price_minor : 0)));
    }
    return WB_MISSING;
}

static WbWirePlace why_conductor(const WbWireStock *stock, size_t index, const WbCircuit *circuit)
{
    WbWireStock only = *stock;
    WbCircuit alone;
    only.conductors = &stock->conductors[index];
    only.n_conductors = 1;
    if (circuit->conductor == only.conductors->conductor)
        return used();
    wb_circuit_size(&only, &circuit->ask, &alone, NULL, NULL);
    if (alone.fault != WB_CIRCUIT_SOUND)
        return failed(&alone);
    return place_of(WB_WIRE_DEARER, copper_minor(stock, &alone), copper_minor(stock, circuit));
}

static double fuse_minor(const WbWireStock *stock, const WbFuse *fuse)
{
    for (size_t i = 0; i < stock->n_fuses; i++)
        if (stock->fuses[i].fuse == fuse)
            return (double)stock->fuses[i].sourced.price_minor;
    return WB_MISSING;
}

static WbWirePlace why_fuse(const WbWireStock *stock, size_t index, const WbCircuit *circuit)
{
    WbWireStock only = *stock;
    WbCircuit alone;
    only.fuses = &stock->fuses[index];
    only.n_fuses = 1;
    const WbFuse *fuse = only.fuses->fuse;
    if (circuit->fuse == fuse)
        return used();
    wb_circuit_size(&only, &circuit->ask, &alone, NULL, NULL);
    /* A larger fuse asks for a thicker conductor; what it lacks then is no fault of the fuse. */
    if (!alone.fuse)
        return failed(&alone);
    if (circuit->fuse && fuse->rating_a > circuit->fuse->rating_a)
        return place_of(WB_WIRE_LARGER, fuse->rating_a, circuit->fuse->rating_a);
    if (alone.fault != WB_CIRCUIT_SOUND)
        return failed(&alone);
    return place_of(WB_WIRE_DEARER, fuse_minor(stock, fuse), fuse_minor(stock, circuit->fuse));
}

/* ---- fittings ---- */

static double fitting_minor(const WbWireStock *stock, const WbFitting *fitting)
{
    for (size_t i = 0; i < stock->n_fittings; i++)
        if (stock->fittings[i].fitting == fitting)
            return (double)stock->fittings[i].sourced.price_minor;
    return WB_MISSING;
}

static WbWirePlace why_rated(const WbWireStock *stock, const WbFitting *fitting, double amps,
                             double volts, const WbFitting *taken)
{
    if (fitting == taken)
        return used();
    if (fitting->max_a < amps)
        return place_of(WB_WIRE_AMPS, amps, fitting->max_a);
    if (fitting->role != WB_FITTING_BUS && fitting->max_v < volts)
        return place_of(WB_WIRE_VOLTS, volts, fitting->max_v);
    return place_of(WB_WIRE_DEARER, fitting_minor(stock, fitting), fitting_minor(stock, taken));
}

static WbWirePlace why_lug(const WbWireStock *stock, const WbFitting *lug, const WbCircuit *circuit)
{
    double mm2 = circuit->conductor->area_mm2;
    if (lug == circuit->lug)
        return used();
    if (mm2 < lug->min_area_mm2 || mm2 > lug->max_area_mm2)
        return place_of(WB_WIRE_AREA, mm2,
                        mm2 < lug->min_area_mm2 ? lug->min_area_mm2 : lug->max_area_mm2);
    return place_of(WB_WIRE_DEARER, fitting_minor(stock, lug), fitting_minor(stock, circuit->lug));
}

static WbWirePlace why_form(const WbWireStock *stock, const WbFitting *fitting, double amps,
                            double volts, bool same_form, const WbFitting *taken)
{
    return same_form ? why_rated(stock, fitting, amps, volts, taken)
                     : place_of(WB_WIRE_FORM, WB_MISSING, WB_MISSING);
}

/* As many of a model as all loads of its form need, priced. */
static double blocks_minor(const WbWireStock *stock, const WbWiring *wiring, const WbFitting *block)
{
    int64_t ways = 0;
    for (size_t i = 0; i < wiring->n; i++) {
        const WbCircuit *circuit = &wiring->circuit[i];
        ways += circuit->in_block && circuit->fuse->form == block->form;
    }
    int64_t count = (ways + block->ways - 1) / block->ways;
    return (double)count * fitting_minor(stock, block);
}

static WbWirePlace why_block(const WbWireStock *stock, const WbWiring *wiring,
                             const WbFitting *block, const WbCircuitAsk *feed)
{
    const WbFitting *taken = wiring->blocks[block->form].block;
    WbWirePlace place = why_form(stock, block, feed->design_a, feed->most_v, taken != NULL, taken);
    if (place.verdict == WB_WIRE_DEARER)
        place = place_of(WB_WIRE_DEARER, blocks_minor(stock, wiring, block),
                         blocks_minor(stock, wiring, taken));
    return place;
}

/* False: this circuit has no use for such a fitting. */
static bool why_fitting(const WbProblem *problem, const WbWiring *wiring, const WbFitting *fitting,
                        const WbCircuit *circuit, WbWirePlace *place)
{
    const WbWireStock *stock = &problem->wires;
    const WbCircuitAsk *ask = &circuit->ask;
    switch ((WbFittingRole)fitting->role) {
    case WB_FITTING_HOLDER:
        if (!circuit->fuse || circuit->in_block || circuit->fault != WB_CIRCUIT_SOUND)
            return false;
        *place = why_form(stock, fitting, circuit->fuse->rating_a, ask->most_v,
                          circuit->fuse->form == fitting->form, circuit->holder);
        return true;
    case WB_FITTING_LUG:
        if (!circuit->conductor || ask->lugs == 0)
            return false;
        *place = why_lug(stock, fitting, circuit);
        return true;
    case WB_FITTING_SWITCH:
        if (!ask->switched || circuit->fault != WB_CIRCUIT_SOUND)
            return false;
        *place = why_rated(stock, fitting, ask->design_a, ask->most_v, circuit->disconnect);
        return true;
    case WB_FITTING_BLOCK:
        if (ask->kind != WB_CIRCUIT_FEED || fitting->form < 0 || fitting->form >= WB_N_FUSE_FORMS ||
            fitting->ways < 1)
            return false;
        *place = why_block(stock, wiring, fitting, ask);
        return true;
    case WB_FITTING_BUS:
        if (ask->kind != WB_CIRCUIT_MAIN)
            return false;
        *place = why_rated(stock, fitting, ask->design_a, 0, wiring->bus);
        return true;
    }
    return false;
}

size_t wb_wire_why(const WbProblem *problem, const WbWiring *wiring, WbPartKind kind, size_t index,
                   WbWirePlace *places)
{
    const WbWireStock *stock = &problem->wires;
    size_t n = 0;
    for (size_t i = 0; i < wiring->n; i++) {
        const WbCircuit *circuit = &wiring->circuit[i];
        WbWirePlace place;
        if (kind == WB_KIND_CONDUCTOR)
            place = why_conductor(stock, index, circuit);
        else if (kind == WB_KIND_FUSE && circuit->ask.fused)
            place = why_fuse(stock, index, circuit);
        else if (kind != WB_KIND_FITTING ||
                 !why_fitting(problem, wiring, stock->fittings[index].fitting, circuit, &place))
            continue;
        place.circuit = i;
        places[n++] = place;
    }
    return n;
}
