/* Inside of a result: made in result_make.c, read through result.c. */
#ifndef WB_RESULT_PRIVATE_H
#define WB_RESULT_PRIVATE_H

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
    WbRule clash_rule;
};

#endif
