/* Depth first through the choices of one group whose score is within a limit. */
#ifndef WB_CHOICE_WALK_H
#define WB_CHOICE_WALK_H

#include "choice_group.h"
#include "choice_list.h"

typedef struct {
    const WbChoiceTable *table;
    const WbChoiceAim *aim;
    const int64_t *score[WB_CHOICE_SLOTS]; /* of every row of the table */
    WbChoiceHeap heap;
    uint64_t nodes, most_nodes; /* most_nodes 0: no limit */
    WbControl *control;
} WbChoiceSearch;

/* Of one group: least score in each slot, and their sum. */
typedef struct {
    int64_t least[WB_CHOICE_SLOTS], sum;
} WbChoiceFloor;

/* What a row can be part of scores at least this. */
static inline int64_t wb_choice_bound(const WbChoiceSearch *search, const WbChoiceFloor *floor,
                                      int slot, uint32_t row)
{
    return search->score[slot][row] + floor->sum - floor->least[slot];
}

/* Offers the heap every choice of the group that scores at most so much and could still enter. */
WbStatus wb_choice_walk(WbChoiceSearch *search, const WbChoiceGroup *group,
                        const WbChoiceFloor *floor, int64_t most_score);

#endif
