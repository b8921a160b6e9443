/* The Pareto front of kits as they come: those no other kit is at least as good as in every
 * criterion and better in one. Kits with equal vectors all stay. Offers are kept in a buffer and
 * filtered when it is full: sort by the first criterion, then a later kit never beats an earlier
 * one (sort-filter skyline, Chomicki, Godfrey, Gryz & Liang 2003). Where more than
 * WB_RANK_FRONT_MOST beat each other nowhere the front is given up: so many say nothing to a
 * person, and both time and memory stay bounded. */
#ifndef WB_FRONT_H
#define WB_FRONT_H

#include "control.h"
#include "rank.h"
#include "sieve.h"

typedef struct {
    double worse[WB_N_CRITERIA]; /* less is better in all, only the chosen criteria, packed */
    WbKit kit;
} WbFrontKit;

typedef struct {
    uint32_t criteria; /* bit c: criterion c counts */
    int n_criteria;
    WbFrontKit *kits;
    size_t n_front; /* kits[0 .. n_front) beat each other nowhere, sorted */
    size_t n, room;
    bool too_many; /* given up, now empty; what is offered is not looked at */
    WbSieve sieve; /* of kits[0 .. n_front) */
    WbControl *control;
} WbFront;

void wb_front_init(WbFront *front, uint32_t criteria, WbControl *control);
/* WB_STOPPED, WB_NO_MEMORY */
WbStatus wb_front_offer(WbFront *front, const WbKit *kit, const WbFigures *figures);
/* The same of figures as wb_figure tells them. */
WbStatus wb_front_offer_of(WbFront *front, const WbKit *kit, const double figure[WB_N_CRITERIA]);
/* The same for a kit that another front kept. */
WbStatus wb_front_put(WbFront *front, const WbFrontKit *kit);
/* After the last offer: kits[0 .. n_front) is the front. */
WbStatus wb_front_finish(WbFront *front);
/* As where too many beat each other nowhere. */
void wb_front_give_up(WbFront *front);
void wb_front_free(WbFront *front);

#endif
