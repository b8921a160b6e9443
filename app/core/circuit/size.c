#include "protect.h"
#include "round.h"
#include <math.h>

/* A wire as it would lie in this circuit. */
typedef struct {
    const WbConductorChoice *choice;
    const WbAmpacity *ampacity;
    double conductor_c, r_ohm_km, drop_v, drop_pct;
    int64_t minor; /* with its lugs */
} Wire;

static bool on_roof(WbCircuitKind kind)
{
    return kind == WB_CIRCUIT_STRING || kind == WB_CIRCUIT_ARRAY;
}

static int64_t wire_minor(const WbConductorChoice *choice, const WbCircuitAsk *ask)
{
    int64_t minor = wb_round_half_up(ask->wire_m * (double)choice->sourced.price_minor);
    return minor + (choice->lug ? ask->lugs * choice->lug_sourced.price_minor : 0);
}

static Wire lay(const WbWireStock *stock, const WbCircuitAsk *ask, const WbConductorChoice *choice,
                int64_t minor)
{
    bool roof = on_roof(ask->kind);
    Wire wire = {
        .choice = choice, .ampacity = roof ? &choice->on_roof : &choice->inside, .minor = minor};
    double air_c = roof ? stock->on_roof.ambient_c : stock->inside.ambient_c;
    wire.conductor_c = wb_conductor_c(wire.ampacity, air_c, ask->run_a);
    wire.r_ohm_km = wb_resistance_at(choice->conductor->r20_ohm_km, wire.conductor_c);
    wire.drop_v = wb_drop_v(wire.r_ohm_km, ask->wire_m / 2, ask->run_a);
    wire.drop_pct = 100 * wire.drop_v / ask->volts;
    return wire;
}

/* What the conductors of the catalogue reach, for the two numbers of a fault. */
typedef struct {
    double most_a, most_fuse_a, least_drop_pct;
    bool carried, protected_too;
} Search;

static double larger(double a, double b)
{
    return b > a ? b : a; /* fmax is a call */
}

static bool cheaper(const Wire *wire, const Wire *than)
{
    return !than->choice || wire->minor < than->minor;
}

/* The cheapest in *best, the cheapest whatever its drop in *any; ties: the smaller area, then id,
 * for so they stand in the stock. Once there is a best, none that costs as much is laid, and the
 * least drop is of no interest any more. */
static Search search(const WbWireStock *stock, const WbCircuitAsk *ask, double fuse_a, Wire *best,
                     Wire *any)
{
    Search found = {.least_drop_pct = INFINITY};
    for (size_t i = 0; i < stock->n_conductors; i++) {
        const WbConductorChoice *choice = &stock->conductors[i];
        const WbAmpacity *ampacity = on_roof(ask->kind) ? &choice->on_roof : &choice->inside;
        found.most_a = larger(found.most_a, ampacity->amps);
        found.most_fuse_a = larger(found.most_fuse_a, ampacity->fuse_a);
        if (!(ampacity->amps > 0 && wb_at_least(ampacity->amps, ask->design_a)))
            continue;
        found.carried = true;
        if (ampacity->fuse_a < fuse_a)
            continue;
        found.protected_too = true;
        int64_t minor = wire_minor(choice, ask);
        if (best->choice && minor >= best->minor)
            continue;
        Wire wire = lay(stock, ask, choice, minor);
        found.least_drop_pct = fmin(found.least_drop_pct, wire.drop_pct);
        if (cheaper(&wire, any))
            *any = wire;
        if (wire.drop_pct <= ask->allowed_pct - ask->before_pct && cheaper(&wire, best))
            *best = wire;
    }
    return found;
}

static void fail(WbCircuit *circuit, WbCircuitFault fault, double value, double limit)
{
    circuit->fault = fault;
    circuit->value = value;
    circuit->limit = limit;
}

static void judge(WbCircuit *circuit, const Search *found, double fuse_a)
{
    const WbCircuitAsk *ask = &circuit->ask;
    if (!found->carried)
        fail(circuit, WB_CIRCUIT_OVER_AMPS, ask->design_a, found->most_a);
    else if (!found->protected_too)
        fail(circuit, WB_CIRCUIT_UNPROTECTED, fuse_a, found->most_fuse_a);
    else
        fail(circuit, WB_CIRCUIT_OVER_DROP, found->least_drop_pct + ask->before_pct,
             ask->allowed_pct);
}

