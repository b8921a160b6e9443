/* Can N equal panels be laid on this roof, each turned by 0 or 90 degrees? Exact: a layout, or a
 * proof that one more is impossible, or an honest "not decided" within a budget of nodes.
 * Margins, gaps and clearances are axis-wise. */
#ifndef WB_ROOF_H
#define WB_ROOF_H

#include "brief.h"
#include "control.h"
#include "status.h"

typedef struct {
    int64_t x_mm, y_mm, length_mm, width_mm; /* x along the roof's length; from its left front */
} WbRect;

#define WB_ROOF_NODES 200000 /* the budget a ranking uses */

typedef struct {
    int most;       /* panels in the best layout found */
    int bound;      /* no layout has more than this; most == bound: proved */
    WbRect *layout; /* most rectangles, panels' true outlines */
    uint64_t nodes; /* spent */
} WbRoofFit;

/* The most panels of one size, searched up to at_most (answers most <= at_most; if at_most fit, the
 * bound is at_most). Lengths 1..100000 mm, else WB_BAD_INPUT. WB_STOPPED: fit is untouched. */
WbStatus wb_roof_most(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                      int at_most, uint64_t node_budget, WbControl *control, WbRoofFit *fit);
void wb_roof_fit_free(WbRoofFit *fit);

typedef enum { WB_FITS, WB_FITS_NOT, WB_FIT_UNDECIDED } WbFitAnswer;
WbFitAnswer wb_roof_answer(const WbRoofFit *fit, int n_panels);

/* Independent checker: inside the margins, clear of obstacles, gaps kept, right sizes. On failure
 * *first_bad is the index of the first offending rectangle (may be NULL). */
bool wb_roof_layout_ok(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                       const WbRect *layout, int n, int *first_bad);

/* Outline less margin and obstacles with their clearance, exact, mm2. */
int64_t wb_roof_clear_mm2(const WbRoof *roof);

/* Storage bay: N equal boxes side by side, upright, turned by 0 or 90 degrees about the vertical.
 * The same three answers; a bay of zero size is not checked (WB_FITS). */
WbFitAnswer wb_bay_answer(const WbBay *bay, int64_t length_mm, int64_t width_mm, int64_t height_mm,
                          int n, uint64_t node_budget, WbControl *control);

#endif
