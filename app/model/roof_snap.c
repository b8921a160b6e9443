#include "roof_hand.h"

/* One axis of a snap: the thing from `from` on, `size` long; the nearest offer so far. */
typedef struct {
    gint64 from, size, best, away;
    gboolean low, high; /* whether its near and its far side may snap */
} Pull;

typedef struct {
    gint64 from, to;
} Span;

static Span span_of(const WbRect *rect, int axis)
{
    return axis == 0 ? (Span){rect->x_mm, rect->x_mm + rect->length_mm}
                     : (Span){rect->y_mm, rect->y_mm + rect->width_mm};
}

static gboolean spans_meet(Span a, Span b)
{
    return a.from < b.to && b.from < a.to;
}

static void offer(Pull *pull, gint64 from)
{
    gint64 away = ABS(from - pull->from);
    if (away >= pull->away)
        return;
    pull->best = from;
    pull->away = away;
}

static void offer_low(Pull *pull, gint64 line)
{
    if (pull->low)
        offer(pull, line);
}

static void offer_high(Pull *pull, gint64 line)
{
    if (pull->high)
        offer(pull, line - pull->size);
}

/* In line with either side of a span. */
static void offer_sides(Pull *pull, Span span)
{
    offer_low(pull, span.from);
    offer_high(pull, span.to);
}

static void offer_beside(Pull *pull, Span span, gint64 gap)
{
    offer_low(pull, span.to + gap);
    offer_high(pull, span.from - gap);
}

/* The outline's lines across this axis; a panel keeps the margin. */
static void offer_outline(Pull *pull, const WbHeld *held, int axis)
{
    const WbRoof *roof = held->roof;
    gint64 margin = held->kind == WB_HELD_PANEL ? roof->margin_mm : 0;
    if (held->kind == WB_HELD_EDGE)
        return; /* the only line near is its own */
    if (roof->n_corners == 0 || held->kind == WB_HELD_CORNER) {
        offer_low(pull, margin);
        offer_high(pull, (axis == 0 ? roof->length_mm : roof->width_mm) - margin);
    }
    for (gsize i = 0; i < roof->n_corners; i++) {
        const WbCorner *a = &roof->corners[i], *b = &roof->corners[(i + 1) % roof->n_corners];
        gint64 at = axis == 0 ? a->x_mm : a->y_mm;
        if (held->kind == WB_HELD_CORNER && held->index != (int)i)
            offer_low(pull, at);
        if (held->kind == WB_HELD_CORNER || at != (axis == 0 ? b->x_mm : b->y_mm))
            continue;
        offer_low(pull, at + margin);
        offer_high(pull, at - margin);
    }
}

static Span grown(Span span, gint64 by)
{
    return (Span){span.from - by, span.to + by};
}

static void offer_obstacles(Pull *pull, const WbHeld *held, const WbRect *rect, int axis,
                            gint64 reach)
{
    for (gsize i = 0; i < held->roof->n_obstacles; i++) {
        const WbObstacle *other = &held->roof->obstacles[i];
        if (other->kind == WB_OBSTACLE_SHADE ||
            (held->kind == WB_HELD_OBSTACLE && held->index == (int)i))
            continue;
        const WbRect box = {other->x_mm, other->y_mm, other->length_mm, other->width_mm};
        Span beside = grown(span_of(&box, 1 - axis), other->clearance_mm + reach);
        if (!spans_meet(grown(span_of(rect, 1 - axis), 1), beside))
            continue;
        offer_beside(pull, span_of(&box, axis),
                     held->kind == WB_HELD_PANEL ? other->clearance_mm : 0);
        if (held->kind != WB_HELD_PANEL)
            offer_sides(pull, span_of(&box, axis));
    }
}