static void take_wire(WbCircuit *circuit, const Wire *wire)
{
    circuit->conductor = wire->choice->conductor;
    circuit->ampacity = *wire->ampacity;
    circuit->conductor_c = wire->conductor_c;
    circuit->r_ohm_km = wire->r_ohm_km;
    circuit->drop_v = wire->drop_v;
    circuit->drop_pct = wire->drop_pct;
    circuit->total_pct = circuit->ask.before_pct + wire->drop_pct;
}

/* ---- the bill ---- */

typedef struct {
    WbCircuit *circuit;
    WbCircuitBuys buys;
    void *bill;
} Till;

/* n of one circuit; conductors in metres. */
static void buy(const Till *till, const WbSourced *sourced, double n)
{
    int count = till->circuit->ask.count;
    int64_t minor = count * wb_round_half_up(n * (double)sourced->price_minor);
    int64_t weight_g = count * wb_round_half_up(n * (double)sourced->weight_g);
    till->circuit->cost_minor += minor;
    till->circuit->weight_g += weight_g;
    if (till->buys)
        till->buys(till->bill, sourced, n * count, minor, weight_g);
}

static const WbFitting *buy_fitting(const Till *till, const WbFittingChoice *choice)
{
    if (!choice) {
        till->circuit->missing_fittings += till->circuit->ask.count;
        return NULL;
    }
    buy(till, &choice->sourced, 1);
    return choice->fitting;
}

static void buy_lugs(const Till *till, const WbConductorChoice *choice)
{
    WbCircuit *circuit = till->circuit;
    if (circuit->ask.lugs == 0)
        return;
    circuit->lug = choice->lug;
    if (choice->lug)
        buy(till, &choice->lug_sourced, circuit->ask.lugs);
    else
        circuit->missing_fittings += circuit->ask.lugs * circuit->ask.count;
}

static void buy_all(const Till *till, const WbWireStock *stock, const Wire *wire,
                    const WbFuseChoice *fuse)
{
    WbCircuit *circuit = till->circuit;
    const WbCircuitAsk *ask = &circuit->ask;
    buy(till, &wire->choice->sourced, ask->wire_m);
    buy_lugs(till, wire->choice);
    if (fuse) {
        buy(till, &fuse->sourced, 1);
        circuit->in_block = wb_sits_in_block(stock, ask, fuse->fuse->form);
        if (!circuit->in_block)
            circuit->holder = buy_fitting(till, wb_holder_for(stock, fuse->fuse, ask->most_v));
    }
    if (ask->switched)
        circuit->disconnect =
            buy_fitting(till, wb_fitting_for(stock, WB_FITTING_SWITCH, ask->design_a, ask->most_v));
}

void wb_circuit_size(const WbWireStock *stock, const WbCircuitAsk *ask, WbCircuit *circuit,
                     WbCircuitBuys buys, void *bill)
{
    *circuit = (WbCircuit){.ask = *ask, .value = WB_MISSING, .limit = WB_MISSING};
    const WbFuseChoice *fuse = NULL;
    double numbers[2] = {WB_MISSING, WB_MISSING};
    if (ask->fused) {
        WbCircuitFault fault = wb_circuit_fuse(stock, ask, &fuse, numbers);
        if (fault != WB_CIRCUIT_SOUND) {
            fail(circuit, fault, numbers[0], numbers[1]);
            return;
        }
        circuit->fuse = fuse->fuse;
    }
    Wire best = {0}, any = {0};
    double fuse_a = fuse ? fuse->fuse->rating_a : 0;
    Search found = search(stock, ask, fuse_a, &best, &any);
    if (!best.choice) {
        judge(circuit, &found, fuse_a);
        return;
    }
    circuit->by_drop = best.choice->conductor->area_mm2 > any.choice->conductor->area_mm2;
    take_wire(circuit, &best);
    buy_all(&(Till){circuit, buys, bill}, stock, &best, fuse);
}
