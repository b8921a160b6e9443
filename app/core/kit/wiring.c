#include "wiring.h"
#include "loom.h"
#include <stdlib.h>

static int in_order(const void *a, const void *b)
{
    const WbCircuitAsk *left = &((const WbCircuit *)a)->ask, *right = &((const WbCircuit *)b)->ask;
    int kinds = (int)left->kind - (int)right->kind;
    return kinds != 0 ? kinds : left->load - right->load;
}

WbStatus wb_wiring(const WbProblem *problem, const WbKit *kit, WbWiring *wiring)
{
    *wiring = (WbWiring){0};
    WbBankKind kind = wb_bank_kind(problem, kit->storage, kit->bank_series);
    if (!problem->brief->wiring.on || kind.volts.system_v == 0)
        return WB_OK;
    WbLoom loom = wb_loom_empty(wiring);
    wb_loom_array(problem, kit, &loom);
    wb_loom_bank(problem, kit, &kind, wb_charged_a(problem, kit), &loom);
    wb_loom_charge(problem, kit, &kind, loom.bus_fault_a, &loom);
    wb_loom_dcdc_in(problem, kit, &loom);
    wb_loom_dcdc_out(problem, kit, &kind, loom.bus_fault_a, &loom);
    if (loom.no_memory) {
        wb_wiring_free(wiring);
        return WB_NO_MEMORY;
    }
    qsort(wiring->circuit, wiring->n, sizeof *wiring->circuit, in_order);
    wiring->missing_fittings = loom.missing_fittings;
    wiring->faults = loom.faults;
    wiring->assumed = loom.assumed;
    wb_bill_settle(problem, &loom.bill);
    wiring->cost_minor = loom.bill.wiring_minor;
    wiring->weight_g = loom.bill.weight_g;
    return WB_OK;
}

void wb_wiring_free(WbWiring *wiring)
{
    free(wiring->circuit);
    *wiring = (WbWiring){0};
}
