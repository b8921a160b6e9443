#include "sides.h"

WbSideBill wb_bill_empty(void)
{
    return (WbSideBill){.shop = {-1, -1}};
}

void wb_bill_add(const WbProblem *problem, WbSideBill *bill, const WbSourced *sourced, int count)
{
    int bought = count > sourced->owned ? count - sourced->owned : 0;
    bill->weight_g += count * sourced->weight_g;
    if (bought == 0)
        return;
    if (!sourced->priced) {
        bill->unpriced++;
        return;
    }
    bill->parts_minor += bought * sourced->price_minor;
    if (bill->shop[0] < 0)
        bill->shop[0] = sourced->shop;
    else if (bill->shop[0] != sourced->shop)
        bill->shop[1] = sourced->shop;
}

WbSideBill wb_array_bill(const WbProblem *problem, const WbKit *kit)
{
    WbSideBill bill = wb_bill_empty();
    wb_bill_add(problem, &bill, &problem->panels[kit->panel].sourced,
                kit->n_series * kit->n_parallel);
    wb_bill_add(problem, &bill, &problem->controllers[kit->controller].sourced, kit->n_controllers);
    return bill;
}

WbSideBill wb_bank_bill(const WbProblem *problem, const WbKit *kit)
{
    WbSideBill bill = wb_bill_empty();
    wb_bill_add(problem, &bill, &problem->storage[kit->storage].sourced,
                kit->bank_series * kit->bank_parallel);
    if (kit->inverter)
        wb_bill_add(problem, &bill, &problem->inverters[kit->inverter].sourced, 1);
    return bill;
}

WbSideBill wb_dcdc_bill(const WbProblem *problem, const WbKit *kit)
{
    WbSideBill bill = wb_bill_empty();
    if (kit->dcdc)
        wb_bill_add(problem, &bill, &problem->dcdc[kit->dcdc].sourced, 1);
    return bill;
}

int64_t wb_bills_shipping_minor(const WbProblem *problem, const WbSideBill *array,
                                const WbSideBill *bank, const WbSideBill *dcdc)
{
    const int shop[5] = {array->shop[0], array->shop[1], bank->shop[0], bank->shop[1],
                         dcdc->shop[0]};
    int64_t shipping_minor = 0;
    for (int i = 0; i < 5; i++) {
        bool seen = shop[i] < 0;
        for (int j = 0; j < i && !seen; j++)
            seen = shop[j] == shop[i];
        if (!seen)
            shipping_minor += problem->shops[shop[i]].shipping_minor;
    }
    return shipping_minor;
}
