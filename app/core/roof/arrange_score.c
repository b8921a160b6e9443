#include "roof_arrange.h"
#include <stdlib.h>

enum { STRIPS = 32 };

static int64_t overlap(int64_t low_a, int64_t high_a, int64_t low_b, int64_t high_b)
{
    int64_t low = low_a > low_b ? low_a : low_b, high = high_a < high_b ? high_a : high_b;
    return high > low ? high - low : 0;
}

/* Whole half chord in the middle of a strip of the circle. */
static int64_t half_chord_mm(int64_t diameter_mm, int strip)
{
    int64_t off = llabs(2 * strip + 1 - STRIPS) * diameter_mm; /* in 1 / (2 STRIPS) mm */
    int64_t square = diameter_mm * diameter_mm * STRIPS * STRIPS - off * off;
    int64_t low = 0, high = diameter_mm;
    while (low < high) { /* largest whose square is not above (diameter / 2)^2 - off^2 */
        int64_t middle = (low + high + 1) / 2;
        if (middle * middle * 4 * STRIPS * STRIPS <= square)
            low = middle;
        else
            high = middle - 1;
    }
    return low;
}

static int64_t in_circle_mm2(const WbRect *rect, const WbObstacle *round)
{
    int64_t sum = 0; /* of half mm along x 1 / STRIPS mm across */
    int64_t diameter_mm = round->length_mm, middle = 2 * round->x_mm + diameter_mm;
    for (int k = 0; k < STRIPS; k++) {
        int64_t front = STRIPS * round->y_mm + k * diameter_mm;
        int64_t across = overlap(front, front + diameter_mm, STRIPS * rect->y_mm,
                                 STRIPS * (rect->y_mm + rect->width_mm));
        if (across == 0)
            continue;
        int64_t half = 2 * half_chord_mm(diameter_mm, k);
        sum += across * overlap(middle - half, middle + half, 2 * rect->x_mm,
                                2 * (rect->x_mm + rect->length_mm));
    }
    return sum / (2 * STRIPS);
}

static int64_t shaded_mm2(const WbRoof *roof, const WbRect *rect)
{
    int64_t sum = 0;
    for (size_t i = 0; i < roof->n_obstacles; i++) {
        const WbObstacle *area = &roof->obstacles[i];
        if (area->kind != WB_OBSTACLE_SHADE)
            continue;
        int64_t along = overlap(area->x_mm, area->x_mm + area->length_mm, rect->x_mm,
                                rect->x_mm + rect->length_mm);
        int64_t across = overlap(area->y_mm, area->y_mm + area->width_mm, rect->y_mm,
                                 rect->y_mm + rect->width_mm);
        if (along > 0 && across > 0)
            sum += area->round ? in_circle_mm2(rect, area) : along * across;
    }
    return sum;
}

/* Edges of the last rectangle that no earlier one has. */
static int new_lines(const WbRect *layout, int last)
{
    const WbRect *a = &layout[last];
    bool left = true, right = true, front = true, back = true;
    for (int i = 0; i < last && (left || right || front || back); i++) {
        const WbRect *b = &layout[i];
        left = left && a->x_mm != b->x_mm;
        right = right && a->x_mm + a->length_mm != b->x_mm + b->length_mm;
        front = front && a->y_mm != b->y_mm;
        back = back && a->y_mm + a->width_mm != b->y_mm + b->width_mm;
    }
    return left + right + front + back;
}

/* Twice the way from the centre to the gland, along and across. */
static int64_t cable_2_mm(const WbRoof *roof, const WbRect *rect)
{
    return llabs(2 * rect->x_mm + rect->length_mm - 2 * roof->gland.x_mm) +
           llabs(2 * rect->y_mm + rect->width_mm - 2 * roof->gland.y_mm);
}

static int64_t off_centre_mm(const WbRoof *roof, const WbRect *layout, int n)
{
    int64_t left = layout[0].x_mm, right = left, front = layout[0].y_mm, back = front;
    for (int i = 0; i < n; i++) {
        const WbRect *rect = &layout[i];
        left = rect->x_mm < left ? rect->x_mm : left;
        front = rect->y_mm < front ? rect->y_mm : front;
        right = rect->x_mm + rect->length_mm > right ? rect->x_mm + rect->length_mm : right;
        back = rect->y_mm + rect->width_mm > back ? rect->y_mm + rect->width_mm : back;
    }
    return llabs(left - (roof->length_mm - right)) + llabs(front - (roof->width_mm - back));
}

void wb_roof_arrangement(const WbRoof *roof, const WbRect *layout, int n, WbArrangement *out)
{
    int lies_along = 0, lies_across = 0;
    int64_t cable_2 = 0;
    *out = (WbArrangement){0};
    for (int i = 0; i < n; i++) {
        out->shaded_mm2 += shaded_mm2(roof, &layout[i]);
        out->lines += new_lines(layout, i);
        lies_along += layout[i].length_mm > layout[i].width_mm;
        lies_across += layout[i].length_mm < layout[i].width_mm;
        cable_2 += roof->has_gland ? cable_2_mm(roof, &layout[i]) : 0;
    }
    out->turned = lies_along < lies_across ? lies_along : lies_across;
    out->cable_mm = cable_2 / 2;
    out->off_centre_mm = n > 0 ? off_centre_mm(roof, layout, n) : 0;
}

static int order(int64_t a, int64_t b)
{
    return (a > b) - (a < b);
}

int wb_roof_arrangement_order(const WbArrangement *a, const WbArrangement *b)
{
    if (a->shaded_mm2 != b->shaded_mm2)
        return order(a->shaded_mm2, b->shaded_mm2);
    if (a->lines + a->turned != b->lines + b->turned)
        return order(a->lines + a->turned, b->lines + b->turned);
    if (a->cable_mm != b->cable_mm)
        return order(a->cable_mm, b->cable_mm);
    return order(a->off_centre_mm, b->off_centre_mm);
}
