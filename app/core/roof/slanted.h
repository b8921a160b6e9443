/* The most panels on a roof with slants or circles. */
#ifndef WB_SLANTED_H
#define WB_SLANTED_H

#include "plain_roof.h"

/* One question to the true roof, on its way to the answer. */
typedef struct {
    const WbRoof *roof;
    int64_t panel_length_mm, panel_width_mm;
    const WbRect *pinned;
    int n_pinned;
    uint64_t node_budget;
    WbControl *control;
    WbRoofFit found; /* pinned panels not among them; to set first: bound and mm_bound */
} WbTrueFit;

/* Raises most and lowers the bounds as far as the budget goes. outer (may be NULL, else free it
 * after WB_OK): the outer roof on which most + 1 was refuted, where most == bound. */
WbStatus wb_slanted_most(WbTrueFit *fit, WbPlainRoof *outer);

#endif
