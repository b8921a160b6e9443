#include "join.h"
#include "least_dark.h"
#include "money.h"
#include "nearest.h"
#include <stdlib.h>

static int lowest_bit(uint64_t bits)
{
    return __builtin_ctzll(bits);
}

static bool more_than_one(uint64_t bits)
{
    return (bits & (bits - 1)) != 0;
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
static void count_products(WbJoin *join)
{
    WbRuledOut *out = join->ruled_out;
    for (size_t i = 0; i < join->arrays.n_counts; i++)
        for (size_t j = 0; j < join->banks.n_counts; j++)
            for (size_t k = 0; k < join->dcdc.n_counts; k++) {
                const WbHalfCount *a = &join->arrays.counts[i], *b = &join->banks.counts[j],
                                  *d = &join->dcdc.counts[k];
                uint64_t kits = a->count * b->count * d->count;
                uint64_t broken = a->broken | b->broken | d->broken;
                join->raw += kits;
                if (broken)
                    out[lowest_bit(broken)].first += kits;
            }
}

/* A kit as its halves and the circuits that look at more than one of them. */
typedef struct {
    const WbHalf *array, *bank, *dcdc;
    const WbBankWires *wires;
    const WbLink *charge, *dcdc_out;
} Pieces;

static Pieces pieces_of(WbJoin *join, const WbHalf *array, const WbHalf *bank, const WbHalf *dcdc)
{
    const WbBankWires *wires = wb_wires_bank(&join->wires, bank, array, dcdc);
    return (Pieces){array,
                    bank,
                    dcdc,
                    wires,
                    wb_wires_charge(&join->wires, wires, array),
                    wb_wires_dcdc(&join->wires, wires, dcdc)};
}

static int64_t weight_g(const Pieces *pieces)
{
    return pieces->array->bill.weight_g + pieces->bank->bill.weight_g +
           pieces->dcdc->bill.weight_g + pieces->wires->bill.weight_g +
           pieces->charge->bill.weight_g + pieces->dcdc_out->bill.weight_g;
}

static void fill_figures(const WbJoin *join, const Pieces *pieces, WbFigures *figures)
{
    const WbProblem *problem = join->problem;
    const WbHalf *array = pieces->array, *bank = pieces->bank;
    const WbPanel *panel = problem->panels[array->kit.panel].panel;
    WbSideBill bill = array->bill;
    wb_bill_join(problem, &bill, &bank->bill);
    wb_bill_join(problem, &bill, &pieces->dcdc->bill);
    wb_bill_join(problem, &bill, &pieces->wires->bill);
    wb_bill_join(problem, &bill, &pieces->charge->bill);
    wb_bill_join(problem, &bill, &pieces->dcdc_out->bill);
    figures->priced = bill.unpriced == 0;
    wb_figures_money(problem, &bill, figures);
    figures->weight_g = bill.weight_g;
    figures->roof_area_mm2 =
        (int64_t)array->kit.n_series * array->kit.n_parallel * panel->length_mm * panel->width_mm;
    figures->usable_wh = bank->bank.lowest_usable_wh;
    figures->autonomy_days = bank->bank.lowest_autonomy_days;
    figures->spare_w = bank->bank.spare_w;
    double supply_wh = 0;
    int worst = wb_worst_supply_month(problem, array->array_wh, pieces->dcdc->other_wh, &bank->bank,
                                      &supply_wh);
    figures->supply_margin_wh = worst < 0 ? 0.0 : supply_wh - bank->bank.need_wh[worst];
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

static bool supply_too_low(const WbJoin *join, const WbHalf *array, const WbHalf *bank,
                           const WbHalf *dcdc)
{
    uint32_t months = join->problem->brief->site.months;
    for (int m = 0; m < WB_MONTHS; m++) {
        double supply_wh = (array->array_wh[m] + dcdc->other_wh) - bank->bank.storing_loss_wh[m];
        if ((months >> m & 1) && supply_wh < bank->bank.need_wh[m])
            return true;
    }
    return false;
}

static bool too_dear(const WbJoin *join, const WbFigures *figures)
{
    const WbLimit *limit = &join->problem->brief->money_minor;
    return limit->on && figures->priced && (double)figures->cost_minor > limit->value;
}

static bool too_heavy(const WbJoin *join, const Pieces *pieces)
{
    const WbLimit *limit = &join->problem->brief->weight_kg;
    return limit->on && (double)weight_g(pieces) / 1000 > limit->value;
}

/* All that hangs on the bus bars: wb_rule_circuits says the same. */
static bool bus_broken(const Pieces *pieces)
{
    return pieces->wires->broken || pieces->charge->broken || pieces->dcdc_out->broken;
}

static WbStatus take(WbJoin *join, const Pieces *pieces)
{
    WbKit kit = join_kit(pieces->array, pieces->bank, pieces->dcdc);
    WbFigures figures = {0};
    double figure[WB_N_CRITERIA];
    fill_figures(join, pieces, &figures);
    figures.dark_h = WB_MISSING;
    join->feasible++;
    join->at_work->feasible++;
    if (join->pool && !wb_pool_add(join->pool, &kit, WB_N_RULES, &figures))
        return WB_NO_MEMORY;
    for (int c = 0; c < WB_N_CRITERIA; c++)
        figure[c] = wb_figure(&figures, (WbCriterion)c);
    return wb_late_take(&join->late, &kit, figure);
}

/* Everything but the dark hours holds. */
static WbStatus take_or_wait(WbJoin *join, const Pieces *pieces)
{
    if (!join->carry.asked)
        return take(join, pieces);
    return wb_carry_add(&join->carry, (size_t)(pieces->array - join->arrays.half),
                        (size_t)(pieces->bank - join->banks.half),
                        (size_t)(pieces->dcdc - join->dcdc.half))
               ? WB_OK
               : WB_NO_MEMORY;
}

/* The two numbers of the one joint rule that stops a kit, as its finding tells them. */
static void tell_joint(const WbJoin *join, WbRule rule, const Pieces *pieces,
                       const WbFigures *figures, double *value, double *limit)
{
    const WbBrief *brief = join->problem->brief;
    const WbHalf *array = pieces->array, *bank = pieces->bank, *dcdc = pieces->dcdc;
    *value = pieces->wires->faults + pieces->charge->faults + pieces->dcdc_out->faults;
    *limit = 0;
    if (rule == WB_RULE_CHARGE_MAXIMUM) {
        *value = array->solar_a + dcdc->dcdc_a;
        *limit = bank->max_charge_a;
    } else if (rule == WB_RULE_SUPPLY) {
        int month = wb_worst_supply_month(join->problem, array->array_wh, dcdc->other_wh,
                                          &bank->bank, value);
        *limit = bank->bank.need_wh[month];
    } else if (rule == WB_RULE_MONEY) {
        *value = (double)figures->cost_minor;
        *limit = brief->money_minor.value;
    } else if (rule == WB_RULE_WEIGHT) {
        *value = (double)figures->weight_g / 1000;
        *limit = brief->weight_kg.value;
    }
}

/* Is it stopped by money or weight, but not too far from it? */
static bool is_within_reach(WbRule rule, double value, double limit)
{
    return (rule == WB_RULE_MONEY || rule == WB_RULE_WEIGHT) && value <= WB_POOL_BEYOND * limit;
}

static WbStatus stop_alone(WbJoin *join, WbRule rule, const Pieces *pieces, WbFigures *figures)
{
    WbKit kit = join_kit(pieces->array, pieces->bank, pieces->dcdc);
    double value, limit;
    tell_joint(join, rule, pieces, figures, &value, &limit);
    wb_nearest_offer(&join->ruled_out[rule], &kit, value, limit);
    figures->dark_h = WB_MISSING;
    bool kept = !join->pool || !is_within_reach(rule, value, limit) ||
                wb_pool_add(join->pool, &kit, (int)rule, figures);
    return kept ? WB_OK : WB_NO_MEMORY;
}

/* All side rules hold: the joint rules in the published order, until two are broken. */
static WbStatus join_sound(WbJoin *join, const WbHalf *array, const WbHalf *bank,
                           const WbHalf *dcdc)
{
    Pieces pieces = pieces_of(join, array, bank, dcdc);
    WbFigures figures = {0};
    uint64_t broken = 0;
    if (bus_broken(&pieces))
        broken |= rule_bit(WB_RULE_BANK_CIRCUITS);
    if (charge_too_high(array, bank, dcdc))
        broken |= rule_bit(WB_RULE_CHARGE_MAXIMUM);
    if (!more_than_one(broken) && supply_too_low(join, array, bank, dcdc))
        broken |= rule_bit(WB_RULE_SUPPLY);
    if (!more_than_one(broken)) {
        fill_figures(join, &pieces, &figures);
        if (too_dear(join, &figures))
            broken |= rule_bit(WB_RULE_MONEY);
        if (too_heavy(join, &pieces))
            broken |= rule_bit(WB_RULE_WEIGHT);
    }
    if (!broken)
        return take_or_wait(join, &pieces);
    join->ruled_out[lowest_bit(broken)].first++;
    if (one_bit(broken))
        return stop_alone(join, (WbRule)lowest_bit(broken), &pieces, &figures);
    return WB_OK;
}

/* Two sides may break the same rule where it counts things; then they add up. */
static void stop_marred(WbJoin *join, WbRule rule, const Pieces *pieces)
{
    const WbHalf *halves[] = {pieces->array, pieces->bank, pieces->dcdc};
    WbKit kit = join_kit(pieces->array, pieces->bank, pieces->dcdc);
    double value = 0, limit = 0;
    for (int i = 0; i < 3; i++)
        if (halves[i]->broken) {
            value += halves[i]->value;
            limit = halves[i]->limit;
        }
    wb_nearest_offer(&join->ruled_out[rule], &kit, value, limit);
}

/* One side rule is broken: does the kit fail by it alone? Cheapest question first. */
static void join_marred(WbJoin *join, uint64_t broken, const WbHalf *array, const WbHalf *bank,
                        const WbHalf *dcdc)
{
    if (charge_too_high(array, bank, dcdc) || supply_too_low(join, array, bank, dcdc))
        return;
    Pieces pieces = pieces_of(join, array, bank, dcdc);
    if (bus_broken(&pieces) || too_heavy(join, &pieces))
        return;
    WbFigures figures = {0};
    fill_figures(join, &pieces, &figures);
    if (!too_dear(join, &figures))
        stop_marred(join, (WbRule)lowest_bit(broken), &pieces);
}

/* Parts of two halves alone over the money limit: no need to look at the rest of a
 * marred pair. */
static bool surely_too_dear(const WbJoin *join, int64_t parts_minor)
{
    const WbLimit *limit = &join->problem->brief->money_minor;
    return limit->on && (double)parts_minor > limit->value;
}

static WbStatus join_bank(WbJoin *join, const WbHalf *array, const WbHalf *bank)
{
    uint64_t pair = array->broken | bank->broken;
    if (pair && !one_bit(pair))
        return WB_OK;
    for (size_t d = 0; d < join->dcdc.n; d++) {
        const WbHalf *dcdc = &join->dcdc.half[d];
        uint64_t broken = pair | dcdc->broken;
        WbStatus status = WB_OK;
        if (!broken)
            status = join_sound(join, array, bank, dcdc);
        else if (one_bit(broken))
            join_marred(join, broken, array, bank, dcdc);
        if (status != WB_OK)
            return status;
    }
    return WB_OK;
}

/* All kits of the banks from first up to end, which differ in the inverter only. */
static WbStatus join_banks(WbJoin *join, size_t first, size_t end)
{
    for (size_t a = 0; a < join->arrays.n; a++) {
        const WbHalf *array = &join->arrays.half[a];
        for (size_t b = first; b < end; b++) {
            const WbHalf *bank = &join->banks.half[b];
            bool marred = array->broken || bank->broken;
            bool unpriced = array->bill.unpriced || bank->bill.unpriced;
            if (marred && !unpriced &&
                surely_too_dear(join, array->bill.parts_minor + bank->bill.parts_minor))
                continue;
            WbStatus status = join_bank(join, array, bank);
            if (status != WB_OK)
                return status;
        }
    }
    return WB_OK;
}

/* Those that wait carry the load or fail by its dark hours alone. */
static WbStatus take_waiting(WbJoin *join)
{
    WbCarry *carry = &join->carry;
    WbStatus status = wb_carry_answer(carry, &join->arrays, &join->banks, &join->dcdc);
    for (size_t i = 0; i < carry->n && status == WB_OK; i++) {
        const WbWaiting *kit = &carry->waiting[i];
        if (kit->dark_h > carry->limit) {
            WbKit failed = join_kit(&join->arrays.half[kit->array], &join->banks.half[kit->bank],
                                    &join->dcdc.half[kit->dcdc]);
            join->ruled_out[WB_RULE_DARK_HOURS].first++;
            wb_nearest_offer(&join->ruled_out[WB_RULE_DARK_HOURS], &failed, WB_MISSING,
                             carry->limit);
            continue;
        }
        Pieces pieces = pieces_of(join, &join->arrays.half[kit->array],
                                  &join->banks.half[kit->bank], &join->dcdc.half[kit->dcdc]);
        status = take(join, &pieces);
    }
    if (join->least_dark && status == WB_OK)
        status = wb_least_dark(carry, &join->arrays, &join->banks, &join->dcdc,
                               &join->ruled_out[WB_RULE_DARK_HOURS]);
    carry->n = 0;
    return status;
}

static bool same_bank(const WbKit *a, const WbKit *b)
{
    return a->storage == b->storage && a->bank_series == b->bank_series &&
           a->bank_parallel == b->bank_parallel;
}

static WbStatus join_all(WbJoin *join)
{
    const WbHalf *bank = join->banks.half;
    for (size_t first = 0, end; first < join->banks.n; first = end) {
        for (end = first + 1; end < join->banks.n && same_bank(&bank[first].kit, &bank[end].kit);)
            end++;
        if (wb_control_stopped(join->control))
            return WB_STOPPED;
        WbStatus status = join_banks(join, first, end);
        if (status == WB_OK)
            status = take_waiting(join);
        if (status != WB_OK)
            return status;
    }
    return WB_OK;
}

bool wb_same_bank_kind(const WbBankKind *a, const WbBankKind *b)
{
    return a->chemistry == b->chemistry && a->volts.nominal_v == b->volts.nominal_v &&
           a->volts.charge_v == b->volts.charge_v;
}

static WbStatus add_banks_of(WbJoin *join, const WbBankKind *kind)
{
    const WbProblem *problem = join->problem;
    for (int i = 0; i < (int)problem->n_storage; i++)
        for (int s = 1; wb_may_hold(join->holding, WB_KIND_STORAGE, i) &&
                        s <= problem->brief->largest.bank_series;
             s++) {
            WbBankKind other = wb_bank_kind(problem, i, s);
            if (!wb_same_bank_kind(kind, &other))
                continue;
            WbStatus status = wb_halves_bank(problem, join->holding, kind, i, s, &join->banks);
            if (status != WB_OK)
                return status;
        }
    return WB_OK;
}

WbStatus wb_join_kind(WbJoin *join, const WbBankKind *kind)
{
    join->at_work = &join->tally[kind->chemistry - join->problem->catalogue->chemistries];
    wb_halves_clear(&join->arrays);
    wb_halves_clear(&join->banks);
    wb_halves_clear(&join->dcdc);
    WbStatus status =
        wb_halves_array(join->problem, kind, join->listed, join->control, &join->arrays);
    if (status == WB_OK)
        status = add_banks_of(join, kind);
    if (status == WB_OK)
        status = wb_halves_dcdc(join->problem, join->holding, kind, &join->dcdc);
    if (status != WB_OK)
        return status;
    count_products(join);
    bool ready = wb_wires_init(&join->wires, join->problem, kind, &join->banks);
    status = ready ? join_all(join) : WB_NO_MEMORY;
    if (join->wires.no_memory)
        status = WB_NO_MEMORY;
    wb_wires_free(&join->wires);
    return status;
}

bool wb_join_init(WbJoin *join, const WbProblem *problem, const WbArrays *listed, size_t top,
                  WbControl *control)
{
    *join = (WbJoin){.problem = problem, .listed = listed, .control = control};
    wb_best_init(&join->best, problem, top);
    wb_front_init(&join->front, problem->brief->front, control);
    size_t n = problem->catalogue->n_chemistries;
    join->tally = calloc(n + 1, sizeof *join->tally);
    for (size_t i = 0; join->tally && i < n; i++)
        wb_best_init(&join->tally[i].best, problem, 1);
    bool begun = wb_carry_init(&join->carry, problem, control);
    wb_late_init(&join->late, &join->carry, &join->memo);
    join->late.best = &join->best;
    join->late.tally = join->tally;
    join->late.front = &join->front;
    if (wb_late_asked(&join->late))
        join->carry.memo = &join->memo;
    return begun && join->tally != NULL;
}

void wb_join_free(WbJoin *join)
{
    if (!join->problem) /* never begun */
        return;
    for (size_t i = 0; join->tally && i < join->problem->catalogue->n_chemistries; i++)
        wb_best_free(&join->tally[i].best);
    free(join->tally);
    wb_carry_free(&join->carry);
    wb_late_free(&join->late);
    wb_dark_memo_free(&join->memo);
    wb_best_free(&join->best);
    wb_front_free(&join->front);
    wb_halves_free(&join->arrays);
    wb_halves_free(&join->banks);
    wb_halves_free(&join->dcdc);
}

static bool merge_best(WbBest *into, const WbBest *from)
{
    for (size_t i = 0; i < from->n; i++)
        if (!wb_best_put(into, &from->heap[i].kit, from->heap[i].key))
            return false;
    return true;
}

WbStatus wb_join_finish(WbJoin *join)
{
    return wb_late_finish(&join->late);
}

WbStatus wb_join_merge(WbJoin *into, const WbJoin *from)
{
    into->raw += from->raw;
    into->feasible += from->feasible;
    for (int r = 0; r < WB_N_RULES; r++) {
        wb_nearest_merge(&into->ruled_out[r], &from->ruled_out[r]);
    }
    if (!wb_dark_memo_merge(&into->memo, &from->memo) || !merge_best(&into->best, &from->best))
        return WB_NO_MEMORY;
    for (size_t i = 0; i < into->problem->catalogue->n_chemistries; i++) {
        into->tally[i].feasible += from->tally[i].feasible;
        if (!merge_best(&into->tally[i].best, &from->tally[i].best))
            return WB_NO_MEMORY;
    }
    WbStatus status = WB_OK;
    if (from->front.too_many)
        wb_front_give_up(&into->front);
    for (size_t i = 0; i < from->front.n && status == WB_OK; i++)
        status = wb_front_put(&into->front, &from->front.kits[i]);
    return status;
}
