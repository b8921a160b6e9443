/* One part of the candidates: what became of the kits that hold it. */
#ifndef WB_PART_WHY_H
#define WB_PART_WHY_H

#include "rank.h"

typedef struct {
    WbPartChoice choice;
    /* Of the kits that hold it alone: counts, the nearest of each rule, the dark hours' too, and as
     * its one row the best of them. */
    WbRanking with;
    uint64_t rank; /* of that row among all kits, 1 the first; 0: none works, or not known */
    int on_front;  /* does any kit of the whole front hold it? 1, 0, -1: the front was cut short */
} WbPartWhy;

/* The choice whose part has this id. False: no candidate has. */
bool wb_part_choice(const WbProblem *problem, const char *id, WbPartChoice *choice);
/* NULL: the choice "none". */
const WbPart *wb_choice_part(const WbProblem *problem, const WbPartChoice *choice);
const WbSourced *wb_choice_sourced(const WbProblem *problem, const WbPartChoice *choice);
bool wb_kit_holds(const WbKit *kit, const WbPartChoice *choice);

/* `all` is the ranking of the same problem. The rank is known where the kit is among its first rows
 * or it kept its pool. Cost: a ranking of the kits that hold the part. WB_STOPPED, WB_NO_MEMORY:
 * nothing is written. */
WbStatus wb_part_why(const WbProblem *problem, const WbPartChoice *choice, const WbRanking *all,
                     int workers, WbControl *control, WbPartWhy *why);
void wb_part_why_free(WbPartWhy *why);

#endif
