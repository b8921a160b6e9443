/* Each rule is held against each row with the least terms of all other slots; rows that break it so
 * can stand in no choice. Fewer rows raise the least terms, so it goes round while rows fall. */
#include "choice_group.h"
#include <stdlib.h>
#include <string.h>

#define BUSES 32
#define ROUNDS 16

/* ---- is the table what choice.h asks for? ---- */

static bool within(const int64_t *x, size_t n)
{
    uint64_t beyond = 0;
    for (size_t i = 0; x && i < n; i++)
        beyond |= (uint64_t)x[i] + (uint64_t)WB_CHOICE_MOST;
    return beyond < 2 * (uint64_t)WB_CHOICE_MOST;
}

static bool slot_ok(const WbChoiceTable *table, const WbChoiceSlot *slot)
{
    bool ok = slot->n < UINT32_MAX;
    for (int r = 0; ok && r < table->n_rules; r++)
        ok = within(slot->term[r], slot->n);
    for (int c = 0; ok && c < table->n_criteria; c++)
        ok = within(slot->criterion[c], slot->n);
    return ok;
}

static bool table_ok(const WbChoiceTable *table)
{
    if (table->n_slots < 1 || table->n_slots > WB_CHOICE_SLOTS || table->n_rules < 0 ||
        table->n_rules > WB_CHOICE_RULES || table->n_criteria < 0 ||
        table->n_criteria > WB_CHOICE_CRITERIA)
        return false;
    bool ok = within(table->limit, (size_t)table->n_rules);
    for (int s = 0; ok && s < table->n_slots; s++)
        ok = slot_ok(table, &table->slot[s]);
    return ok;
}

/* ---- one group ---- */

typedef struct {
    int64_t least, greatest;
} Span;

static Span span_of(const WbChoiceGroup *group, int slot, int rule)
{
    const int64_t *term = group->table->slot[slot].term[rule];
    if (!term)
        return (Span){0, 0};
    const uint32_t *row = group->row[slot];
    Span span = {term[row[0]], term[row[0]]};
    for (size_t i = 1; i < group->n[slot]; i++) {
        int64_t x = term[row[i]];
        span.least = x < span.least ? x : span.least;
        span.greatest = x > span.greatest ? x : span.greatest;
    }
    return span;
}

static void keep_up_to(WbChoiceGroup *group, int slot, int rule, int64_t most)
{
    const int64_t *term = group->table->slot[slot].term[rule];
    uint32_t *row = group->row[slot];
    size_t kept = 0;
    for (size_t i = 0; i < group->n[slot]; i++) {
        uint32_t held = row[i];
        row[kept] = held;
        kept += term[held] <= most;
    }
    group->n[slot] = kept;
}

/* One rule against all slots; false: no row is left in one. `fell`: rows were left out.
 * `idle`: no choice of what is left can break it. */
static bool hold(WbChoiceGroup *group, int rule, bool *fell, bool *idle)
{
    const WbChoiceTable *table = group->table;
    Span span[WB_CHOICE_SLOTS];
    int64_t least = 0, greatest = 0, limit = table->limit[rule];
    for (int s = 0; s < table->n_slots; s++) {
        span[s] = span_of(group, s, rule);
        group->least[rule][s] = span[s].least;
        least += span[s].least;
        greatest += span[s].greatest;
    }
    *idle = greatest <= limit;
    if (least > limit)
        return false;
    for (int s = 0; s < table->n_slots && !*idle; s++) {
        int64_t most = limit - (least - span[s].least);
        if (span[s].greatest <= most)
            continue;
        keep_up_to(group, s, rule, most);
        *fell = true;
        if (group->n[s] == 0)
            return false;
    }
    return true;
}

/* False: no choice is possible. Terms kept from before rows fell are least all the same. */
static bool hold_all(WbChoiceGroup *group)
{
    bool fell = true, idle;
    for (int round = 0; fell && round < ROUNDS; round++) {
        fell = false;
        group->n_rules = 0;
        for (int rule = 0; rule < group->table->n_rules; rule++) {
            if (!hold(group, rule, &fell, &idle))
                return false;
            if (!idle)
                group->rule[group->n_rules++] = rule;
        }
    }
    return true;
}

static bool take_rows(WbChoiceGroup *group, int s)
{
    const WbChoiceSlot *slot = &group->table->slot[s];
    uint32_t *row = malloc((slot->n + 1) * sizeof *row);
    if (!row)
        return false;
    size_t n = 0;
    for (size_t i = 0; i < slot->n; i++) {
        row[n] = (uint32_t)i;
        n += slot->bus ? slot->bus[i] >> group->bus & 1 : 1;
    }
    group->row[s] = row;
    group->n[s] = n;
    return true;
}

static void free_group(WbChoiceGroup *group)
{
    for (int s = 0; s < WB_CHOICE_SLOTS; s++)
        free(group->row[s]);
}

/* The buses that rows kept in every slot share with lower ones. */
static uint32_t shared_below(const WbChoiceGroup *group)
{
    uint32_t shared = (UINT32_C(1) << group->bus) - 1;
    for (int s = 0; s < group->table->n_slots; s++) {
        uint32_t any = 0;
        const uint32_t *bus = group->table->slot[s].bus;
        for (size_t i = 0; bus && i < group->n[s]; i++)
            any |= bus[group->row[s][i]];
        shared &= bus ? any : UINT32_MAX;
    }
    return shared;
}

/* ---- all groups ---- */

/* Buses with rows in every slot; a table that knows none has bus 0. */
static uint32_t buses_of(const WbChoiceTable *table)
{
    uint32_t buses = UINT32_MAX;
    bool known = false;
    for (int s = 0; s < table->n_slots; s++) {
        const WbChoiceSlot *slot = &table->slot[s];
        uint32_t any = slot->bus || slot->n == 0 ? 0 : UINT32_MAX;
        for (size_t i = 0; slot->bus && i < slot->n; i++)
            any |= slot->bus[i];
        buses &= any;
        known |= slot->bus != NULL;
    }
    return known ? buses : buses & 1;
}

WbStatus wb_choice_groups(const WbChoiceTable *table, WbChoiceGroups *groups)
{
    *groups = (WbChoiceGroups){0};
    if (!table_ok(table))
        return WB_BAD_INPUT;
    uint32_t buses = buses_of(table);
    groups->group = calloc((size_t)__builtin_popcount(buses) + 1, sizeof *groups->group);
    bool room = groups->group != NULL;
    for (int bus = 0; room && bus < BUSES; bus++) {
        if (!(buses >> bus & 1))
            continue;
        WbChoiceGroup *group = &groups->group[groups->n];
        *group = (WbChoiceGroup){.table = table, .bus = bus};
        for (int s = 0; room && s < table->n_slots; s++)
            room = take_rows(group, s);
        if (room && hold_all(group)) {
            group->below = shared_below(group);
            groups->n++;
        } else {
            free_group(group);
        }
    }
    if (room)
        return WB_OK;
    wb_choice_groups_free(groups);
    return WB_NO_MEMORY;
}

void wb_choice_groups_free(WbChoiceGroups *groups)
{
    for (int i = 0; i < groups->n; i++)
        free_group(&groups->group[i]);
    free(groups->group);
    *groups = (WbChoiceGroups){0};
}
