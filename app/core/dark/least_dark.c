#include "least_dark.h"
#include "nearest.h"
#include <stdlib.h>

/* So many kits are balanced at a time: enough to fill the lanes. */
#define BATCH 16

static bool fails(const WbCarry *carry, const WbWaiting *waiting)
{
    return waiting->dark_h > carry->limit;
}

static bool any_fails(const WbCarry *carry)
{
    for (size_t i = 0; i < carry->n; i++)
        if (fails(carry, &carry->waiting[i]))
            return true;
    return false;
}

static void keep_failing(WbCarryBank *bank)
{
    size_t kept = 0;
    for (size_t i = 0; i < bank->n_open; i++)
        if (fails(bank->carry, &bank->carry->waiting[bank->open[i]]))
            bank->open[kept++] = bank->open[i];
    bank->n_open = kept;
}

/* The last of the open ones, which are taken off; tells which. */
static WbStatus balance_last(WbCarryBank *bank, WbRuledOut *out, uint32_t picked[BATCH],
                             size_t *n_picked)
{
    WbCarry *carry = bank->carry;
    WbKit kits[BATCH];
    double dark_h[BATCH];
    size_t n = bank->n_open < BATCH ? bank->n_open : BATCH;
    for (size_t i = 0; i < n; i++) {
        picked[i] = bank->open[--bank->n_open];
        kits[i] = wb_carry_kit(bank, &carry->waiting[picked[i]]);
    }
    double enough = isnan(out->value) ? INFINITY : out->value;
    WbStatus status = wb_carry_balance(carry->problem, kits, n, enough, carry->control, dark_h);
    for (size_t i = 0; i < n && status == WB_OK; i++) {
        carry->waiting[picked[i]].dark_h = dark_h[i];
        wb_nearest_take(out, &kits[i], dark_h[i], carry->limit);
    }
    *n_picked = n;
    return status;
}

/* Is the open kit neither less dark than the fewest, nor as dark and before it? */
static bool is_beaten(const WbCarryBank *bank, const WbRuledOut *out, const WbWaiting *balanced,
                      const WbWaiting *open)
{
    if (!wb_carry_never_darker(bank, balanced, open))
        return false;
    if (balanced->dark_h > out->value)
        return true;
    WbKit known = wb_carry_kit(bank, balanced), kit = wb_carry_kit(bank, open);
    return wb_kit_compare(NULL, &known, &kit) < 0;
}

static void drop_beaten(WbCarryBank *bank, const WbRuledOut *out, const uint32_t *picked,
                        size_t n_picked)
{
    const WbWaiting *waiting = bank->carry->waiting;
    size_t kept = 0;
    for (size_t i = 0; i < bank->n_open; i++) {
        bool beaten = false;
        for (size_t p = 0; p < n_picked && !beaten; p++)
            beaten = is_beaten(bank, out, &waiting[picked[p]], &waiting[bank->open[i]]);
        if (!beaten)
            bank->open[kept++] = bank->open[i];
    }
    bank->n_open = kept;
}

WbStatus wb_least_dark(WbCarry *carry, const WbHalves *arrays, const WbHalves *banks,
                       const WbHalves *dcdc, WbRuledOut *out)
{
    if (!any_fails(carry))
        return WB_OK;
    WbCarryBank bank = {.carry = carry, .arrays = arrays, .banks = banks, .dcdc = dcdc};
    bank.monotone = wb_carry_is_monotone(&bank);
    WbStatus status = wb_carry_in_order(&bank);
    if (status == WB_OK)
        keep_failing(&bank);
    while (status == WB_OK && bank.n_open) {
        uint32_t picked[BATCH];
        size_t n_picked;
        if (wb_control_stopped(carry->control))
            status = WB_STOPPED;
        else
            status = balance_last(&bank, out, picked, &n_picked);
        if (status == WB_OK && bank.monotone)
            drop_beaten(&bank, out, picked, n_picked);
    }
    free(bank.open);
    return status;
}
