/* Of one panel model on the roof what takes longer than the count itself. */
#ifndef WB_CLI_ROOF_MORE_H
#define WB_CLI_ROOF_MORE_H

#include "roof_arrange.h"
#include "roof_change.h"
#include "roof_proof.h"
#include <glib.h>

typedef struct {
    bool arranged; /* the layout was put in order; `order` is of it */
    WbArrangement order;
    bool has_proof; /* that bound + 1 do not fit; pinned panels are obstacles in it */
    WbRoofProof proof;
    bool proof_ok;         /* by the independent checker */
    const char *proof_why; /* it refuses it: a sentence, a constant; else NULL */
    bool has_changes;      /* they were asked for */
    WbRoofChange change[WB_ROOF_CHANGES];
    int n_changes;
    bool has_shade; /* something on the roof stands higher than the panels */
    double shade[12];
    double *shade_by_panel; /* one for each of the layout */
} WbRoofMore;

void wb_cli_roof_more_free(WbRoofMore *more);

#endif
