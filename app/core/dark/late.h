/* Kits whose place hangs on their dark hours, by a weight or by the front. An hourly balance is
 * dear, so they wait, each with the fewest and the most dark hours it can have, and only those are
 * balanced whose place is still open:
 *   - fewest dark hours give the highest place; kits are taken in the order of it, until none can
 *     come among the best any more;
 *   - a kit that another, known one beats even with its fewest dark hours is not on the front;
 *   - on one bank a kit with at least as much energy in every hour and no more need never has more
 *     dark hours (wb_year_is_monotone), so what is known of one kit bounds others; where fewest and
 *     most meet, it is known.
 * What is left out is proved to be worse, equal scores and figures included. */
#ifndef WB_LATE_H
#define WB_LATE_H

#include "best.h"
#include "carry.h"
#include "dark_memo.h"
#include "front.h"

typedef struct {
    WbKit kit;
    WbDarkKey key;
    double figure[WB_N_CRITERIA]; /* as wb_figure; dark hours once known */
    double fewest_h, most_h;      /* dark hours; equal: known */
    double order[WB_RANK_KEYS];   /* of rank_by.h at the fewest; 0 beyond its keys */
    double worse[WB_N_CRITERIA];  /* as the front's, dark hours last */
    uint32_t bank;
    uint32_t next, seen; /* in the chain of the known of its bank */
} WbLateKit;

typedef struct {
    const WbProblem *problem;
    WbControl *control;
    bool orders, in_front; /* dark hours, in this problem */
    WbCarry *carry;        /* its comparisons of needs */
    WbDarkMemo *memo;
    WbBest *best;
    WbTally *tally; /* by chemistry of the catalogue */
    WbFront *front; /* NULL: there is none to find */
    WbLateKit *kit; /* that wait */
    size_t n, room;
    size_t most_waiting;              /* then their places are settled */
    double (*beaters)[WB_N_CRITERIA]; /* vectors of known kits that others are held against */
    size_t n_beaters;
} WbLate;

/* best, tally and front are the caller's to set. */
void wb_late_init(WbLate *late, WbCarry *carry, WbDarkMemo *memo);
bool wb_late_asked(const WbLate *late);
/* Takes a kit that works. Where dark hours order nothing it is put in its place at once.
 * figure: as wb_figure tells them; dark hours NaN where they are not known. WB_STOPPED,
 * WB_NO_MEMORY. */
WbStatus wb_late_take(WbLate *late, const WbKit *kit, const double figure[WB_N_CRITERIA]);
/* After the last. */
WbStatus wb_late_finish(WbLate *late);
void wb_late_free(WbLate *late);

#endif
