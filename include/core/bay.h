/* Storage bay: equal boxes side by side on its floor, upright, the bay's gap apart. */
#ifndef WB_BAY_H
#define WB_BAY_H

#include "fit_cache.h"

typedef struct {
    int64_t length_mm, width_mm, height_mm;
    /* Its length lies along the bay's length; else it may also be turned by 90 degrees. */
    bool must_not_turn;
} WbBox;

/* So many of at_most >= 0 boxes are proved to stand (*stand), more than *bound are proved not to;
 * where *bound == at_most, nothing is said of more boxes. A bay of zero size is not checked: both
 * are at_most. cache may be NULL. WB_BAD_INPUT: a length of bay or box that is not positive or is
 * beyond 100000 mm, a gap outside 0..100000 mm, at_most < 0. WB_STOPPED, WB_NO_MEMORY. On failure
 * the outputs are untouched. */
WbStatus wb_bay_most(const WbBay *bay, const WbBox *box, int at_most, uint64_t node_budget,
                     WbFitCache *cache, WbControl *control, int *stand, int *bound);

/* Do n stand? What wb_bay_most refuses, and a stop: WB_FIT_UNDECIDED; n <= 0: WB_FITS. */
WbFitAnswer wb_bay_answer(const WbBay *bay, const WbBox *box, int n, uint64_t node_budget,
                          WbControl *control);

#endif
