/* The rows of a choice table that may stand in a choice on one bus. */
#ifndef WB_CHOICE_GROUP_H
#define WB_CHOICE_GROUP_H

#include "choice.h"

typedef struct {
    const WbChoiceTable *table;
    int bus;
    /* A choice that goes with several buses belongs to the lowest. Bits of the buses below this one
     * which choices may share; 0 where none can. */
    uint32_t below;
    size_t n[WB_CHOICE_SLOTS];
    uint32_t *row[WB_CHOICE_SLOTS]; /* ascending */
    int n_rules;
    int rule[WB_CHOICE_RULES]; /* of the table: those that rows kept here can still break */
    int64_t least[WB_CHOICE_RULES][WB_CHOICE_SLOTS]; /* by the table's rules, of the rows kept */
} WbChoiceGroup;

typedef struct {
    WbChoiceGroup *group; /* only those with rows in every slot */
    int n;
} WbChoiceGroups;

/* Rows that break a rule with the best of all others are left out. WB_BAD_INPUT as in choice.h. */
WbStatus wb_choice_groups(const WbChoiceTable *table, WbChoiceGroups *groups);
void wb_choice_groups_free(WbChoiceGroups *groups);

static inline int64_t wb_choice_term(const WbChoiceTable *table, int slot, int rule, uint32_t row)
{
    const int64_t *term = table->slot[slot].term[rule];
    return term ? term[row] : 0;
}

static inline int64_t wb_choice_criterion(const WbChoiceTable *table, int slot, int c, uint32_t row)
{
    const int64_t *criterion = table->slot[slot].criterion[c];
    return criterion ? criterion[row] : 0;
}

/* Buses below the group's that the row goes with. */
static inline uint32_t wb_choice_below(const WbChoiceGroup *group, int slot, uint32_t row)
{
    const uint32_t *bus = group->table->slot[slot].bus;
    return (bus ? bus[row] : UINT32_MAX) & group->below;
}

#endif
