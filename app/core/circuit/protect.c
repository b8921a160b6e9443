/* The fuse of a circuit, and the fittings that go with it. */
#include "protect.h"
#include <math.h>

#define WITHIN_BOAT_MM 178.0 /* 7 inches */
#define SAME 1e-12

bool wb_at_least(double a, double b)
{
    return a >= b * (1 - SAME);
}

double wb_fuse_within_mm(int rule_set)
{
    return rule_set == WB_RULES_BOAT ? WITHIN_BOAT_MM : 0;
}

static bool dearer(int64_t minor, const WbFittingChoice *than)
{
    return than && minor >= than->sourced.price_minor;
}

static bool is_holder(const WbFitting *fitting, const WbFuse *fuse, double most_v)
{
    return fitting->role == WB_FITTING_HOLDER && fitting->form == fuse->form &&
           fitting->max_a >= fuse->rating_a && fitting->max_v >= most_v;
}

const WbFittingChoice *wb_holder_for(const WbWireStock *stock, const WbFuse *fuse, double most_v)
{
    const WbFittingChoice *best = NULL;
    for (size_t i = 0; i < stock->n_fittings; i++) {
        const WbFittingChoice *choice = &stock->fittings[i];
        if (is_holder(choice->fitting, fuse, most_v) && !dearer(choice->sourced.price_minor, best))
            best = choice;
    }
    return best;
}

const WbFittingChoice *wb_fitting_for(const WbWireStock *stock, WbFittingRole role, double amps,
                                      double most_v)
{
    const WbFittingChoice *best = NULL;
    for (size_t i = 0; i < stock->n_fittings; i++) {
        const WbFittingChoice *choice = &stock->fittings[i];
        const WbFitting *fitting = choice->fitting;
        bool does = fitting->role == (int64_t)role && fitting->max_a >= amps &&
                    (role == WB_FITTING_BUS || fitting->max_v >= most_v);
        if (does && !dearer(choice->sourced.price_minor, best))
            best = choice;
    }
    return best;
}

WbBlocks wb_blocks_for(const WbWireStock *stock, int64_t form, int ways, double amps, double most_v)
{
    WbBlocks best = {0};
    for (size_t i = 0; i < stock->n_fittings; i++) {
        const WbFittingChoice *choice = &stock->fittings[i];
        const WbFitting *fitting = choice->fitting;
        if (fitting->role != WB_FITTING_BLOCK || fitting->form != form || fitting->ways < 1 ||
            !(fitting->max_a >= amps) || !(fitting->max_v >= most_v))
            continue;
        int count = (ways + (int)fitting->ways - 1) / (int)fitting->ways;
        if (!best.choice ||
            count * choice->sourced.price_minor < best.count * best.choice->sourced.price_minor)
            best = (WbBlocks){choice, count};
    }
    return best;
}

bool wb_sits_in_block(const WbWireStock *stock, const WbCircuitAsk *ask, int64_t form)
{
    return ask->block_a > 0 &&
           wb_blocks_for(stock, form, 1, ask->block_a, ask->most_v).choice != NULL;
}

/* A holder that is not sold costs nothing here; the circuit counts it as missing. */
static int64_t price_with_holder(const WbWireStock *stock, const WbCircuitAsk *ask,
                                 const WbFuseChoice *choice)
{
    if (wb_sits_in_block(stock, ask, choice->fuse->form))
        return choice->sourced.price_minor;
    const WbFittingChoice *holder = wb_holder_for(stock, choice->fuse, ask->most_v);
    return choice->sourced.price_minor + (holder ? holder->sourced.price_minor : 0);
}

static WbCircuitFault fail(double value, double limit, WbCircuitFault fault, double numbers[2])
{
    numbers[0] = value;
    numbers[1] = limit;
    return fault;
}

typedef struct {
    double most_v;         /* of any fuse */
    double most_interrupt; /* of those of enough volts */
    double most_a;         /* of those that suffice otherwise */
} Reach;

static bool suffices(const WbFuse *fuse, const WbCircuitAsk *ask)
{
    return wb_at_least(fuse->max_v, ask->most_v) && wb_at_least(fuse->interrupt_a, ask->fault_a);
}

static Reach reach_of(const WbWireStock *stock, const WbCircuitAsk *ask)
{
    Reach reach = {0};
    for (size_t i = 0; i < stock->n_fuses; i++) {
        const WbFuse *fuse = stock->fuses[i].fuse;
        reach.most_v = fmax(reach.most_v, fuse->max_v);
        if (fuse->max_v >= ask->most_v)
            reach.most_interrupt = fmax(reach.most_interrupt, fuse->interrupt_a);
        if (suffices(fuse, ask))
            reach.most_a = fmax(reach.most_a, fuse->rating_a);
    }
    return reach;
}

WbCircuitFault wb_circuit_fuse(const WbWireStock *stock, const WbCircuitAsk *ask,
                               const WbFuseChoice **fuse, double numbers[2])
{
    int64_t best_minor = 0;
    *fuse = NULL;
    for (size_t i = 0; i < stock->n_fuses; i++) {
        const WbFuseChoice *choice = &stock->fuses[i];
        if (*fuse && choice->fuse->rating_a > (*fuse)->fuse->rating_a)
            break;
        if (!wb_at_least(choice->fuse->rating_a, ask->design_a) || !suffices(choice->fuse, ask))
            continue;
        int64_t minor = price_with_holder(stock, ask, choice);
        if (!*fuse || minor < best_minor) {
            *fuse = choice;
            best_minor = minor;
        }
    }
    if (*fuse && (*fuse)->fuse->rating_a <= ask->most_fuse_a)
        return WB_CIRCUIT_SOUND;
    if (*fuse)
        return fail((*fuse)->fuse->rating_a, ask->most_fuse_a, WB_CIRCUIT_OVER_SERIES_FUSE,
                    numbers);
    Reach reach = reach_of(stock, ask);
    if (reach.most_v < ask->most_v)
        return fail(ask->most_v, reach.most_v, WB_CIRCUIT_OVER_FUSE_V, numbers);
    if (reach.most_interrupt < ask->fault_a)
        return fail(ask->fault_a, reach.most_interrupt, WB_CIRCUIT_OVER_INTERRUPT, numbers);
    return fail(ask->design_a, reach.most_a, WB_CIRCUIT_OVER_FUSE_A, numbers);
}
