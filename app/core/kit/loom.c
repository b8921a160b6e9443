#include "loom.h"
#include <stdlib.h>

#define CHARGE_DROP_PCT 3.0 /* the tighter of the two classes of ISO 10133: 3 % */

WbLoom wb_loom_empty(WbWiring *wiring)
{
    return (WbLoom){.bill = wb_bill_empty(), .wiring = wiring};
}

static void add_to_bill(void *bill, const WbSourced *sourced, double n, int64_t minor,
                        int64_t weight_g)
{
    wb_bill_add_wiring(bill, sourced, n, minor, weight_g);
}

static void list(WbLoom *loom, const WbCircuit *circuit)
{
    WbWiring *wiring = loom->wiring;
    WbCircuit *grown = realloc(wiring->circuit, (wiring->n + 1) * sizeof *grown);
    if (!grown) {
        loom->no_memory = true;
        return;
    }
    wiring->circuit = grown;
    wiring->circuit[wiring->n++] = *circuit;
}

void wb_loom_circuit(const WbProblem *problem, WbLoom *loom, const WbCircuitAsk *ask,
                     WbCircuit *circuit)
{
    wb_circuit_size(&problem->wires, ask, circuit, add_to_bill, &loom->bill);
    loom->faults += circuit->fault != WB_CIRCUIT_SOUND;
    loom->missing_fittings += circuit->missing_fittings;
    loom->assumed |= ask->assumed;
    if (loom->wiring)
        list(loom, circuit);
}

void wb_loom_fitting(WbLoom *loom, const WbFittingChoice *choice, int count)
{
    if (!choice) {
        loom->missing_fittings += count;
        return;
    }
    wb_bill_add_wiring(&loom->bill, &choice->sourced, count, count * choice->sourced.price_minor,
                       count * choice->sourced.weight_g);
}

WbCircuitAsk wb_loom_ask(const WbProblem *problem, WbCircuitKind kind)
{
    double one_way_m = problem->brief->wiring.length_m[kind];
    return (WbCircuitAsk){
        .kind = kind,
        .load = -1,
        .count = 1,
        .one_way_m = one_way_m,
        .wire_m = 2 * one_way_m,
        .allowed_pct = CHARGE_DROP_PCT,
        .most_fuse_a = INFINITY,
        .fused = true,
    };
}

size_t wb_fuses_that_break(const WbWireStock *stock, double most_v, double fault_a)
{
    size_t n = 0;
    for (size_t i = 0; i < stock->n_fuses; i++)
        n += wb_at_least(stock->fuses[i].fuse->max_v, most_v) &&
             wb_at_least(stock->fuses[i].fuse->interrupt_a, fault_a);
    return n;
}

/* Fuses of the main circuit and of strings of batteries, each for all of it while one is out;
 * switch and bus bars. */
size_t wb_charged_step(const WbWireStock *stock, int bank_parallel, double charged_a)
{
    size_t step = 0;
    for (size_t i = 0; i < stock->n_fuses; i++) {
        double rating_a = stock->fuses[i].fuse->rating_a;
        step += !wb_at_least(rating_a, charged_a);
        step += bank_parallel > 2 && !wb_at_least(rating_a, charged_a / (bank_parallel - 1));
    }
    for (size_t i = 0; i < stock->n_fittings; i++)
        step += stock->fittings[i].fitting->max_a < charged_a;
    return step;
}
