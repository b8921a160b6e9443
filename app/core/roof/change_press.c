/* Longest ways in the graph of what stands before what, one direction after the other. */
#include "change_press.h"
#include "roof_outline.h"
#include <stdlib.h>
#include <string.h>

enum { PRESS_MAX = 300 };

/* Seen in one direction: where it stands, how long it is, and will be. */
typedef struct {
    int64_t at_mm, length_mm, to_mm;
    int panel; /* index in the layout */
} Span;

static int64_t max_mm(int64_t a_mm, int64_t b_mm)
{
    return a_mm > b_mm ? a_mm : b_mm;
}

/* Room between two along x or y, whichever stands first; less than 0: they overlap so far. */
static int64_t room_mm(int64_t a_mm, int64_t a_length_mm, int64_t b_mm, int64_t b_length_mm)
{
    return max_mm(b_mm - a_mm - a_length_mm, a_mm - b_mm - b_length_mm);
}

/* What stands apart more along x than across stays apart along x. */
static bool apart_along(WbRect a, WbRect b)
{
    return room_mm(a.x_mm, a.length_mm, b.x_mm, b.length_mm) >=
           room_mm(a.y_mm, a.width_mm, b.y_mm, b.width_mm);
}

static int by_place(const void *a, const void *b)
{
    const Span *one = a, *other = b;
    if (one->at_mm != other->at_mm)
        return one->at_mm > other->at_mm ? 1 : -1;
    return one->panel - other->panel;
}

typedef struct {
    const WbRoof *roof;
    const WbRect *layout;
    int n;
    bool along;
    Span *span; /* in the order they stand */
} Press;

/* What obstacles leave: from *least_mm to *most_mm. False: the span does not go between. */
static bool clear_obstacles(const Press *press, const Span *span, int64_t *least_mm,
                            int64_t *most_mm)
{
    for (size_t i = 0; i < press->roof->n_obstacles; i++) {
        const WbObstacle *obstacle = &press->roof->obstacles[i];
        if (!wb_obstacle_blocks(press->roof, obstacle))
            continue;
        WbZone zone = wb_obstacle_zone(obstacle);
        WbRect body = {zone.left_mm, zone.front_mm, zone.right_mm - zone.left_mm,
                       zone.back_mm - zone.front_mm};
        if (apart_along(press->layout[span->panel], body) != press->along)
            continue;
        int64_t low_mm = press->along ? zone.left_mm : zone.front_mm;
        int64_t high_mm = press->along ? zone.right_mm : zone.back_mm;
        if (span->at_mm - high_mm >= low_mm - span->at_mm - span->length_mm)
            *least_mm = max_mm(*least_mm, high_mm);
        else if (low_mm < *most_mm)
            *most_mm = low_mm;
    }
    return *least_mm + span->to_mm <= *most_mm;
}

/* Spans before k have their new places already. */
static bool press_span(const Press *press, int k, WbRect *pressed)
{
    WbZone usable = wb_roof_usable(press->roof);
    Span *span = &press->span[k];
    int64_t least_mm = press->along ? usable.left_mm : usable.front_mm;
    int64_t most_mm = press->along ? usable.right_mm : usable.back_mm;
    for (int i = 0; i < k; i++) {
        int before = press->span[i].panel;
        int64_t at_mm = press->along ? pressed[before].x_mm : pressed[before].y_mm;
        if (apart_along(press->layout[before], press->layout[span->panel]) == press->along)
            least_mm = max_mm(least_mm, at_mm + press->span[i].to_mm + press->roof->gap_mm);
    }
    if (!clear_obstacles(press, span, &least_mm, &most_mm))
        return false;
    if (press->along)
        pressed[span->panel].x_mm = least_mm;
    else
        pressed[span->panel].y_mm = least_mm;
    return true;
}

static bool press_direction(const Press *press, WbRect *pressed)
{
    for (int i = 0; i < press->n; i++) {
        const WbRect *rect = &press->layout[i];
        press->span[i] = press->along ? (Span){rect->x_mm, rect->length_mm, pressed[i].length_mm, i}
                                      : (Span){rect->y_mm, rect->width_mm, pressed[i].width_mm, i};
    }
    qsort(press->span, press->n, sizeof *press->span, by_place);
    for (int k = 0; k < press->n; k++)
        if (!press_span(press, k, pressed))
            return false;
    return true;
}

bool wb_press_layout(const WbRoof *roof, WbPanelSize from, WbPanelSize to, const WbRect *layout,
                     int n, WbRect *pressed)
{
    if (from.length_mm == to.length_mm && from.width_mm == to.width_mm &&
        wb_roof_layout_ok(roof, to.length_mm, to.width_mm, layout, n, NULL)) {
        memcpy(pressed, layout, (size_t)n * sizeof *pressed);
        return true;
    }
    if (n > PRESS_MAX)
        return false;
    Press press = {roof, layout, n, true, malloc((size_t)n * sizeof *press.span)};
    if (!press.span)
        return false;
    for (int i = 0; i < n; i++) {
        bool turned = layout[i].length_mm != from.length_mm;
        pressed[i] = (WbRect){0, 0, turned ? to.width_mm : to.length_mm,
                              turned ? to.length_mm : to.width_mm};
    }
    bool good = press_direction(&press, pressed);
    press.along = false;
    good = good && press_direction(&press, pressed);
    free(press.span);
    return good && wb_roof_layout_ok(roof, to.length_mm, to.width_mm, pressed, n, NULL);
}
