/* Inside of a result: made in result_make.c, read through result.c. */
#ifndef WB_RESULT_PRIVATE_H
#define WB_RESULT_PRIVATE_H

#include "rank_firm.h"
#include "result.h"

struct WbResult {
    gatomicrefcount references;
    WbBriefFile *file;
    WbCatalogueView *view;
    WbResult *lender; /* whose problem this one's borrows from; NULL: its own */
    WbProblem *problem;
    WbRanking ranking;
    gboolean whole;
    double seconds;
    char *nearest[WB_N_RULES];
    char *firm;
    char *clash, *clash_head;
    char *firm_share[WB_FIRM_SHARES]; /* of kits that are first at other weights only */
    WbKit firm_kit[WB_FIRM_SHARES];
    WbRule clash_rule;
};

#endif
