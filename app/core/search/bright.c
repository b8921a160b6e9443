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
    bright->need = calloc(problem->n_inverters * problem->n_inverters + 1, 1);
    return bright->bank && bright->need;
}

void wb_bright_free(WbBright *bright)
{
    for (size_t i = 0; bright->bank && i < n_banks(bright->problem); i++)
        free(bright->bank[i].kit);
    free(bright->bank);
    free(bright->need);
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

static bool needs_no_more(WbBright *bright, int a, int b)
{
    const WbProblem *problem = bright->problem;
    if (a == b)
        return true;
    uint8_t *known = &bright->need[(size_t)a * problem->n_inverters + (size_t)b];
    if (*known == NOT_ASKED)
        *known =
            wb_demand_is_never_more(&problem->inverters[a].demand, &problem->inverters[b].demand)
                ? YES
                : NO;
    return *known == YES;
}

static bool same_law(const WbArrayLaw *a, const WbArrayLaw *b)
{
    return a->peak_w == b->peak_w && a->limit_w == b->limit_w && a->idle_w == b->idle_w &&
           a->power_coeff_k == b->power_coeff_k && a->heating_k_m2_w == b->heating_k_m2_w &&
           a->low_light_loss == b->low_light_loss;
}

/* Cheapest question first. */
static bool is_never_darker(WbBright *bright, const WbBrightBank *bank, const WbBrightKit *a,
                            const WbBrightKit *b)
{
    if (bank->monotone != YES)
        return a->dcdc_a == b->dcdc_a && same_law(&a->law, &b->law) &&
               needs_no_more(bright, a->inverter, b->inverter) &&
               needs_no_more(bright, b->inverter, a->inverter);
    return a->dcdc_a >= b->dcdc_a && needs_no_more(bright, a->inverter, b->inverter) &&
           (same_law(&a->law, &b->law) ||
            wb_array_never_less(&a->law, &b->law, &bright->problem->plane));
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
