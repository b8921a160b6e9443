/* The circuits of a kit as the search judges them: what is asked of each, what all of them cost,
 * and which cannot be built. Two sides meet in the bank's: its main circuit carries what charges it
 * too, and the fuses of chargers must break what the bank drives through a short. */
#ifndef WB_LOOM_H
#define WB_LOOM_H

#include "sides.h"
#include "wiring.h"

typedef struct {
    WbSideBill bill;
    int faults;
    int missing_fittings;
    uint32_t assumed;
    double main_pct, feed_pct; /* drop reached on the way to bus bars and fuse block */
    double bus_fault_a;        /* bank side */
    WbWiring *wiring;          /* every circuit goes there too; NULL: only the sums are wanted */
    bool no_memory;
} WbLoom;

WbLoom wb_loom_empty(WbWiring *wiring);
void wb_loom_circuit(const WbProblem *problem, WbLoom *loom, const WbCircuitAsk *ask,
                     WbCircuit *circuit);
void wb_loom_fitting(WbLoom *loom, const WbFittingChoice *choice, int count);
/* 1.25 x what runs for three hours and more (NEC 210.19, 690.8: continuous current). */
#define WB_CONTINUOUS 1.25
/* One such circuit, out and back, fused, all else as circuits of chargers have it. */
WbCircuitAsk wb_loom_ask(const WbProblem *problem, WbCircuitKind kind);

/* All four do nothing while the brief has the wiring off or the bank makes no system voltage. */
void wb_loom_array(const WbProblem *problem, const WbKit *kit, WbLoom *loom);
/* charged_a: design current of all chargers together, wb_charged_a. */
void wb_loom_bank(const WbProblem *problem, const WbKit *kit, const WbBankKind *kind,
                  double charged_a, WbLoom *loom);
/* Controllers to the bus bars. */
void wb_loom_charge(const WbProblem *problem, const WbKit *kit, const WbBankKind *kind,
                    double bus_fault_a, WbLoom *loom);
/* Starter battery to the DC-DC charger, and on to the bus bars. */
void wb_loom_dcdc_in(const WbProblem *problem, const WbKit *kit, WbLoom *loom);
void wb_loom_dcdc_out(const WbProblem *problem, const WbKit *kit, const WbBankKind *kind,
                      double bus_fault_a, WbLoom *loom);

/* Design current of what charges the bank: controllers, DC-DC charger, shore. */
double wb_charged_a(const WbProblem *problem, const WbKit *kit);
/* Design current of what the bank feeds: inverter and loads. Where it is not less than the charged
 * one, that does not matter to wb_loom_bank. */
double wb_drawn_a(const WbProblem *problem, const WbKit *kit, const WbBankKind *kind);
/* Two charged currents of the same step ask for the same fuses, switches and bus bars, and so for
 * the same conductors behind these fuses. */
size_t wb_charged_step(const WbWireStock *stock, int bank_parallel, double charged_a);

/* How many fuses of the stock would break this fault current at these volts: banks with the same
 * number ask the same of every circuit behind their bus bars. */
size_t wb_fuses_that_break(const WbWireStock *stock, double most_v, double fault_a);

#endif
