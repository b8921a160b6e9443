/* Inside of a result: made in result_make.c, read through result.c. */
#ifndef WB_RESULT_PRIVATE_H
#define WB_RESULT_PRIVATE_H

#include "rank_firm.h"
#include "result.h"

/* The kit that was judged last: several parts of the window ask about the one in hand, and its year
 * takes ten times as long as all else. */
typedef struct {
    GMutex lock; /* of what follows */
    gboolean known;
    WbVerdict verdict;
} WbJudged;

struct WbResult {
    gatomicrefcount references;
    WbBriefFile *file;
    WbCatalogueView *view;
    WbResult *lender; /* whose problem this one's borrows from; NULL: its own */
    WbProblem *problem;
    WbRanking ranking;
    gboolean whole;
    WbJudged *judged;
    double seconds;
    char *nearest[WB_N_RULES];
    char *firm;
    char *clash, *clash_head;
    char *firm_share[WB_FIRM_SHARES]; /* of kits that are first at other weights only */
    WbKit firm_kit[WB_FIRM_SHARES];
    WbRule clash_rule;
};

/* What the other judged last, scored by this one's weights: both are of the same kits. */
void wb_result_inherit_judged(WbResult *result, const WbResult *from);

#endif
