#include "carry.h"
#include "kit_year.h"
#include <stdlib.h>
#include <string.h>

/* So many kits are balanced at a time: enough to fill the lanes twice. */
#define BATCH 32

bool wb_carry_init(WbCarry *carry, const WbProblem *problem, WbControl *control)
{
    const WbBrief *brief = problem->brief;
    bool limited = brief->dark_hours.on && !isnan(brief->dark_hours.value);
    *carry = (WbCarry){.problem = problem, .control = control};
    carry->limit = limited ? brief->dark_hours.value : INFINITY;
    carry->asked = limited;
    return wb_needs_init(&carry->needs, problem);
}

void wb_carry_free(WbCarry *carry)
{
    wb_needs_free(&carry->needs);
    free(carry->waiting);
}

bool wb_carry_add(WbCarry *carry, size_t array, size_t bank, size_t dcdc)
{
    if (carry->n == carry->room) {
        size_t room = carry->room ? 2 * carry->room : 1024;
        WbWaiting *more = realloc(carry->waiting, room * sizeof *more);
        if (!more)
            return false;
        carry->waiting = more;
        carry->room = room;
    }
    carry->waiting[carry->n++] =
        (WbWaiting){(uint32_t)array, (uint32_t)bank, (uint32_t)dcdc, WB_MISSING};
    return true;
}

/* ---- balancing a few ---- */

WbStatus wb_carry_balance(const WbProblem *problem, const WbKit *kits, size_t n, double enough,
                          WbControl *control, double *dark_h)
{
    WbYearKit *year_kits = malloc(BATCH * sizeof *year_kits);
    WbStatus status = year_kits ? WB_OK : WB_NO_MEMORY;
    const WbYearKit *of[BATCH];
    for (size_t i = 0; i < n && status == WB_OK; i += BATCH) {
        size_t some = n - i < BATCH ? n - i : BATCH;
        for (size_t j = 0; j < some; j++) {
            wb_kit_year_fill(problem, &kits[i + j], &year_kits[j]);
            of[j] = &year_kits[j];
        }
        status = wb_year_dark(of, some, &problem->plane, enough, control, &dark_h[i]);
    }
    free(year_kits);
    return status;
}

static const WbChemistry *chemistry_of(const WbProblem *problem, const WbKit *kit)
{
    return problem->storage[kit->storage].chemistry;
}

/* Those of the kits that are of this chemistry. */
static WbStatus figures_of(const WbProblem *problem, const WbKit *const *kits, size_t n,
                           const WbChemistry *chemistry, double enough, WbControl *control,
                           double *dark_h)
{
    WbKit *some = malloc((n + 1) * sizeof *some);
    double *found = malloc((n + 1) * sizeof *found);
    size_t count = 0;
    for (size_t i = 0; some && i < n; i++)
        if (chemistry_of(problem, kits[i]) == chemistry)
            some[count++] = *kits[i];
    WbStatus status = some && found ? wb_carry_balance(problem, some, count, enough, control, found)
                                    : WB_NO_MEMORY;
    count = 0;
    for (size_t i = 0; status == WB_OK && i < n; i++)
        if (chemistry_of(problem, kits[i]) == chemistry)
            dark_h[i] = found[count++];
    free(some);
    free(found);
    return status;
}

WbStatus wb_carry_within(const WbProblem *problem, const WbKit *const *kits, size_t n,
                         double enough, WbControl *control, double *dark_h)
{
    WbStatus status = WB_OK;
    for (size_t c = 0; c < problem->catalogue->n_chemistries && status == WB_OK; c++)
        status = figures_of(problem, kits, n, &problem->catalogue->chemistries[c], enough, control,
                            dark_h);
    return status;
}

WbStatus wb_carry_figures(const WbProblem *problem, const WbKit *const *kits, size_t n,
                          WbControl *control, double *dark_h)
{
    return wb_carry_within(problem, kits, n, INFINITY, control, dark_h);
}

/* ---- comparing ---- */

WbKit wb_carry_kit(const WbCarryBank *bank, const WbWaiting *waiting)
{
    WbKit kit = bank->arrays->half[waiting->array].kit;
    const WbKit *storage = &bank->banks->half[waiting->bank].kit;
    kit.storage = storage->storage;
    kit.bank_series = storage->bank_series;
    kit.bank_parallel = storage->bank_parallel;
    kit.inverter = storage->inverter;
    kit.dcdc = bank->dcdc->half[waiting->dcdc].kit.dcdc;
    return kit;
}

static WbFeed feed_of(const WbCarryBank *bank, const WbWaiting *waiting)
{
    return (WbFeed){&bank->arrays->half[waiting->array].law,
                    bank->dcdc->half[waiting->dcdc].other_wh,
                    bank->banks->half[waiting->bank].kit.inverter};
}

bool wb_carry_never_darker(const WbCarryBank *bank, const WbWaiting *a, const WbWaiting *b)
{
    const WbFeed feed_a = feed_of(bank, a), feed_b = feed_of(bank, b);
    return wb_feed_never_less(&bank->carry->needs, &feed_a, &feed_b);
}

/* ---- the order of energy ---- */

typedef struct {
    double energy_wh;
    uint32_t index;
} Ordered;

