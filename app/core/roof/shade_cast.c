#include "shade_cast.h"
#include <math.h>

/* u is the coordinate that the line holds, w the one along it; the top is shifted by (u, w). */
typedef struct {
    double u, w;
} Shift;

/* The share t of the shift at which the base covers the line is a range; so is where it then is. */
static bool cut_box(const WbCaster *caster, Shift shift, int axis, double at, WbShadowSpan *span)
{
    double low = caster->low[axis], high = caster->high[axis], first = 0, last = 1;
    if (shift.u == 0) {
        if (at < low || at > high)
            return false;
    } else {
        double a = (at - low) / shift.u, b = (at - high) / shift.u;
        first = fmax(0, fmin(a, b));
        last = fmin(1, fmax(a, b));
        if (first > last)
            return false;
    }
    double one = first * shift.w, other = last * shift.w;
    span->from = caster->low[1 - axis] + fmin(one, other);
    span->to = caster->high[1 - axis] + fmax(one, other);
    return true;
}

static bool widen(WbShadowSpan *span, bool met, double from, double to)
{
    span->from = met ? fmin(span->from, from) : from;
    span->to = met ? fmax(span->to, to) : to;
    return true;
}

/* The hull of two equal circles is both and the rectangle between their tangents: a line leaves it
 * on a circle or on a tangent. */
static bool cut_cylinder(const WbCaster *caster, Shift shift, int axis, double at,
                         WbShadowSpan *span)
{
    double radius = (caster->high[0] - caster->low[0]) / 2;
    double u = caster->low[axis] + radius, w = caster->low[1 - axis] + radius;
    double length = sqrt(shift.u * shift.u + shift.w * shift.w);
    bool met = false;
    for (int end = 0; end < 2; end++) {
        double off = at - u - end * shift.u, half2 = radius * radius - off * off;
        if (half2 < 0)
            continue;
        double middle = w + end * shift.w, half = sqrt(half2);
        met = widen(span, met, middle - half, middle + half);
    }
    for (int side = -1; side <= 1 && shift.u != 0; side += 2) {
        double away_u = -side * radius * shift.w / length,
               away_w = side * radius * shift.u / length;
        double t = (at - u - away_u) / shift.u;
        if (t >= 0 && t <= 1)
            met = widen(span, met, w + away_w + t * shift.w, w + away_w + t * shift.w);
    }
    return met;
}

bool wb_shadow_cut(const WbCaster *caster, const double shift_per_height[2], int axis, double at,
                   WbShadowSpan *span)
{
    Shift shift = {shift_per_height[axis] * caster->height,
                   shift_per_height[1 - axis] * caster->height};
    return caster->round ? cut_cylinder(caster, shift, axis, at, span)
                         : cut_box(caster, shift, axis, at, span);
}
