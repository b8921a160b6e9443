#include "bright.h"
#include "sides.h"
#include <stdlib.h>

enum { NOT_ASKED, YES, NO };

static size_t n_banks(const WbProblem *problem)
{
    const WbLargest *largest = &problem->brief->largest;
    return problem->n_storage * (size_t)largest->bank_series * (size_t)largest->bank_parallel;
}

bool wb_bright_init(WbBright *bright, const WbProblem *problem)
{
    *bright = (WbBright){.problem = problem};
    bright->bank = calloc(n_banks(problem) + 1, sizeof *bright->bank);
    return wb_needs_init(&bright->needs, problem) && bright->bank;
}

void wb_bright_free(WbBright *bright)
{
    for (size_t i = 0; bright->bank && i < n_banks(bright->problem); i++)
        free(bright->bank[i].kit);
    free(bright->bank);
    wb_needs_free(&bright->needs);
    *bright = (WbBright){0};
}

WbBrightKit wb_bright_kit(const WbProblem *problem, const WbKit *kit)
{
    const WbBankKind kind = wb_bank_kind(problem, kit->storage, kit->bank_series);
    const WbDcdc *dcdc = problem->dcdc[kit->dcdc].dcdc;
    return (WbBrightKit){wb_kit_array_law(problem, kit, &kind.volts), dcdc ? dcdc->output_a : 0,
                         kit->inverter};
}

WbBrightBank *wb_bright_bank(WbBright *bright, const WbKit *kit)
{
    const WbProblem *problem = bright->problem;
    const WbLargest *largest = &problem->brief->largest;
    size_t at =
        ((size_t)kit->storage * (size_t)largest->bank_series + (size_t)(kit->bank_series - 1)) *
            (size_t)largest->bank_parallel +
        (size_t)(kit->bank_parallel - 1);
    WbBrightBank *bank = &bright->bank[at];
    if (bank->monotone == NOT_ASKED) {
        WbYearKit year_kit;
        wb_kit_year_fill(problem, kit, &year_kit);
        bank->monotone = wb_year_is_monotone(&year_kit) ? YES : NO;
    }
    return bank;
}

static bool is_never_darker(WbBright *bright, const WbBrightBank *bank, const WbBrightKit *a,
                            const WbBrightKit *b)
{
    const WbFeed feed_a = {&a->law, a->dcdc_a, a->inverter};
    const WbFeed feed_b = {&b->law, b->dcdc_a, b->inverter};
    if (bank->monotone == YES)
        return wb_feed_never_less(&bright->needs, &feed_a, &feed_b);
    return a->dcdc_a == b->dcdc_a && wb_same_law(&a->law, &b->law) &&
           wb_needs_no_more(&bright->needs, a->inverter, b->inverter) &&
           wb_needs_no_more(&bright->needs, b->inverter, a->inverter);
}

bool wb_bright_is_outshone(WbBright *bright, WbBrightBank *bank, const WbBrightKit *kit)
{
    for (size_t i = 0; i < bank->n; i++) {
        if (!is_never_darker(bright, bank, &bank->kit[i], kit))
            continue;
        WbBrightKit found = bank->kit[i]; /* the next is likely to be like this one: asked first */
        bank->kit[i] = bank->kit[0];
        bank->kit[0] = found;
        return true;
    }
    return false;
}

bool wb_bright_outshines(WbBright *bright, WbBrightBank *bank, const WbBrightKit *kit)
{
    for (size_t i = 0; i < bank->n; i++)
        if (is_never_darker(bright, bank, kit, &bank->kit[i]))
            return true;
    return false;
}

void wb_bright_drop_outshone(WbBright *bright, WbBrightBank *bank, const WbBrightKit *kit)
{
    size_t left = 0;
    for (size_t i = 0; i < bank->n; i++)
        if (!is_never_darker(bright, bank, kit, &bank->kit[i]))
            bank->kit[left++] = bank->kit[i];
    bank->n = left;
}

bool wb_bright_keep(WbBrightBank *bank, const WbBrightKit *kit)
{
    if (bank->n == bank->room) {
        size_t room = bank->room ? 2 * bank->room : 16;
        WbBrightKit *more = realloc(bank->kit, room * sizeof *more);
        if (!more)
            return false;
        bank->kit = more;
        bank->room = room;
    }
    bank->kit[bank->n++] = *kit;
    return true;
}
