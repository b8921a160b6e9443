/* The shadow of one upright box or cylinder on the plane of the panels, cut by a line. */
#ifndef WB_SHADE_CAST_H
#define WB_SHADE_CAST_H

#include <stdbool.h>

/* Axis 0 is along the roof, 1 across it; mm. */
typedef struct {
    double low[2], high[2]; /* its base; of a round one, the square about it */
    double height;          /* over the panels' plane */
    bool round;
} WbCaster;

typedef struct {
    double from, to;
} WbShadowSpan;

/* The shadow is the hull of the base and of its top, shifted by shift_per_height x height. On the
 * line where the coordinate of this axis is `at`: from..to along the other axis; false: not met. */
bool wb_shadow_cut(const WbCaster *caster, const double shift_per_height[2], int axis, double at,
                   WbShadowSpan *span);

#endif
