#include "exact_shape.h"

static WbCorner next_corner(const WbRoof *roof, size_t i)
{
    return roof->corners[i + 1 == roof->n_corners ? 0 : i + 1];
}

/* All four corners of the zone on one side of the line through a and b, or on it. */
static bool on_one_side(WbCorner a, WbCorner b, WbZone zone)
{
    int64_t turn_mm2[4] = {wb_turn_mm2(a, b, (WbCorner){zone.left_mm, zone.front_mm}),
                           wb_turn_mm2(a, b, (WbCorner){zone.right_mm, zone.front_mm}),
                           wb_turn_mm2(a, b, (WbCorner){zone.left_mm, zone.back_mm}),
                           wb_turn_mm2(a, b, (WbCorner){zone.right_mm, zone.back_mm})};
    bool left = true, right = true;
    for (int i = 0; i < 4; i++) {
        left = left && turn_mm2[i] >= 0;
        right = right && turn_mm2[i] <= 0;
    }
    return left || right;
}

/* Two convex shapes are apart exactly where a line along a side of one of them parts them. */
static bool edge_enters(WbCorner a, WbCorner b, WbZone zone)
{
    return (a.x_mm > zone.left_mm || b.x_mm > zone.left_mm) &&
           (a.x_mm < zone.right_mm || b.x_mm < zone.right_mm) &&
           (a.y_mm > zone.front_mm || b.y_mm > zone.front_mm) &&
           (a.y_mm < zone.back_mm || b.y_mm < zone.back_mm) && !on_one_side(a, b, zone);
}

static bool any_edge_enters(const WbRoof *roof, WbZone zone)
{
    for (size_t i = 0; i < roof->n_corners; i++)
        if (edge_enters(roof->corners[i], next_corner(roof, i), zone))
            return true;
    return false;
}

/* Whether a ray to the right crosses the outline an odd number of times. All in half millimetres,
 * for the middle of a zone; it does not lie on the outline. */
static bool middle_inside(const WbRoof *roof, WbZone zone)
{
    WbCorner middle = {zone.left_mm + zone.right_mm, zone.front_mm + zone.back_mm};
    bool inside = false;
    for (size_t i = 0; i < roof->n_corners; i++) {
        WbCorner a = {2 * roof->corners[i].x_mm, 2 * roof->corners[i].y_mm};
        WbCorner b = {2 * next_corner(roof, i).x_mm, 2 * next_corner(roof, i).y_mm};
        if ((a.y_mm <= middle.y_mm) == (b.y_mm <= middle.y_mm))
            continue;
        bool left_of_upward =
            a.y_mm < b.y_mm ? wb_turn_mm2(a, b, middle) > 0 : wb_turn_mm2(b, a, middle) > 0;
        inside = inside != left_of_upward;
    }
    return inside;
}

bool wb_outline_holds(const WbRoof *roof, WbZone zone)
{
    return !any_edge_enters(roof, zone) && middle_inside(roof, zone);
}

bool wb_outline_avoids(const WbRoof *roof, WbZone zone)
{
    return !any_edge_enters(roof, zone) && !middle_inside(roof, zone);
}

static int64_t nearest_to(int64_t at, int64_t low, int64_t high)
{
    return at < low ? low : at > high ? high : at;
}

/* Squared distance of a point from the circle's middle, in quarter mm2; the point in half mm. */
static int64_t from_middle_mm2_4(const WbObstacle *round, int64_t x2, int64_t y2)
{
    int64_t dx = x2 - (2 * round->x_mm + round->length_mm);
    int64_t dy = y2 - (2 * round->y_mm + round->length_mm);
    return dx * dx + dy * dy;
}

bool wb_circle_avoids(const WbObstacle *round, WbZone zone)
{
    int64_t x2 =
        nearest_to(2 * round->x_mm + round->length_mm, 2 * zone.left_mm, 2 * zone.right_mm);
    int64_t y2 =
        nearest_to(2 * round->y_mm + round->length_mm, 2 * zone.front_mm, 2 * zone.back_mm);
    return from_middle_mm2_4(round, x2, y2) >= round->length_mm * round->length_mm;
}

bool wb_circle_covers(const WbObstacle *round, WbZone zone)
{
    int64_t x2[2] = {2 * zone.left_mm, 2 * zone.right_mm};
    int64_t y2[2] = {2 * zone.front_mm, 2 * zone.back_mm};
    for (int i = 0; i < 4; i++)
        if (from_middle_mm2_4(round, x2[i % 2], y2[i / 2]) > round->length_mm * round->length_mm)
            return false;
    return true;
}