static int by_energy(const void *left, const void *right)
{
    const Ordered *a = left, *b = right;
    if (a->energy_wh != b->energy_wh)
        return a->energy_wh < b->energy_wh ? -1 : 1;
    return a->index < b->index ? -1 : a->index > b->index;
}

/* Only a guide to where the limit may lie: nothing is decided by it. */
static double energy_wh(const WbCarryBank *bank, const WbWaiting *waiting)
{
    const WbHalf *array = &bank->arrays->half[waiting->array];
    const WbHalf *storage = &bank->banks->half[waiting->bank];
    double other_wh = bank->dcdc->half[waiting->dcdc].other_wh, sum = 0;
    for (int m = 0; m < WB_MONTHS; m++)
        if (bank->carry->problem->brief->site.months >> m & 1)
            sum += array->array_wh[m] + other_wh - storage->bank.need_wh[m];
    return sum;
}

WbStatus wb_carry_in_order(WbCarryBank *bank)
{
    WbCarry *carry = bank->carry;
    Ordered *order = malloc((carry->n + 1) * sizeof *order);
    bank->open = malloc((carry->n + 1) * sizeof *bank->open);
    bank->n_open = carry->n;
    for (size_t i = 0; order && bank->open && i < carry->n; i++)
        order[i] = (Ordered){energy_wh(bank, &carry->waiting[i]), (uint32_t)i};
    if (order && bank->open) {
        qsort(order, carry->n, sizeof *order, by_energy);
        for (size_t i = 0; i < carry->n; i++)
            bank->open[i] = order[i].index;
    }
    free(order);
    return order && bank->open ? WB_OK : WB_NO_MEMORY;
}

/* ---- rounds ---- */

/* Up to the limit a figure is exact. */
static bool keep(const WbCarry *carry, const WbKit *kit, double dark_h)
{
    if (!carry->memo || dark_h > carry->limit)
        return true;
    WbDarkKey key = wb_dark_key(carry->problem, kit);
    return wb_dark_memo_put(carry->memo, &key, dark_h);
}

/* Balances kits at even steps of the open ones; tells which. */
static WbStatus balance_some(WbCarryBank *bank, uint32_t picked[BATCH], size_t *n_picked)
{
    WbCarry *carry = bank->carry;
    WbKit kits[BATCH];
    double dark_h[BATCH];
    size_t n = bank->n_open < BATCH ? bank->n_open : BATCH;
    for (size_t i = 0; i < n; i++) {
        picked[i] = bank->open[(2 * i + 1) * bank->n_open / (2 * n)];
        kits[i] = wb_carry_kit(bank, &carry->waiting[picked[i]]);
    }
    WbStatus status =
        wb_carry_balance(carry->problem, kits, n, carry->limit, carry->control, dark_h);
    for (size_t i = 0; i < n && status == WB_OK; i++) {
        carry->waiting[picked[i]].dark_h = dark_h[i];
        if (!keep(carry, &kits[i], dark_h[i]))
            status = WB_NO_MEMORY;
    }
    *n_picked = n;
    return status;
}

/* The answer that a balanced kit gives for another; NaN: none. */
static double answer_by(const WbCarryBank *bank, const WbWaiting *known, const WbWaiting *open)
{
    bool good = known->dark_h <= bank->carry->limit;
    if (good ? wb_carry_never_darker(bank, open, known) : wb_carry_never_darker(bank, known, open))
        return known->dark_h;
    return WB_MISSING;
}

static void settle(WbCarryBank *bank, const uint32_t *picked, size_t n_picked)
{
    WbCarry *carry = bank->carry;
    size_t left = 0;
    for (size_t i = 0; i < bank->n_open; i++) {
        WbWaiting *open = &carry->waiting[bank->open[i]];
        if (bank->monotone)
            for (size_t p = 0; p < n_picked && isnan(open->dark_h); p++)
                open->dark_h = answer_by(bank, &carry->waiting[picked[p]], open);
        if (isnan(open->dark_h))
            bank->open[left++] = bank->open[i];
    }
    bank->n_open = left;
}

bool wb_carry_is_monotone(const WbCarryBank *bank)
{
    WbYearKit year_kit;
    WbKit kit = wb_carry_kit(bank, &bank->carry->waiting[0]);
    wb_kit_year_fill(bank->carry->problem, &kit, &year_kit);
    return wb_year_is_monotone(&year_kit);
}

WbStatus wb_carry_answer(WbCarry *carry, const WbHalves *arrays, const WbHalves *banks,
                         const WbHalves *dcdc)
{
    WbCarryBank bank = {.carry = carry, .arrays = arrays, .banks = banks, .dcdc = dcdc};
    if (!carry->n)
        return WB_OK;
    bank.monotone = wb_carry_is_monotone(&bank);
    WbStatus status = wb_carry_in_order(&bank);
    while (status == WB_OK && bank.n_open) {
        uint32_t picked[BATCH];
        size_t n_picked;
        if (wb_control_stopped(carry->control))
            status = WB_STOPPED;
        else
            status = balance_some(&bank, picked, &n_picked);
        if (status == WB_OK)
            settle(&bank, picked, n_picked);
    }
    free(bank.open);
    return status;
}
