#include "money.h"
#include "sides.h"

WbSideBill wb_bill_empty(void)
{
    return (WbSideBill){0};
}

static void add_shop(WbShopSet *shops, int shop)
{
    if (shop >= 0)
        shops->word[shop / 64] |= UINT64_C(1) << shop % 64;
}

void wb_bill_add(WbSideBill *bill, const WbSourced *sourced, int count)
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
    add_shop(&bill->shops, sourced->shop);
}

void wb_bill_add_wiring(WbSideBill *bill, const WbSourced *sourced, double n, int64_t minor,
                        int64_t weight_g)
{
    bill->weight_g += weight_g;
    if (sourced->owned_wire) {
        bill->used_milli[sourced->owned_wire - 1] += llround(1000 * n);
        return;
    }
    bill->wiring_minor += minor;
    add_shop(&bill->shops, sourced->shop);
}

void wb_bill_settle(const WbProblem *problem, WbSideBill *bill)
{
    for (int i = 0; i < problem->n_owned_wires; i++) {
        const WbOwnedWire *wire = &problem->owned_wires[i];
        int64_t bought_milli = bill->used_milli[i] - wire->owned_milli;
        if (bought_milli <= 0)
            continue;
        bill->wiring_minor += (bought_milli * wire->price_minor + 500) / 1000;
        add_shop(&bill->shops, wire->shop);
        bill->used_milli[i] = 0;
    }
}

void wb_bill_join(const WbProblem *problem, WbSideBill *bill, const WbSideBill *other)
{
    for (int i = 0; i < problem->n_owned_wires; i++)
        bill->used_milli[i] += other->used_milli[i];
    bill->parts_minor += other->parts_minor;
    bill->wiring_minor += other->wiring_minor;
    bill->weight_g += other->weight_g;
    bill->unpriced += other->unpriced;
    for (size_t i = 0; i < (problem->n_shops + 63) / 64; i++)
        bill->shops.word[i] |= other->shops.word[i];
}

WbSideBill wb_array_bill(const WbProblem *problem, const WbKit *kit)
{
    WbSideBill bill = wb_bill_empty();
    wb_bill_add(&bill, &problem->panels[kit->panel].sourced, kit->n_series * kit->n_parallel);
    wb_bill_add(&bill, &problem->controllers[kit->controller].sourced, kit->n_controllers);
    return bill;
}

WbSideBill wb_bank_bill(const WbProblem *problem, const WbKit *kit)
{
    WbSideBill bill = wb_bill_empty();
    wb_bill_add(&bill, &problem->storage[kit->storage].sourced,
                kit->bank_series * kit->bank_parallel);
    if (kit->inverter)
        wb_bill_add(&bill, &problem->inverters[kit->inverter].sourced, 1);
    return bill;
}

WbSideBill wb_dcdc_bill(const WbProblem *problem, const WbKit *kit)
{
    WbSideBill bill = wb_bill_empty();
    if (kit->dcdc)
        wb_bill_add(&bill, &problem->dcdc[kit->dcdc].sourced, 1);
    return bill;
}

int64_t wb_shops_shipping_minor(const WbProblem *problem, const WbShopSet *shops)
{
    int64_t shipping_minor = 0;
    for (size_t i = 0; i < problem->n_shops; i++)
        if (shops->word[i / 64] >> i % 64 & 1)
            shipping_minor += problem->shops[i].shipping_minor;
    return shipping_minor;
}

static void fill_money(const WbProblem *problem, int64_t parts_minor, int64_t wiring_minor,
                       const WbShopSet *shops, WbFigures *figures)
{
    figures->parts_minor = parts_minor;
    figures->wiring_minor = wiring_minor;
    figures->shipping_minor = wb_shops_shipping_minor(problem, shops);
    figures->allowance_minor = wb_allowance_minor(parts_minor, problem->brief->sundries_pct);
    figures->cost_minor =
        parts_minor + wiring_minor + figures->shipping_minor + figures->allowance_minor;
}

void wb_figures_money(const WbProblem *problem, WbSideBill *bill, WbFigures *figures)
{
    wb_bill_settle(problem, bill);
    fill_money(problem, bill->parts_minor, bill->wiring_minor, &bill->shops, figures);
}

void wb_figures_money_of(const WbProblem *problem, const WbSideBill *a, const WbSideBill *b,
                         WbFigures *figures)
{
    if (problem->n_owned_wires > 0) {
        WbSideBill bill = *a;
        wb_bill_join(problem, &bill, b);
        wb_figures_money(problem, &bill, figures);
        return;
    }
    WbShopSet shops;
    for (size_t i = 0; i < (problem->n_shops + 63) / 64; i++)
        shops.word[i] = a->shops.word[i] | b->shops.word[i];
    fill_money(problem, a->parts_minor + b->parts_minor, a->wiring_minor + b->wiring_minor, &shops,
               figures);
}
