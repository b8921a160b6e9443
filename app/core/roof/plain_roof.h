/* Any roof as a plain one: a rectangle with a margin, and rectangles with clearances that block.
 *
 * Walkways and fixed panels become such rectangles; shade areas and what a raised panel passes over
 * go. Axis-aligned edges become rectangles exactly. A slanted edge or a circle is cut into strips
 * of whole millimetres. On the inner roof the strips cover all that is forbidden: its layouts lie
 * on the true roof. On the outer roof each strip lies wholly in what is forbidden: what is proved
 * there holds for the true roof, for positions between whole millimetres too (floor every position:
 * the panels' and the rectangles' sizes are whole, so what was apart stays apart). */
#ifndef WB_PLAIN_ROOF_H
#define WB_PLAIN_ROOF_H

#include "roof_outline.h"

typedef enum { WB_PLAIN_INNER, WB_PLAIN_OUTER } WbPlainSide;

/* roof has no corners, no round obstacles, no pins; every one of its obstacles blocks. Its strings
 * are the true roof's. */
typedef struct {
    WbRoof roof;
    WbObstacle *obstacles; /* roof.obstacles, owned */
    bool exact;            /* whole-mm layouts on it and on the true roof are the same */
} WbPlainRoof;

/* Whether a slanted edge or a circle blocks: else inner and outer are the same and exact. */
bool wb_roof_needs_steps(const WbRoof *roof);

/* step_mm >= 1: a panel beside a strip stands at most about so much further off than it must. At 1
 * mm the inner roof is exact, unless the shape needs too many strips. The roof is valid; `fixed`
 * panels (true outlines, may be NULL) block with the gap as clearance. WB_NO_MEMORY; free it after
 * WB_OK. */
WbStatus wb_plain_roof(const WbRoof *roof, const WbRect *fixed, int n_fixed, WbPlainSide side,
                       int64_t step_mm, WbPlainRoof *plain);
void wb_plain_roof_free(WbPlainRoof *plain);

/* Exact, in whole numbers, written without the strips; for checkers. A panel's true outline keeps
 * the margin and every obstacle's clearance. Panels are not looked at. The roof is valid. */
bool wb_roof_place_ok(const WbRoof *roof, const WbRect *rect);
/* This plain obstacle with its clearance lies wholly in what the roof forbids, and one edge, one
 * obstacle or the outside of the outline alone is the cause. True of every obstacle of an outer
 * roof made without fixed panels. */
bool wb_roof_forbids(const WbRoof *roof, const WbObstacle *obstacle);

/* As wb_roof_most on a plain roof; bound and mm_bound are the same. The search goes on from a
 * known layout (n_known may be 0, at most at_most) and answers no fewer. Where that one does not
 * lie on the plain roof, `bound` may be below n_known and says nothing. */
WbStatus wb_plain_most(const WbRoof *plain, int64_t panel_length_mm, int64_t panel_width_mm,
                       const WbRect *known, int n_known, int at_most, uint64_t node_budget,
                       WbControl *control, WbRoofFit *fit);

#endif
