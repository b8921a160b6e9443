/* Choices out of some of the slots of a group, with what they add up to so far; and how those are
 * left out that others replace. */
#ifndef WB_CHOICE_PART_H
#define WB_CHOICE_PART_H

#include "choice_group.h"
#include "sieve.h"

typedef struct {
    uint32_t slots; /* bit s: slot s is in */
    /* A member's numbers: the sums of the chosen criteria, then those of the rules that slots not
     * in it add to as well. Whole numbers. */
    int n_criteria, n_rules, n_numbers;
    int rule[WB_CHOICE_RULES]; /* of the table, ascending */
    size_t n, room;
    double *number;   /* [member][number] */
    uint32_t *below;  /* buses below the group's that all rows of the member share */
    WbChoice *choice; /* 0 in the slots that are not in; NULL where `thin` is false */
    /* Thin: without members another replaces to advantage in every choice, that is with nothing
     * more in any number and less in a criterion. Equal ones stay. Members come in a buffer that is
     * sieved when it is full; those up to n_thin have been. */
    bool thin;
    size_t n_thin;
    WbSieve sieve;
    WbChoiceEffort effort;
} WbChoicePart;

void wb_choice_part_init(WbChoicePart *part, uint32_t slots, int n_criteria, bool thin,
                         const WbChoiceEffort *effort);
void wb_choice_part_add_rule(WbChoicePart *part, int rule);
/* WB_STOPPED, WB_BUDGET, WB_NO_MEMORY */
WbStatus wb_choice_part_put(WbChoicePart *part, const double *number, uint32_t below,
                            const WbChoice *choice);
/* After the last. */
WbStatus wb_choice_part_finish(WbChoicePart *part);
void wb_choice_part_free(WbChoicePart *part);

#endif
