/* Is there an assignment of true and false that satisfies every clause?
 *
 * Conflict-driven clause learning: two watched literals (Moskewicz et al. 2001), the first unique
 * implication point (Marques-Silva & Sakallah 1999), an order by decaying activity with ties by
 * number, phases kept, restarts and forgetting by how many decisions a learnt clause spans
 * (Audemard & Simon 2009); papers from memory. Deterministic: the same clauses in the same order
 * give the same answer, assignment and log.
 *
 * Literals outside: v or -v for variable v = 1, 2, ... */
#ifndef WB_SAT_H
#define WB_SAT_H

#include "control.h"
#include "ints.h"
#include "status.h"

typedef struct WbSat WbSat;

typedef enum { WB_SAT_OPEN, WB_SAT_YES, WB_SAT_NO } WbSatAnswer;

/* NULL: out of memory. */
WbSat *wb_sat_new(int n_variables);
void wb_sat_free(WbSat *sat);

/* Adds a clause; before the first solving. Want of memory is told by wb_sat_solve. */
void wb_sat_add(WbSat *sat, const int32_t *literals, int n);

/* WB_OK with *answer; WB_SAT_OPEN where `propagations` ran out. WB_STOPPED, WB_NO_MEMORY. `learnt`
 * takes the learnt clauses in order, each closed by 0; the last is empty after WB_SAT_NO. */
WbStatus wb_sat_solve(WbSat *sat, uint64_t propagations, const WbControl *control, WbInts *learnt,
                      WbSatAnswer *answer);

uint64_t wb_sat_propagations(const WbSat *sat);
/* After WB_SAT_YES. */
bool wb_sat_true(const WbSat *sat, int variable);

#endif
