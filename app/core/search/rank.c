/* The exact ranking. Every kit is an array side (panel, series x parallel, controllers), a bank
 * side (storage, series x parallel, inverter) and a DC-DC side. Most rules look at one side and at
 * what the bank is to a charger (its volts and chemistry), so for each such kind of bank every side
 * is judged once. Sides are then joined:
 *   - two or more broken side rules between them: counted as a product of counts, never visited;
 *   - one: it matters only whether the joint rules hold (then the kit fails by that rule alone);
 *   - none: the joint rules decide.
 * Nothing is sampled or cut short: first-broken counts and the working kits add up to the raw
 * count. Cost: sides judged + pairs with at most one broken side rule. */
#include "rank.h"
#include "best.h"
#include "front.h"
#include "halves.h"
#include "money.h"
#include "rows.h"
#include <stdlib.h>

typedef struct {
    const WbProblem *problem;
    WbControl *control;
    WbBest best;
    WbFront front;
    WbRanking *ranking;
    WbHalves arrays, banks, dcdc;
} Search;

WbRankOptions wb_rank_options_default(void)
{
    return (WbRankOptions){.top = 1000, .front_most = 100000};
}

static int lowest_bit(uint64_t bits)
{
    return __builtin_ctzll(bits);
}

static bool one_bit(uint64_t bits)
{
    return bits && (bits & (bits - 1)) == 0;
}

static uint64_t rule_bit(WbRule rule)
{
    return UINT64_C(1) << rule;
}

/* Kits of which two or more side rules are broken, and those with one, by their first. */
static void count_products(Search *search)
{
    WbRuledOut *out = search->ranking->ruled_out;
    for (size_t i = 0; i < search->arrays.n_counts; i++)
        for (size_t j = 0; j < search->banks.n_counts; j++)
            for (size_t k = 0; k < search->dcdc.n_counts; k++) {
                const WbHalfCount *a = &search->arrays.counts[i], *b = &search->banks.counts[j],
                                  *d = &search->dcdc.counts[k];
                uint64_t kits = a->count * b->count * d->count;
                uint64_t broken = a->broken | b->broken | d->broken;
                search->ranking->raw += kits;
                if (broken)
                    out[lowest_bit(broken)].first += kits;
            }
}

static void fill_figures(const Search *search, const WbHalf *array, const WbHalf *bank,
                         const WbHalf *dcdc, WbFigures *figures)
{
    const WbProblem *problem = search->problem;
    const WbPanel *panel = problem->panels[array->kit.panel].panel;
    figures->priced = !(array->bill.unpriced + bank->bill.unpriced + dcdc->bill.unpriced);
    figures->parts_minor =
        array->bill.parts_minor + bank->bill.parts_minor + dcdc->bill.parts_minor;
    figures->shipping_minor =
        wb_bills_shipping_minor(problem, &array->bill, &bank->bill, &dcdc->bill);
    figures->allowance_minor =
        wb_allowance_minor(figures->parts_minor, problem->brief->sundries_pct);
    figures->cost_minor = figures->parts_minor + figures->shipping_minor + figures->allowance_minor;
    figures->weight_g = array->bill.weight_g + bank->bill.weight_g + dcdc->bill.weight_g;
    figures->roof_area_mm2 =
        (int64_t)array->kit.n_series * array->kit.n_parallel * panel->length_mm * panel->width_mm;
    figures->usable_wh = bank->bank.lowest_usable_wh;
    figures->autonomy_days = bank->bank.lowest_autonomy_days;
    figures->spare_w = bank->bank.spare_w;
}

static WbKit join_kit(const WbHalf *array, const WbHalf *bank, const WbHalf *dcdc)
{
    WbKit kit = array->kit;
    kit.storage = bank->kit.storage;
    kit.bank_series = bank->kit.bank_series;
    kit.bank_parallel = bank->kit.bank_parallel;
    kit.inverter = bank->kit.inverter;
    kit.dcdc = dcdc->kit.dcdc;
    return kit;
}

/* The joint rules stop a kit; wb_rule_charge_maximum, wb_rule_supply, wb_rule_money and
 * wb_rule_weight say the same in findings. Here they are plain comparisons: they are asked of
 * millions of pairs. */
static bool charge_too_high(const WbHalf *array, const WbHalf *bank, const WbHalf *dcdc)
{
    return array->solar_a + dcdc->dcdc_a > bank->max_charge_a;
}

