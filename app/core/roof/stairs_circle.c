#include "stairs.h"
#include <math.h>

/* Depth of a circle's edge under the line that touches it, `aside` from where it touches. */
static double depth(double radius, double aside)
{
    return radius - sqrt(radius * radius - aside * aside);
}

/* Both sides of a cut that falls between whole millimetres, and the same from the other end. */
static bool cut_both(WbStairRows *rows, const WbObstacle *round, double y)
{
    int64_t below_mm = (int64_t)floor(y), above_mm = (int64_t)ceil(y), end_mm = round->length_mm;
    return wb_stairs_cut(rows, round->y_mm + below_mm) &&
           wb_stairs_cut(rows, round->y_mm + above_mm) &&
           wb_stairs_cut(rows, round->y_mm + end_mm - below_mm) &&
           wb_stairs_cut(rows, round->y_mm + end_mm - above_mm);
}

static bool cut_one(WbStairRows *rows, const WbObstacle *round, int64_t y_mm)
{
    return wb_stairs_cut(rows, round->y_mm + y_mm) &&
           wb_stairs_cut(rows, round->y_mm + round->length_mm - y_mm);
}

/* Near its front and its back, as far as 45 degrees, by height; between by length. At 1 mm the cuts
 * are at every whole height there, and where the edge crosses a whole length here. Such a crossing
 * is a square root of a whole number off the middle: a whole number, or so far from one that it is
 * rounded to the right side. */
static bool cut_circle(WbStairRows *rows, const WbObstacle *round, int64_t step_mm)
{
    double radius = (double)round->length_mm / 2;
    double corner = depth(radius, radius * sqrt(0.5));
    int64_t whole = (int64_t)ceil(corner), n = (whole + step_mm - 1) / step_mm;
    for (int64_t k = 1; k <= n; k++) {
        double in = step_mm == 1 ? (double)k : corner * (double)k / (double)n;
        double at = depth(radius, radius - in);
        bool done = step_mm == 1 ? cut_one(rows, round, k) && cut_both(rows, round, at)
                                 : cut_one(rows, round, (int64_t)floor(in + 0.5)) &&
                                       cut_one(rows, round, (int64_t)floor(at));
        if (!done)
            return false;
    }
    return wb_stairs_sort_cuts(rows, round->y_mm, round->y_mm + round->length_mm);
}

/* Whether x mm from its left end the circle is not yet entered, at a height u half millimetres from
 * its middle: the chord there is half_chord of them either way, squared. */
static bool before_circle(const WbObstacle *round, int64_t x_mm, int64_t half_chord_2)
{
    int64_t off = round->length_mm - 2 * x_mm;
    return off >= 0 && off * off >= half_chord_2;
}

/* Last whole millimetre before the circle, from its left end. */
static int64_t last_before(const WbObstacle *round, int64_t u)
{
    int64_t half_chord_2 = round->length_mm * round->length_mm - u * u;
    int64_t x_mm = (int64_t)(((double)round->length_mm - sqrt((double)half_chord_2)) / 2);
    while (!before_circle(round, x_mm, half_chord_2))
        x_mm--;
    while (before_circle(round, x_mm + 1, half_chord_2))
        x_mm++;
    return x_mm;
}

/* First whole millimetre inside the circle or on it. */
static int64_t first_inside(const WbObstacle *round, int64_t u)
{
    int64_t half_chord_2 = round->length_mm * round->length_mm - u * u;
    int64_t x_mm = last_before(round, u), off = round->length_mm - 2 * x_mm;
    return off * off == half_chord_2 ? x_mm : x_mm + 1;
}

static bool add_row(WbStairRows *rows, size_t row, const WbObstacle *round, WbPlainSide side)
{
    int64_t front = 2 * (rows->cut_mm[row] - round->y_mm) - round->length_mm;
    int64_t back = 2 * (rows->cut_mm[row + 1] - round->y_mm) - round->length_mm;
    int64_t near = front <= 0 && back >= 0 ? 0 : back < 0 ? -back : front;
    int64_t far = -front > back ? -front : back;
    int64_t from_mm = side == WB_PLAIN_INNER ? last_before(round, near) : first_inside(round, far);
    rows->first[row] = rows->n_spans;
    bool done =
        2 * from_mm >= round->length_mm ||
        wb_stairs_span(rows, round->x_mm + from_mm, round->x_mm + round->length_mm - from_mm);
    rows->first[row + 1] = rows->n_spans;
    return done;
}

WbStatus wb_stairs_circle(WbStairRows *rows, const WbObstacle *round, WbPlainSide side,
                          int64_t step_mm, int64_t rows_max, bool *exact)
{
    int64_t rows_at_1_mm = 8 * (int64_t)ceil(0.15 * (double)round->length_mm);
    if (rows_at_1_mm / rows_max >= step_mm)
        step_mm = rows_at_1_mm / rows_max + 1;
    *exact = step_mm == 1;
    if (!cut_circle(rows, round, step_mm))
        return WB_NO_MEMORY;
    for (size_t row = 0; row + 1 < rows->n_cuts; row++)
        if (!add_row(rows, row, round, side))
            return WB_NO_MEMORY;
    return WB_OK;
}
