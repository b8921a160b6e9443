/* What lies outside an outline, and what lies in a circle, as rectangles of whole millimetres.
 *
 * The shape is cut across into rows at chosen heights. In each row, every x is forbidden all
 * through the row, free all through it, or mixed; mixed is rounded outward to whole millimetres.
 * Inner: forbidden and mixed block. Outer: forbidden alone. Where the cuts are decides how coarse
 * it is, never whether it is right. They follow the edge: across a shallow part every step_mm of
 * its height, across a steep part every step_mm of its length. Each row's span then grows over all
 * neighbour rows that block it too: few, large rectangles. */
#ifndef WB_STAIRS_H
#define WB_STAIRS_H

#include "plain_roof.h"

typedef struct {
    int64_t from_mm, to_mm; /* along the roof */
} WbSpan;

/* Row i reaches from cut_mm[i] to cut_mm[i + 1] across the roof; its blocked spans, apart and
 * ascending, are span[first[i] .. first[i + 1]). */
typedef struct {
    int64_t *cut_mm;
    size_t n_cuts, cut_room;
    WbSpan *span;
    size_t n_spans, span_room;
    size_t *first; /* [n_cuts] */
} WbStairRows;

/* To set first: all zero. Answers false without memory. */
bool wb_stairs_cut(WbStairRows *rows, int64_t at_mm);
/* Sorted, each once; keeps those in low..high and adds the two. */
bool wb_stairs_sort_cuts(WbStairRows *rows, int64_t low_mm, int64_t high_mm);
bool wb_stairs_span(WbStairRows *rows, int64_t from_mm, int64_t to_mm);
/* Every other cut goes, and all spans. */
void wb_stairs_thin(WbStairRows *rows);
void wb_stairs_free(WbStairRows *rows);

/* The rectangles that cover the spans, into rect (room for n_spans). Answers how many. */
size_t wb_stairs_rects(const WbStairRows *rows, WbRect *rect);

/* Fill the rows. *exact: an inner roof of them is what whole-mm layouts see. */
WbStatus wb_stairs_outside(WbStairRows *rows, const WbRoof *roof, WbPlainSide side, int64_t step_mm,
                           bool *exact);
/* At most about rows_max of them. */
WbStatus wb_stairs_circle(WbStairRows *rows, const WbObstacle *round, WbPlainSide side,
                          int64_t step_mm, int64_t rows_max, bool *exact);

#endif
