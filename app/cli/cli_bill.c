#include "cli_explain.h"

static WbBillLine bill_line(const WbPart *part, const WbSourced *sourced, int count)
{
    int bought = count > sourced->owned ? count - sourced->owned : 0;
    return (WbBillLine){part, sourced, count, bought};
}

int wb_cli_bill(const WbProblem *problem, const WbKit *kit, WbBillLine lines[WB_BILL_MOST])
{
    const WbPanelChoice *panel = &problem->panels[kit->panel];
    const WbControllerChoice *controller = &problem->controllers[kit->controller];
    const WbStorageChoice *storage = &problem->storage[kit->storage];
    const WbInverterChoice *inverter = &problem->inverters[kit->inverter];
    const WbDcdcChoice *dcdc = &problem->dcdc[kit->dcdc];
    int n = 0;
    lines[n++] = bill_line(&panel->panel->part, &panel->sourced, kit->n_series * kit->n_parallel);
    lines[n++] = bill_line(&controller->controller->part, &controller->sourced, kit->n_controllers);
    lines[n++] = bill_line(&storage->storage->part, &storage->sourced,
                           kit->bank_series * kit->bank_parallel);
    if (inverter->inverter != NULL)
        lines[n++] = bill_line(&inverter->inverter->part, &inverter->sourced, 1);
    if (dcdc->dcdc != NULL)
        lines[n++] = bill_line(&dcdc->dcdc->part, &dcdc->sourced, 1);
    return n;
}