static bool supply_too_low(const Search *search, const WbHalf *array, const WbHalf *bank,
                           const WbHalf *dcdc)
{
    uint32_t months = search->problem->brief->site.months;
    for (int m = 0; m < WB_MONTHS; m++) {
        double supply_wh =
            (array->array_wh[m] + dcdc->alternator_wh) - bank->bank.storing_loss_wh[m];
        if ((months >> m & 1) && supply_wh < bank->bank.need_wh[m])
            return true;
    }
    return false;
}

static bool too_dear(const Search *search, const WbFigures *figures)
{
    const WbLimit *limit = &search->problem->brief->money_minor;
    return limit->on && figures->priced && (double)figures->cost_minor > limit->value;
}

static bool too_heavy(const Search *search, const WbFigures *figures)
{
    const WbLimit *limit = &search->problem->brief->weight_kg;
    return limit->on && (double)figures->weight_g / 1000 > limit->value;
}

static WbStatus take(Search *search, const WbHalf *array, const WbHalf *bank, const WbHalf *dcdc,
                     const WbFigures *figures)
{
    WbKit kit = join_kit(array, bank, dcdc);
    double u[WB_N_CRITERIA];
    double score = wb_score(search->problem, figures, u);
    search->ranking->feasible++;
    if (!wb_best_put(&search->best, &kit, score))
        return WB_NO_MEMORY;
    return wb_front_offer(&search->front, &kit, figures);
}

/* All side rules hold: the joint rules in the published order, until two are broken. */
static WbStatus join_sound(Search *search, const WbHalf *array, const WbHalf *bank,
                           const WbHalf *dcdc)
{
    WbFigures figures = {0};
    uint64_t broken = 0;
    if (charge_too_high(array, bank, dcdc))
        broken |= rule_bit(WB_RULE_CHARGE_MAXIMUM);
    if (supply_too_low(search, array, bank, dcdc))
        broken |= rule_bit(WB_RULE_SUPPLY);
    if (!broken || one_bit(broken)) {
        fill_figures(search, array, bank, dcdc, &figures);
        if (too_dear(search, &figures))
            broken |= rule_bit(WB_RULE_MONEY);
        if (too_heavy(search, &figures))
            broken |= rule_bit(WB_RULE_WEIGHT);
    }
    if (!broken)
        return take(search, array, bank, dcdc, &figures);
    search->ranking->ruled_out[lowest_bit(broken)].first++;
    if (one_bit(broken))
        search->ranking->ruled_out[lowest_bit(broken)].alone++;
    return WB_OK;
}

/* One side rule is broken: does the kit fail by it alone? Cheapest question first. */
static void join_marred(Search *search, uint64_t broken, const WbHalf *array, const WbHalf *bank,
                        const WbHalf *dcdc)
{
    if (charge_too_high(array, bank, dcdc) || supply_too_low(search, array, bank, dcdc))
        return;
    WbFigures figures = {0};
    fill_figures(search, array, bank, dcdc, &figures);
    if (!too_dear(search, &figures) && !too_heavy(search, &figures))
        search->ranking->ruled_out[lowest_bit(broken)].alone++;
}

/* Parts alone over the money limit: no need to look at the rest of a marred pair. */
static bool surely_too_dear(const Search *search, int64_t parts_minor)
{
    const WbLimit *limit = &search->problem->brief->money_minor;
    return limit->on && (double)parts_minor > limit->value;
}

static WbStatus join_bank(Search *search, const WbHalf *array, const WbHalf *bank)
{
    uint64_t pair = array->broken | bank->broken;
    if (pair && !one_bit(pair))
        return WB_OK;
    for (size_t d = 0; d < search->dcdc.n; d++) {
        const WbHalf *dcdc = &search->dcdc.half[d];
        uint64_t broken = pair | dcdc->broken;
        WbStatus status = WB_OK;
        if (!broken)
            status = join_sound(search, array, bank, dcdc);
        else if (one_bit(broken))
            join_marred(search, broken, array, bank, dcdc);
        if (status != WB_OK)
            return status;
    }
    return WB_OK;
}

