/* Parts of a group put together: every member of one with every member of the other. */
#ifndef WB_CHOICE_JOIN_H
#define WB_CHOICE_JOIN_H

#include "choice_part.h"

typedef struct {
    const WbChoiceGroup *group;
    int n_criteria;
    int criterion[WB_CHOICE_CRITERIA]; /* of the table */
    bool thin;
    uint64_t nodes; /* pairs looked at */
    WbChoiceEffort effort;
} WbChoiceJoin;

static inline uint32_t wb_choice_all_slots(const WbChoiceTable *table)
{
    return (UINT32_C(1) << table->n_slots) - 1;
}

/* One half of these slots, so that as few rules as may be look at both; between equal ways the one
 * whose larger half has fewer choices. The first slot is in it; a lone slot has an empty other
 * half.
 */
uint32_t wb_choice_half(const WbChoiceGroup *group, uint32_t slots);
/* These slots and all that rules couple with them, directly or by others; all slots where choices
 * may share lower buses. */
uint32_t wb_choice_coupled(const WbChoiceGroup *group, uint32_t slots);

/* All choices of these slots that keep the rules with the least terms of the others; the empty
 * choice where there are none. WB_STOPPED, WB_BUDGET, WB_NO_MEMORY. */
WbStatus wb_choice_part_of(WbChoiceJoin *join, uint32_t slots, WbChoicePart *part);

/* Puts every pair that goes together into `both`, which is begun (its slots at least those of a and
 * b). A pair that shares lower buses is left out where all slots are in. */
WbStatus wb_choice_pairs(WbChoiceJoin *join, const WbChoicePart *a, const WbChoicePart *b,
                         WbChoicePart *both);

/* The rules that a pair of members has to keep: numbers of a and of b add up to `most` at most. */
typedef struct {
    int n;
    int of_a[WB_CHOICE_RULES], of_b[WB_CHOICE_RULES];
    double most[WB_CHOICE_RULES];
} WbChoiceShared;

WbChoiceShared wb_choice_shared(const WbChoiceGroup *group, const WbChoicePart *a,
                                const WbChoicePart *b);

#endif
