#include "join.h"
#include "least_dark.h"
#include "nearest.h"
#include <math.h>
#include <stdlib.h>

static int lowest_bit(uint64_t bits)
{
    return __builtin_ctzll(bits);
}

static bool more_than_one(uint64_t bits)
{
    return (bits & (bits - 1)) != 0;
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

static WbStatus take(WbJoin *join, const WbPieces *pieces)
{
    WbKit kit = wb_pieces_kit(pieces);
    WbFigures figures = {0};
    double figure[WB_N_CRITERIA];
    wb_pieces_figures(pieces, &figures);
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
static WbStatus take_or_wait(WbJoin *join, const WbPieces *pieces)
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
static void tell_joint(const WbJoin *join, WbRule rule, const WbPieces *pieces,
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

/* Is it stopped by money or weight, but not too far from it to be kept? */
static bool is_within_reach(const WbJoin *join, WbRule rule, double value, double limit)
{
    return join->pool && join->beyond && (rule == WB_RULE_MONEY || rule == WB_RULE_WEIGHT) &&
           value <= WB_POOL_BEYOND * limit;
}

static WbStatus stop_alone(WbJoin *join, WbRule rule, const WbPieces *pieces, WbFigures *figures)
{
    WbKit kit = wb_pieces_kit(pieces);
    double value, limit;
    tell_joint(join, rule, pieces, figures, &value, &limit);
    wb_nearest_offer(&join->ruled_out[rule], &kit, value, limit);
    figures->dark_h = WB_MISSING;
    bool kept = !is_within_reach(join, rule, value, limit) ||
                wb_pool_add(join->pool, &kit, (int)rule, figures);
    return kept ? WB_OK : WB_NO_MEMORY;
}

/* Surely no nearest miss and not within reach, by what it misses the limit at least? */
static bool is_far(const WbJoin *join, WbRule rule, double least_miss)
{
    const WbRuledOut *out = &join->ruled_out[rule];
    return out->alone > 0 && least_miss > fabs(out->value - out->limit);
}

/* Money alone stops it. */
static bool is_far_too_dear(const WbJoin *join, int64_t least_minor)
{
    double limit = join->problem->brief->money_minor.value;
    return !is_within_reach(join, WB_RULE_MONEY, (double)least_minor, limit) &&
           is_far(join, WB_RULE_MONEY, (double)least_minor - limit);
}

/* Supply alone stops it: the worst month is short by no less than the one that was probed. */
static bool is_far_too_short(const WbJoin *join, const WbPieces *pieces)
{
    return is_far(join, WB_RULE_SUPPLY,
                  wb_month_short_wh(pieces, pieces->array->array_wh, join->probed));
}

static const double *months_of(WbJoin *join, size_t array)
{
    return wb_run_months(&join->runs, array, join->problem, join->kind);
}

/* The joint rules but money, until two are broken. */
static uint64_t stops_but_money(WbJoin *join, const WbPieces *pieces, size_t array)
{
    const WbRuns *runs = &join->runs;
    uint64_t broken = pieces->bus_broken ? rule_bit(WB_RULE_BANK_CIRCUITS) : 0;
    if (wb_charge_too_high(pieces, runs->solar_a[array]))
        broken |= rule_bit(WB_RULE_CHARGE_MAXIMUM);
    if (!more_than_one(broken) && wb_supply_too_low(pieces, months_of(join, array), &join->probed))
        broken |= rule_bit(WB_RULE_SUPPLY);
    if (!more_than_one(broken) && wb_too_heavy(pieces, runs->weight_g[array]))
        broken |= rule_bit(WB_RULE_WEIGHT);
    return broken;
}

/* All side rules hold, and one joint rule at most is broken but money. Most kits are far from what
 * is told of them: bounds spare their figures. */
static WbStatus join_money(WbJoin *join, uint64_t broken, const WbPieces *pieces)
{
    int64_t least_minor;
    WbFigures figures = {0};
    WbDear dear = wb_dear_at_a_glance(pieces, pieces->array, &least_minor);
    bool far = broken ? dear == WB_DEAR_SURELY
                      : dear == WB_DEAR_SURELY && is_far_too_dear(join, least_minor);
    if (!far && broken == rule_bit(WB_RULE_SUPPLY) && dear == WB_DEAR_NOT)
        far = is_far_too_short(join, pieces);
    if (!far)
        wb_pieces_figures(pieces, &figures);
    if (far ? dear == WB_DEAR_SURELY : wb_too_dear(pieces, figures.cost_minor))
        broken |= rule_bit(WB_RULE_MONEY);
    if (!broken)
        return take_or_wait(join, pieces);
    WbRuledOut *out = &join->ruled_out[lowest_bit(broken)];
    out->first++;
    if (more_than_one(broken))
        return WB_OK;
    if (!far)
        return stop_alone(join, (WbRule)lowest_bit(broken), pieces, &figures);
    out->alone++;
    return WB_OK;
}

/* All side rules hold: the joint rules in the published order. Money comes last, for it takes
 * longest. */
static WbStatus join_sound(WbJoin *join, WbPieces *pieces, size_t array)
{
    uint64_t broken = stops_but_money(join, pieces, array);
    if (more_than_one(broken)) {
        join->ruled_out[lowest_bit(broken)].first++;
        return WB_OK;
    }
    pieces->array = join->runs.half[array];
    return join_money(join, broken, pieces);
}

/* Two sides may break the same rule where it counts things; then they add up. */
static void stop_marred(WbJoin *join, WbRule rule, const WbPieces *pieces)
{
    const WbHalf *halves[] = {pieces->array, pieces->bank, pieces->dcdc};
    WbKit kit = wb_pieces_kit(pieces);
    double value = 0, limit = 0;
    for (int i = 0; i < 3; i++)
        if (halves[i]->broken) {
            value += halves[i]->value;
            limit = halves[i]->limit;
        }
    wb_nearest_offer(&join->ruled_out[rule], &kit, value, limit);
}

/* One side rule is broken, and nothing else was found: does the kit fail by it alone? */
static void join_marred(WbJoin *join, uint64_t broken, WbPieces *pieces, const WbHalf *array)
{
    int64_t least_minor;
    WbFigures figures = {0};
    if (pieces->bus_broken || wb_too_heavy(pieces, array->bill.weight_g))
        return;
    pieces->array = array;
    WbDear dear = WB_DEAR_NOT; /* as is a kit with a part that has no price */
    if (broken != rule_bit(WB_RULE_NO_PRICE))
        dear = wb_dear_at_a_glance(pieces, array, &least_minor);
    if (dear == WB_DEAR_OPEN)
        wb_pieces_figures(pieces, &figures);
    if (dear == WB_DEAR_SURELY || (dear == WB_DEAR_OPEN && wb_too_dear(pieces, figures.cost_minor)))
        return;
    stop_marred(join, (WbRule)lowest_bit(broken), pieces);
}

/* Where the arrays end that one can pay with what the other sides' parts leave. */
static size_t affords(const WbJoin *join, uint64_t broken, const WbPieces *pieces, const WbRun *run)
{
    const WbLimit *limit = &join->problem->brief->money_minor;
    if (!limit->on || broken == rule_bit(WB_RULE_NO_PRICE))
        return run->to;
    return wb_run_affords(&join->runs, run, limit->value - (double)pieces->rest.parts_minor);
}

/* Of the arrays up to end those that charge, weight and the month in which supply fell short last
 * leave; how many. Without a jump for each array: a processor guesses them badly. */
static size_t glance(const WbJoin *join, const WbPieces *pieces, size_t from, size_t end)
{
    const WbRuns *runs = &join->runs;
    const double *month_wh = wb_runs_month(runs, join->probed);
    size_t n = 0;
    for (size_t i = from; i < end; i++) {
        int out = wb_month_short(pieces, join->probed, month_wh[i]) |
                  wb_charge_too_high(pieces, runs->solar_a[i]) |
                  wb_too_heavy(pieces, runs->weight_g[i]);
        runs->found[n] = i;
        n += !out;
    }
    return n;
}

/* What is asked of sides alone comes first: few kits get as far as their circuits. */
static void join_marred_run(WbJoin *join, uint64_t broken, WbPieces *pieces, const WbRun *run)
{
    WbRuns *runs = &join->runs;
    size_t n = glance(join, pieces, run->from, affords(join, broken, pieces, run));
    for (size_t k = 0; k < n; k++) {
        size_t i = runs->found[k];
        if (wb_supply_too_low(pieces, months_of(join, i), &join->probed))
            continue;
        if (!pieces->wires)
            wb_pieces_wire(pieces, &join->wires, runs->half[i]);
        join_marred(join, broken, pieces, runs->half[i]);
    }
}

static WbStatus join_sound_run(WbJoin *join, WbPieces *pieces, const WbRun *run)
{
    WbStatus status = WB_OK;
    if (!pieces->wires)
        wb_pieces_wire(pieces, &join->wires, join->runs.half[run->from]);
    for (size_t i = run->from; i < run->to && status == WB_OK; i++)
        status = join_sound(join, pieces, i);
    return status;
}

/* All kits of one bank with its inverter and one DC-DC charger. */
static WbStatus join_arrays(WbJoin *join, const WbHalf *bank, const WbHalf *dcdc)
{
    const WbRuns *runs = &join->runs;
    uint64_t pair = bank->broken | dcdc->broken;
    size_t chargers = SIZE_MAX;
    const WbPieces bare = wb_pieces_bare(join->problem, bank, dcdc);
    WbPieces pieces = bare;
    WbStatus status = WB_OK;
    if (more_than_one(pair))
        return WB_OK;
    for (size_t i = 0; i < runs->n_runs && status == WB_OK; i++) {
        const WbRun *run = &runs->run[i];
        uint64_t broken = pair | run->broken;
        if (more_than_one(broken))
            continue;
        if (run->chargers != chargers && pieces.wires)
            pieces = bare;
        chargers = run->chargers;
        if (broken)
            join_marred_run(join, broken, &pieces, run);
        else
            status = join_sound_run(join, &pieces, run);
    }
    return status;
}

/* All kits of the banks from first up to end, which differ in the inverter only. */
static WbStatus join_banks(WbJoin *join, size_t first, size_t end)
{
    WbStatus status = WB_OK;
    for (size_t b = first; b < end; b++)
        for (size_t d = 0; d < join->dcdc.n && status == WB_OK; d++)
            status = join_arrays(join, &join->banks.half[b], &join->dcdc.half[d]);
    return status;
}

/* Those that wait carry the load or fail by its dark hours alone. */
static WbStatus take_waiting(WbJoin *join)
{
    WbCarry *carry = &join->carry;
    WbStatus status = wb_carry_answer(carry, &join->arrays, &join->banks, &join->dcdc);
    for (size_t i = 0; i < carry->n && status == WB_OK; i++) {
        const WbWaiting *kit = &carry->waiting[i];
        if (kit->dark_h > carry->limit) {
            WbKit failed = wb_halves_kit(&join->arrays.half[kit->array],
                                         &join->banks.half[kit->bank], &join->dcdc.half[kit->dcdc]);
            join->ruled_out[WB_RULE_DARK_HOURS].first++;
            wb_nearest_offer(&join->ruled_out[WB_RULE_DARK_HOURS], &failed, WB_MISSING,
                             carry->limit);
            continue;
        }
        WbPieces pieces = wb_pieces_of(&join->wires, &join->arrays.half[kit->array],
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
    join->kind = kind;
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
    if (!wb_runs_fill(&join->runs, &join->arrays))
        return WB_NO_MEMORY;
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
    wb_runs_free(&join->runs);
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
