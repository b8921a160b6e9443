/* All circuits of one kit, sized: data/METHOD.md tells the formulas. */
#ifndef WB_WIRING_H
#define WB_WIRING_H

#include "circuit.h"
#include "kit.h"

typedef struct {
    const WbFitting *block; /* NULL: no load has a fuse of this form in a block */
    int count;
} WbBlock;

typedef struct {
    WbCircuit *circuit; /* in the order of WbCircuitKind, loads in the brief's order */
    size_t n;
    const WbFitting *bus; /* pair of bus bars; NULL: the catalogue sells none that suffices */
    WbBlock blocks[WB_N_FUSE_FORMS]; /* fuse blocks, by the form of the loads' fuses */
    int missing_fittings; /* pieces that the catalogue does not sell: the allowance has to do */
    int faults;           /* circuits that cannot be built, each counted once whatever its count */
    double string_mohm;   /* of one string of batteries */
    double bank_fault_a;  /* at the bank's terminals, all strings */
    double bus_fault_a;   /* behind the main circuit */
    double block_fault_a; /* behind the feed */
    uint32_t assumed;     /* bits of WbAssumption of all circuits */
    int64_t cost_minor, weight_g;
} WbWiring;

/* Empty while brief.wiring.on is false, or the bank makes no system voltage. */
WbStatus wb_wiring(const WbProblem *problem, const WbKit *kit, WbWiring *wiring);
void wb_wiring_free(WbWiring *wiring);

#endif
