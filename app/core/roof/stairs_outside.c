#include "stairs.h"
#include <stdlib.h>

/* A shape that needs more is cut more coarsely. */
enum { CUTS_MAX = 4096, SPANS_MAX = 1 << 16, RECTS_MAX = 2048 };

static int64_t least(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

static int64_t largest(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

/* For divisors over 0. */
static int64_t floor_of(int64_t dividend, int64_t divisor)
{
    int64_t whole = dividend / divisor;
    return whole * divisor > dividend ? whole - 1 : whole;
}

static int64_t ceil_of(int64_t dividend, int64_t divisor)
{
    return -floor_of(-dividend, divisor);
}

/* From its lower corner up. */
typedef struct {
    WbCorner low, high;
} Edge;

static Edge edge_of(const WbRoof *roof, size_t i)
{
    WbCorner a = roof->corners[i], b = roof->corners[i + 1 == roof->n_corners ? 0 : i + 1];
    return a.y_mm <= b.y_mm ? (Edge){a, b} : (Edge){b, a};
}

/* Steps in which the edge is cut: along the shorter of its two directions. */
static int64_t steps_of(Edge edge, int64_t step_mm)
{
    int64_t along_mm = llabs(edge.high.x_mm - edge.low.x_mm);
    return ceil_of(least(along_mm, edge.high.y_mm - edge.low.y_mm), step_mm);
}

/* A cut between whole millimetres is made on both sides: so the rows without it are exact. */
static bool cut_edge(WbStairRows *rows, Edge edge, int64_t step_mm)
{
    int64_t n = steps_of(edge, step_mm), rise_mm = edge.high.y_mm - edge.low.y_mm;
    for (int64_t k = 1; k < n; k++) {
        int64_t below_mm = edge.low.y_mm + floor_of(k * rise_mm, n);
        int64_t above_mm = edge.low.y_mm + ceil_of(k * rise_mm, n);
        if (!wb_stairs_cut(rows, below_mm))
            return false;
        if (step_mm == 1 && above_mm != below_mm && !wb_stairs_cut(rows, above_mm))
            return false;
    }
    return true;
}

static bool cut_outline(WbStairRows *rows, const WbRoof *roof, int64_t step_mm, bool *exact)
{
    for (int64_t n = CUTS_MAX + 1; n > CUTS_MAX; step_mm *= n > CUTS_MAX ? 2 : 1) {
        n = 0;
        for (size_t i = 0; i < roof->n_corners; i++)
            n += steps_of(edge_of(roof, i), step_mm);
        if (n <= CUTS_MAX || step_mm > roof->length_mm + roof->width_mm)
            break;
    }
    *exact = step_mm == 1 || !wb_roof_needs_steps(roof);
    for (size_t i = 0; i < roof->n_corners; i++)
        if (!wb_stairs_cut(rows, roof->corners[i].y_mm) ||
            !cut_edge(rows, edge_of(roof, i), step_mm))
            return false;
    return wb_stairs_sort_cuts(rows, 0, roof->width_mm);
}

/* What an edge takes of a row, from side to side, rounded outward. */
typedef struct {
    WbSpan span;
    bool crosses; /* the row's middle */
} Reach;

/* x of the edge at a height, times its rise, from its lower corner. */
static int64_t run_at(Edge edge, int64_t y_mm)
{
    return (y_mm - edge.low.y_mm) * (edge.high.x_mm - edge.low.x_mm);
}

/* False: the edge is not in the open row. */
static bool reach_of(Edge edge, int64_t front_mm, int64_t back_mm, Reach *reach)
{
    if (edge.high.y_mm <= front_mm || edge.low.y_mm >= back_mm)
        return false;
    int64_t rise_mm = edge.high.y_mm - edge.low.y_mm;
    if (rise_mm == 0) {
        *reach = (Reach){
            {least(edge.low.x_mm, edge.high.x_mm), largest(edge.low.x_mm, edge.high.x_mm)}, false};
        return true;
    }
    int64_t enters = run_at(edge, largest(front_mm, edge.low.y_mm));
    int64_t leaves = run_at(edge, least(back_mm, edge.high.y_mm));
    *reach =
        (Reach){{edge.low.x_mm + floor_of(least(enters, leaves), rise_mm),
                 edge.low.x_mm + ceil_of(largest(enters, leaves), rise_mm)},
                2 * edge.low.y_mm <= front_mm + back_mm && front_mm + back_mm < 2 * edge.high.y_mm};
    return true;
}

static int by_from(const void *a, const void *b)
{
    int64_t from_a = ((const Reach *)a)->span.from_mm, from_b = ((const Reach *)b)->span.from_mm;
    return (from_a > from_b) - (from_a < from_b);
}

/* Between the edges' reaches a row is wholly outside or wholly inside, by the number of edges to
 * the left that cross its middle. */
static bool add_row(WbStairRows *rows, const Reach *reach, size_t n, int64_t length_mm,
                    WbPlainSide side)
{
    int64_t reached_mm = 0, blocked_from_mm = 0;
    bool inside = false, done = true;
    for (size_t i = 0; i <= n && done; i++) {
        int64_t from_mm = i < n ? reach[i].span.from_mm : length_mm;
        bool open = from_mm > reached_mm;
        if (open && inside) {
            if (side == WB_PLAIN_INNER && reached_mm > blocked_from_mm)
                done = wb_stairs_span(rows, blocked_from_mm, reached_mm);
            blocked_from_mm = from_mm;
        } else if (open && side == WB_PLAIN_OUTER) {
            done = wb_stairs_span(rows, reached_mm, from_mm);
        }
        if (i < n) {
            inside = inside != reach[i].crosses;
            reached_mm = largest(reached_mm, reach[i].span.to_mm);
        }
    }
    if (done && side == WB_PLAIN_INNER && length_mm > blocked_from_mm)
        done = wb_stairs_span(rows, blocked_from_mm, length_mm);
    return done;
}

/* WB_BUDGET: too many spans. */
static WbStatus fill_rows(WbStairRows *rows, const WbRoof *roof, WbPlainSide side, Reach *reach)
{
    for (size_t row = 0; row + 1 < rows->n_cuts; row++) {
        size_t n = 0;
        for (size_t i = 0; i < roof->n_corners; i++)
            n += reach_of(edge_of(roof, i), rows->cut_mm[row], rows->cut_mm[row + 1], &reach[n]);
        qsort(reach, n, sizeof *reach, by_from);
        rows->first[row] = rows->n_spans;
        if (!add_row(rows, reach, n, roof->length_mm, side))
            return WB_NO_MEMORY;
        rows->first[row + 1] = rows->n_spans;
        if (rows->n_spans > SPANS_MAX)
            return WB_BUDGET;
    }
    return WB_OK;
}

static WbStatus few_enough(const WbStairRows *rows)
{
    WbRect *rect = malloc((rows->n_spans + 1) * sizeof *rect);
    if (!rect)
        return WB_NO_MEMORY;
    size_t n = wb_stairs_rects(rows, rect);
    free(rect);
    return n <= RECTS_MAX ? WB_OK : WB_BUDGET;
}

WbStatus wb_stairs_outside(WbStairRows *rows, const WbRoof *roof, WbPlainSide side, int64_t step_mm,
                           bool *exact)
{
    Reach *reach = malloc(roof->n_corners * sizeof *reach);
    WbStatus status = reach && cut_outline(rows, roof, step_mm, exact) ? WB_BUDGET : WB_NO_MEMORY;
    while (status == WB_BUDGET) {
        status = fill_rows(rows, roof, side, reach);
        if (status == WB_OK)
            status = few_enough(rows);
        if (status == WB_BUDGET) {
            *exact = false;
            wb_stairs_thin(rows);
        }
    }
    free(reach);
    return status;
}
