/* The circuits of kits on one kind of bank that look at more than one side: all that hangs on the
 * bus bars. The bank's own depend on what charges it by steps alone, those of chargers on which
 * fuses break the bank's fault current; so each is sized once and looked up for millions of kits.
 */
#ifndef WB_WIRES_H
#define WB_WIRES_H

#include "halves.h"

/* Of one bank with its inverter, for a step of charging current. */
typedef struct WbBankWires WbBankWires;
struct WbBankWires {
    WbBankWires *next;
    size_t step;
    WbSideBill bill;
    bool broken;
    int faults;
    double bus_fault_a;
    size_t fuses_that_break;
};

/* Of one charger to the bus bars. */
typedef struct {
    WbSideBill bill;
    bool known, broken;
    int faults;
} WbLink;

/* An answer of wb_charged_step; strings 0: none. */
typedef struct {
    double charged_a;
    int strings;
    size_t step;
} WbChargedStep;

#define WB_CHARGED_STEPS 1024

typedef struct {
    const WbProblem *problem;
    const WbBankKind *kind;
    const WbHalves *banks;
    WbBankWires **bank; /* by bank half: those sized so far */
    WbLink *link; /* by fuses that will do, then controllers in their counts and DC-DC chargers */
    size_t row;
    int64_t all_shipping_minor; /* of every shop */
    WbChargedStep *step;        /* WB_CHARGED_STEPS of them, each at the place its hash gives */
    bool no_memory;             /* some answer is missing and was told as broken */
} WbWires;

/* For one kind of bank and its halves. False: out of memory. */
bool wb_wires_init(WbWires *wires, const WbProblem *problem, const WbBankKind *kind,
                   const WbHalves *banks);
const WbBankWires *wb_wires_bank(WbWires *wires, const WbHalf *bank, const WbHalf *array,
                                 const WbHalf *dcdc);
const WbLink *wb_wires_charge(WbWires *wires, const WbBankWires *bank, const WbHalf *array);
const WbLink *wb_wires_dcdc(WbWires *wires, const WbBankWires *bank, const WbHalf *dcdc);
void wb_wires_free(WbWires *wires);

#endif
