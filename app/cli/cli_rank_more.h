/* What more money, weight or roof would buy, for the terminal. */
#ifndef WB_CLI_RANK_MORE_H
#define WB_CLI_RANK_MORE_H

#include "cli_json.h"
#include "curve.h"
#include "rank.h"

/* The curves of every resource with every gain. */
typedef struct {
    WbMoreCurve curve[WB_CURVE_RESOURCES][WB_CURVE_GAINS];
    bool whole; /* false: too many kits work to be looked at; the curves are empty */
} WbMore;

/* Returns a WbExit; a failure has been told. */
int wb_cli_more(const WbProblem *problem, const WbRanking *ranking, WbMore *more);
void wb_cli_more_free(WbMore *more);
void wb_cli_more_append(GString *out, const WbProblem *problem, const WbRanking *ranking,
                        const WbMore *more);
/* As the member "more". */
void wb_cli_more_json(WbJsonOut *json, const WbProblem *problem, const WbRanking *ranking,
                      const WbMore *more);

#endif
