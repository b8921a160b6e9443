/* Joining the sides of all kits on one kind of bank, and what is counted and kept on the way. Two
 * joins over different kinds are merged into one; the order of merging changes nothing. */
#ifndef WB_JOIN_H
#define WB_JOIN_H

#include "best.h"
#include "carry.h"
#include "front.h"
#include "halves.h"
#include "late.h"
#include "pieces.h"
#include "rank.h"
#include "runs.h"

typedef struct {
    const WbProblem *problem;
    const WbArrays *listed;
    const WbPartChoice *holding; /* as WbRankOptions */
    bool least_dark;             /* as WbRankOptions */
    WbControl *control;
    WbBest best;
    WbFront front;
    bool beyond;  /* whether kits just beyond money or weight are kept too */
    WbPool *pool; /* of the kind at work, the caller's; NULL: none is kept */
    uint64_t raw, feasible;
    WbTally *tally; /* one for each chemistry of the catalogue */
    WbTally *at_work;
    WbRuledOut ruled_out[WB_N_RULES];
    WbCarry carry;
    WbDarkMemo memo; /* dark hours that were worked out */
    WbLate late;
    WbHalves arrays, banks, dcdc; /* scratch, of the kind at work */
    const WbBankKind *kind;       /* the same from here on */
    WbRuns runs;
    WbWires wires;
    int probed; /* the month in which supply fell short last */
} WbJoin;

/* The listed arrays are shared by all joins and outlive them. False: out of memory;
 * wb_join_free is in order all the same. */
bool wb_join_init(WbJoin *join, const WbProblem *problem, const WbArrays *listed, size_t top,
                  WbControl *control);
/* All kits whose bank is of this kind. WB_STOPPED, WB_NO_MEMORY. */
WbStatus wb_join_kind(WbJoin *join, const WbBankKind *kind);
/* After the last kind: what waits for its dark hours takes its place. */
WbStatus wb_join_finish(WbJoin *join);
WbStatus wb_join_merge(WbJoin *into, const WbJoin *from);
void wb_join_free(WbJoin *join);

bool wb_same_bank_kind(const WbBankKind *a, const WbBankKind *b);

#endif
