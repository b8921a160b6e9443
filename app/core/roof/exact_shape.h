/* Rectangles against the true outline and true circles, in whole numbers: for checkers. The search
 * knows nothing of these tests. Lengths within what wb_roof_valid accepts. */
#ifndef WB_EXACT_SHAPE_H
#define WB_EXACT_SHAPE_H

#include "roof_outline.h"

/* The open zone (not empty) lies wholly inside, or wholly outside, the polygon of the corners. */
bool wb_outline_holds(const WbRoof *roof, WbZone zone);
bool wb_outline_avoids(const WbRoof *roof, WbZone zone);

/* The zone does not enter the open circle, or lies wholly in the closed one. */
bool wb_circle_avoids(const WbObstacle *round, WbZone zone);
bool wb_circle_covers(const WbObstacle *round, WbZone zone);

/* Twice the signed area of the triangle a, b, c: > 0 where c lies left of the way from a to b. */
static inline int64_t wb_turn_mm2(WbCorner a, WbCorner b, WbCorner c)
{
    return (b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm);
}

#endif
