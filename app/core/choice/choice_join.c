#include "choice_join.h"
#include <stdlib.h>

/* ---- which rules look where ---- */

static bool looks_at(const WbChoiceTable *table, int rule, uint32_t slots)
{
    for (int s = 0; s < table->n_slots; s++)
        if ((slots >> s & 1) && table->slot[s].term[rule])
            return true;
    return false;
}

static bool looks_at_both(const WbChoiceTable *table, int rule, uint32_t slots, uint32_t others)
{
    return looks_at(table, rule, slots) && looks_at(table, rule, others);
}

uint32_t wb_choice_coupled(const WbChoiceGroup *group, uint32_t slots)
{
    const WbChoiceTable *table = group->table;
    bool grown = true;
    if (group->below)
        return wb_choice_all_slots(table);
    while (grown) {
        grown = false;
        for (int s = 0; s < table->n_slots; s++)
            for (int r = 0; r < group->n_rules && !(slots >> s & 1); r++)
                if (looks_at_both(table, group->rule[r], slots, UINT32_C(1) << s)) {
                    slots |= UINT32_C(1) << s;
                    grown = true;
                }
    }
    return slots;
}

static int rules_between(const WbChoiceGroup *group, uint32_t slots, uint32_t others)
{
    int n = 0;
    for (int r = 0; r < group->n_rules; r++)
        n += looks_at_both(group->table, group->rule[r], slots, others);
    return n;
}

static double choices_of(const WbChoiceGroup *group, uint32_t slots)
{
    double n = 1;
    for (int s = 0; s < group->table->n_slots; s++)
        n *= slots >> s & 1 ? (double)group->n[s] : 1;
    return n;
}

uint32_t wb_choice_half(const WbChoiceGroup *group, uint32_t slots)
{
    uint32_t first = slots & -slots, best = first;
    int fewest = 0;
    double smallest = 0;
    /* Every proper part of the slots that holds the first, one after the other. */
    for (uint32_t part = first; part != slots; part = ((part - slots) & slots) | first) {
        uint32_t rest = slots & ~part;
        int rules = rules_between(group, part, rest);
        double one = choices_of(group, part), other = choices_of(group, rest);
        double larger = one > other ? one : other;
        if (part == first || rules < fewest || (rules == fewest && larger < smallest)) {
            best = part;
            fewest = rules;
            smallest = larger;
        }
    }
    return best;
}

static void begin(const WbChoiceJoin *join, uint32_t slots, WbChoicePart *part)
{
    const WbChoiceGroup *group = join->group;
    uint32_t others = wb_choice_all_slots(group->table) & ~slots;
    wb_choice_part_init(part, slots, join->n_criteria, join->thin, &join->effort);
    for (int r = 0; r < group->n_rules; r++)
        if (looks_at_both(group->table, group->rule[r], slots, others))
            wb_choice_part_add_rule(part, group->rule[r]);
}

/* ---- pairs ---- */

static WbStatus step(WbChoiceJoin *join)
{
    join->nodes++;
    if (join->effort.nodes && join->nodes > join->effort.nodes)
        return WB_BUDGET;
    return join->nodes % 65536 == 0 && wb_control_stopped(join->effort.control) ? WB_STOPPED
                                                                                : WB_OK;
}

static int place_of(const WbChoicePart *part, int rule)
{
    for (int r = 0; r < part->n_rules; r++)
        if (part->rule[r] == rule)
            return part->n_criteria + r;
    return -1;
}

WbChoiceShared wb_choice_shared(const WbChoiceGroup *group, const WbChoicePart *a,
                                const WbChoicePart *b)
{
    WbChoiceShared shared = {0};
    for (int r = 0; r < a->n_rules; r++) {
        int rule = a->rule[r], of_b = place_of(b, rule);
        if (of_b < 0)
            continue;
        int64_t most = group->table->limit[rule];
        for (int s = 0; s < group->table->n_slots; s++)
            most -= (a->slots | b->slots) >> s & 1 ? 0 : group->least[rule][s];
        shared.of_a[shared.n] = a->n_criteria + r;
        shared.of_b[shared.n] = of_b;
        shared.most[shared.n++] = (double)most;
    }
    return shared;
}

/* Where the numbers of a pair come from: -1 is nowhere. */
typedef struct {
    int n, of_a[WB_SIEVE_MOST], of_b[WB_SIEVE_MOST];
} Sums;