static void offer_other_panels(Pull *pull, const WbHeld *held, const WbRect *rect, int axis)
{
    gint64 gap = held->roof->gap_mm;
    for (int i = 0; i < held->n_panels; i++) {
        const WbRect *other = &held->panels[i];
        if (held->kind == WB_HELD_PANEL && held->index == i)
            continue;
        if (spans_meet(span_of(rect, 1 - axis), grown(span_of(other, 1 - axis), gap)))
            offer_beside(pull, span_of(other, axis), gap);
        offer_sides(pull, span_of(other, axis));
    }
}

/* What is not a panel goes where it just leaves the panel its place: an obstacle keeps its
 * clearance, corners and edges the margin. */
static void offer_beside_panels(Pull *pull, const WbHeld *held, const WbRect *rect, int axis,
                                gint64 reach)
{
    gboolean obstacle = held->kind == WB_HELD_OBSTACLE;
    gint64 away = held->roof->margin_mm;
    if (obstacle && held->index < 0)
        return; /* nothing is known of it yet */
    if (obstacle) {
        const WbObstacle *own = &held->roof->obstacles[held->index];
        away = own->kind == WB_OBSTACLE_SHADE ? 0 : own->clearance_mm;
    }
    for (int i = 0; i < held->n_panels; i++) {
        Span across = grown(span_of(&held->panels[i], 1 - axis), away + reach);
        if (!obstacle || spans_meet(grown(span_of(rect, 1 - axis), 1), across))
            offer_beside(pull, span_of(&held->panels[i], axis), away);
    }
}

static void offer_panels(Pull *pull, const WbHeld *held, const WbRect *rect, int axis, gint64 reach)
{
    if (held->kind == WB_HELD_PANEL)
        offer_other_panels(pull, held, rect, axis);
    else if (held->kind != WB_HELD_POINT)
        offer_beside_panels(pull, held, rect, axis, reach);
}

/* Floor to steps, also below zero. */
static gint64 to_step(gint64 mm, gint64 step)
{
    gint64 up = mm + step / 2;
    return (up >= 0 ? up / step : -((-up + step - 1) / step)) * step;
}

static gint64 pulled(const WbHeld *held, const WbRect *rect, int axis, Pull *pull, gint64 reach)
{
    pull->away = reach + 1;
    if (reach > 0) {
        offer_outline(pull, held, axis);
        offer_obstacles(pull, held, rect, axis, reach);
        offer_panels(pull, held, rect, axis, reach);
    }
    return pull->away <= reach;
}

static gint64 snapped(const WbHeld *held, const WbRect *rect, int axis, gint64 reach, gint64 step)
{
    Span span = span_of(rect, axis);
    Pull pull = {span.from, span.to - span.from, 0, 0, TRUE, TRUE};
    return pulled(held, rect, axis, &pull, reach) ? pull.best : to_step(span.from, step);
}

WbRect wb_held_snap(const WbHeld *held, WbRect rect, gint64 reach_mm, gint64 step_mm)
{
    gint64 x = snapped(held, &rect, 0, reach_mm, step_mm);
    gint64 y = snapped(held, &rect, 1, reach_mm, step_mm);
    return (WbRect){x, y, rect.length_mm, rect.width_mm};
}

WbRect wb_held_snap_side(const WbHeld *held, WbRect rect, WbSide side, gint64 to_mm,
                         gint64 reach_mm, gint64 step_mm)
{
    int axis = side == WB_SIDE_LEFT || side == WB_SIDE_RIGHT ? 0 : 1;
    gboolean low = side == WB_SIDE_LEFT || side == WB_SIDE_FRONT;
    Span span = span_of(&rect, axis);
    Pull pull = {to_mm, 0, 0, 0, low, !low};
    gint64 at = pulled(held, &rect, axis, &pull, reach_mm) ? pull.best : to_step(to_mm, step_mm);
    gint64 from = low ? MIN(at, span.to - 1) : span.from;
    gint64 to = low ? span.to : MAX(at, span.from + 1);
    if (axis == 0)
        return (WbRect){from, rect.y_mm, to - from, rect.width_mm};
    return (WbRect){rect.x_mm, from, rect.length_mm, to - from};
}