static WbStatus join(Search *search)
{
    for (size_t a = 0; a < search->arrays.n; a++) {
        const WbHalf *array = &search->arrays.half[a];
        if (wb_control_stopped(search->control))
            return WB_STOPPED;
        for (size_t b = 0; b < search->banks.n; b++) {
            const WbHalf *bank = &search->banks.half[b];
            bool marred = array->broken || bank->broken;
            bool unpriced = array->bill.unpriced || bank->bill.unpriced;
            if (marred && !unpriced &&
                surely_too_dear(search, array->bill.parts_minor + bank->bill.parts_minor))
                continue;
            WbStatus status = join_bank(search, array, bank);
            if (status != WB_OK)
                return status;
        }
    }
    return WB_OK;
}

static bool same_kind(const WbBankKind *a, const WbBankKind *b)
{
    return a->chemistry == b->chemistry && a->volts.nominal_v == b->volts.nominal_v &&
           a->volts.charge_v == b->volts.charge_v;
}

/* Was a bank of this kind met before (storage, series)? Kinds are taken in that order. */
static bool seen_before(const WbProblem *problem, const WbBankKind *kind, int storage, int series)
{
    for (int i = 0; i <= storage; i++) {
        int most = i < storage ? problem->brief->largest.bank_series : series - 1;
        for (int s = 1; s <= most; s++) {
            WbBankKind other = wb_bank_kind(problem, i, s);
            if (same_kind(kind, &other))
                return true;
        }
    }
    return false;
}

static WbStatus add_banks_of(Search *search, const WbBankKind *kind)
{
    const WbProblem *problem = search->problem;
    for (int i = 0; i < (int)problem->n_storage; i++)
        for (int s = 1; s <= problem->brief->largest.bank_series; s++) {
            WbBankKind other = wb_bank_kind(problem, i, s);
            if (!same_kind(kind, &other))
                continue;
            WbStatus status = wb_halves_bank(problem, kind, i, s, &search->banks);
            if (status != WB_OK)
                return status;
        }
    return WB_OK;
}

static WbStatus rank_kind(Search *search, const WbBankKind *kind)
{
    wb_halves_clear(&search->arrays);
    wb_halves_clear(&search->banks);
    wb_halves_clear(&search->dcdc);
    WbStatus status = wb_halves_array(search->problem, kind, search->control, &search->arrays);
    if (status == WB_OK)
        status = add_banks_of(search, kind);
    if (status == WB_OK)
        status = wb_halves_dcdc(search->problem, kind, &search->dcdc);
    if (status != WB_OK)
        return status;
    count_products(search);
    return join(search);
}

static WbStatus rank_all(Search *search)
{
    const WbProblem *problem = search->problem;
    int series = problem->brief->largest.bank_series;
    if (search->control)
        atomic_store(&search->control->todo, problem->n_storage * (uint64_t)series);
    for (int i = 0; i < (int)problem->n_storage; i++)
        for (int s = 1; s <= series; s++) {
            WbBankKind kind = wb_bank_kind(problem, i, s);
            if (!seen_before(problem, &kind, i, s)) {
                WbStatus status = rank_kind(search, &kind);
                if (status != WB_OK)
                    return status;
            }
            if (search->control)
                atomic_fetch_add(&search->control->done, 1);
        }
    return wb_front_finish(&search->front);
}

WbStatus wb_rank(const WbProblem *problem, const WbRankOptions *options, WbControl *control,
                 WbRanking *ranking)
{
    if (options->top < 1 || options->top > 1000000)
        return WB_BAD_INPUT;
    WbRanking found = {0};
    Search search = {.problem = problem, .control = control, .ranking = &found};
    wb_best_init(&search.best, problem, options->top);
    wb_front_init(&search.front, problem->brief->front, control);
    WbStatus status = rank_all(&search);
    found.undecided = found.ruled_out[WB_RULE_ROOF_UNDECIDED].alone;
    if (status == WB_OK)
        status = wb_fill_rows(problem, options, &search.best, &search.front, &found);
    wb_best_free(&search.best);
    wb_front_free(&search.front);
    wb_halves_free(&search.arrays);
    wb_halves_free(&search.banks);
    wb_halves_free(&search.dcdc);
    if (status == WB_OK)
        *ranking = found;
    else
        wb_ranking_free(&found);
    return status;
}

void wb_ranking_free(WbRanking *ranking)
{
    free(ranking->top);
    free(ranking->front);
    *ranking = (WbRanking){0};
}