static Sums sums_of(const WbChoicePart *a, const WbChoicePart *b, const WbChoicePart *both)
{
    Sums sums = {.n = both->n_numbers};
    for (int c = 0; c < both->n_criteria; c++)
        sums.of_a[c] = sums.of_b[c] = c;
    for (int r = 0; r < both->n_rules; r++) {
        sums.of_a[both->n_criteria + r] = place_of(a, both->rule[r]);
        sums.of_b[both->n_criteria + r] = place_of(b, both->rule[r]);
    }
    return sums;
}

static bool goes(const WbChoiceShared *shared, const double *a, const double *b)
{
    for (int r = 0; r < shared->n; r++)
        if (a[shared->of_a[r]] + b[shared->of_b[r]] > shared->most[r])
            return false;
    return true;
}

static WbChoice choice_of(const WbChoicePart *a, size_t i, const WbChoicePart *b, size_t j)
{
    WbChoice choice = a->choice[i];
    for (int s = 0; s < WB_CHOICE_SLOTS; s++)
        choice.row[s] |= b->choice[j].row[s];
    return choice;
}

WbStatus wb_choice_pairs(WbChoiceJoin *join, const WbChoicePart *a, const WbChoicePart *b,
                         WbChoicePart *both)
{
    WbChoiceShared shared = wb_choice_shared(join->group, a, b);
    Sums sums = sums_of(a, b, both);
    bool whole = (a->slots | b->slots) == wb_choice_all_slots(join->group->table);
    WbChoice choice = {{0}};
    WbStatus status = WB_OK;
    for (size_t i = 0; i < a->n && status == WB_OK; i++) {
        const double *one = a->number + i * (size_t)a->n_numbers;
        for (size_t j = 0; j < b->n && (status = step(join)) == WB_OK; j++) {
            const double *other = b->number + j * (size_t)b->n_numbers;
            uint32_t below = a->below[i] & b->below[j];
            double number[WB_SIEVE_MOST];
            if ((whole && below) || !goes(&shared, one, other))
                continue;
            for (int k = 0; k < sums.n; k++)
                number[k] = (sums.of_a[k] < 0 ? 0 : one[sums.of_a[k]]) +
                            (sums.of_b[k] < 0 ? 0 : other[sums.of_b[k]]);
            if (both->thin)
                choice = choice_of(a, i, b, j);
            status = wb_choice_part_put(both, number, below, &choice);
            if (status != WB_OK)
                return status;
        }
    }
    return status;
}

/* ---- a part of its slots ---- */

static WbStatus lone_slot(WbChoiceJoin *join, int s, WbChoicePart *part)
{
    const WbChoiceGroup *group = join->group;
    WbStatus status = WB_OK;
    begin(join, UINT32_C(1) << s, part);
    for (size_t i = 0; i < group->n[s] && status == WB_OK; i++) {
        uint32_t row = group->row[s][i];
        WbChoice choice = {{0}};
        double number[WB_SIEVE_MOST];
        choice.row[s] = row;
        for (int c = 0; c < join->n_criteria; c++)
            number[c] = (double)wb_choice_criterion(group->table, s, join->criterion[c], row);
        for (int r = 0; r < part->n_rules; r++)
            number[part->n_criteria + r] =
                (double)wb_choice_term(group->table, s, part->rule[r], row);
        status = wb_choice_part_put(part, number, wb_choice_below(group, s, row), &choice);
    }
    return status == WB_OK ? wb_choice_part_finish(part) : status;
}

static WbStatus empty_choice(WbChoiceJoin *join, WbChoicePart *part)
{
    double number[WB_SIEVE_MOST] = {0};
    WbChoice choice = {{0}};
    begin(join, 0, part);
    return wb_choice_part_put(part, number, join->group->below, &choice);
}

/* Part and one slot more, in place of part. */
static WbStatus widen(WbChoiceJoin *join, int s, WbChoicePart *part)
{
    WbChoicePart slot, both;
    WbStatus status = lone_slot(join, s, &slot);
    begin(join, part->slots | slot.slots, &both);
    if (status == WB_OK)
        status = wb_choice_pairs(join, part, &slot, &both);
    if (status == WB_OK)
        status = wb_choice_part_finish(&both);
    wb_choice_part_free(&slot);
    wb_choice_part_free(part);
    *part = both;
    return status;
}

WbStatus wb_choice_part_of(WbChoiceJoin *join, uint32_t slots, WbChoicePart *part)
{
    if (!slots)
        return empty_choice(join, part);
    int first = __builtin_ctz(slots);
    WbStatus status = lone_slot(join, first, part);
    for (int s = first + 1; s < WB_CHOICE_SLOTS && status == WB_OK; s++)
        if (slots >> s & 1)
            status = widen(join, s, part);
    return status;
}
