/* Can N equal panels be laid on this roof, each turned by 0 or 90 degrees? Exact: a layout, or a
 * proof that one more is impossible, or an honest "not decided" within a budget of nodes.
 * Margins, gaps and clearances are axis-wise: a panel grown by the margin on all sides lies inside
 * the outline, grown by an obstacle's clearance it does not meet the obstacle, and two panels are a
 * gap apart along the roof or across it. A circle is a circle.
 * Layouts stand on whole millimetres. Beside slanted edges and circles positions between them are
 * possible too; a proof there holds for a roof up to 1 mm larger, and where the two answers differ
 * the third is told: within 1 mm. */
#ifndef WB_ROOF_H
#define WB_ROOF_H

#include "brief.h"
#include "control.h"
#include "status.h"

typedef struct {
    int64_t x_mm, y_mm, length_mm, width_mm; /* x along the roof's length; from its left front */
} WbRect;

/* A node is about a thousand visits of a grid point, some microseconds: one look at a small roof's
 * bound, a part of one on a large roof. */
#define WB_ROOF_NODES 200000 /* the budget a ranking uses */

typedef struct {
    int most;       /* panels in the best layout found, pinned ones among them */
    int bound;      /* no layout has more than this; most == bound: proved */
    int mm_bound;   /* no layout on whole mm has more; below `bound` only by slants and circles */
    WbRect *layout; /* most rectangles, panels' true outlines; the pinned ones first */
    int at_most;    /* as asked: where bound == at_most, nothing is said of more panels */
    uint64_t nodes; /* spent */
} WbRoofFit;

/* What is wrong with the roof's corners. Edge i goes from corner i to the next, the last one to
 * corner 0. */
typedef enum {
    WB_OUTLINE_GOOD,
    WB_OUTLINE_TOO_FEW,   /* one or two corners */
    WB_OUTLINE_TOO_MANY,  /* more than WB_ROOF_CORNERS */
    WB_OUTLINE_OFF_FRAME, /* corner *first lies outside 0..length_mm, 0..width_mm */
    WB_OUTLINE_NO_LENGTH, /* edge *first begins and ends at the same place */
    WB_OUTLINE_CROSSES,   /* edges *first and *second cross, touch or lie on each other */
} WbOutlineProblem;

enum { WB_ROOF_CORNERS = 1000 };

/* The first problem; first and second may be NULL. */
WbOutlineProblem wb_roof_outline_problem(const WbRoof *roof, size_t *first, size_t *second);

/* The most panels of one size, searched up to at_most >= 0 (answers most <= at_most; if at_most
 * fit, the bound is at_most). WB_OK also where the budget ran out: then most < bound. The roof's
 * own pins are not looked at (see wb_roof_most_around).
 * WB_BAD_INPUT: a length outside 1..100000 mm, a margin, gap or standoff outside 0..100000 mm,
 * corners with a problem, an obstacle's length or width outside 1..1000000 mm, its clearance or
 * height outside 0..1000000 mm, its x or y beyond +-1000000 mm, a round one whose length is not its
 * width. An obstacle may stand partly or wholly outside the outline.
 * WB_STOPPED, WB_NO_MEMORY: fit is untouched. Free the fit after WB_OK. */
WbStatus wb_roof_most(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                      int at_most, uint64_t node_budget, WbControl *control, WbRoofFit *fit);
void wb_roof_fit_free(WbRoofFit *fit);

/* As wb_roof_most, around panels that stand where they were pinned (true outlines, of this panel's
 * size); at most at_most panels in all. WB_BAD_INPUT also where a pinned one is of another size,
 * off the usable roof or too near to another (wb_roof_layout_ok tells which), or where more than
 * at_most are pinned. */
WbStatus wb_roof_most_around(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                             const WbRect *pinned, int n_pinned, int at_most, uint64_t node_budget,
                             WbControl *control, WbRoofFit *fit);

typedef enum {
    WB_FITS,
    WB_FITS_NOT,
    WB_FIT_UNDECIDED,
    WB_FIT_WITHIN_1_MM, /* not on whole mm; not excluded on a roof up to 1 mm larger */
} WbFitAnswer;
/* Of n_panels beyond at_most nothing is claimed unless fewer were proved not to fit. */
WbFitAnswer wb_roof_answer(const WbRoofFit *fit, int n_panels);

/* Independent checker: inside the margins, clear of obstacles, gaps kept, right sizes. On failure
 * *first_bad is the index of the first offending rectangle (may be NULL). */
bool wb_roof_layout_ok(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                       const WbRect *layout, int n, int *first_bad);

/* Area on which a point of a panel may lie: the outline less what is within the margin of its
 * outside, less obstacles with their clearance (both axis-wise), mm2. Obstacles a panel passes over
 * and shade areas are not taken off. Exact where every edge is axis-aligned and no obstacle is
 * round; else a square millimetre that a slant or a circle cuts counts as taken (shapes that need
 * too many strips are cut more coarsely): never too large. 0 where the roof is not valid (see
 * wb_roof_most). */
int64_t wb_roof_clear_mm2(const WbRoof *roof);

#endif
