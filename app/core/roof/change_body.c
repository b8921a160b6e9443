#include "change_body.h"
#include "exact_shape.h"
#include <stdlib.h>

static WbZone body_of(const WbObstacle *obstacle)
{
    return (WbZone){obstacle->x_mm, obstacle->y_mm, obstacle->x_mm + obstacle->length_mm,
                    obstacle->y_mm + obstacle->width_mm};
}

static bool zones_meet(WbZone a, WbZone b)
{
    return a.left_mm < b.right_mm && b.left_mm < a.right_mm && a.front_mm < b.back_mm &&
           b.front_mm < a.back_mm;
}

/* Centres are counted in half millimetres. */
static bool circles_meet(const WbObstacle *a, const WbObstacle *b)
{
    int64_t across = 2 * (a->x_mm - b->x_mm) + a->length_mm - b->length_mm;
    int64_t along = 2 * (a->y_mm - b->y_mm) + a->length_mm - b->length_mm;
    int64_t apart = a->length_mm + b->length_mm;
    return across * across + along * along < apart * apart;
}

static bool bodies_meet(const WbObstacle *a, const WbObstacle *b)
{
    if (!zones_meet(body_of(a), body_of(b)))
        return false;
    if (a->round && b->round)
        return circles_meet(a, b);
    if (a->round || b->round)
        return !wb_circle_avoids(a->round ? a : b, body_of(a->round ? b : a));
    return true;
}

typedef struct {
    double x, y;
} HalfPoint; /* in half millimetres, exact */

static bool edge_clears(HalfPoint a, HalfPoint b, HalfPoint centre, double radius)
{
    double along_x = b.x - a.x, along_y = b.y - a.y;
    double to_x = centre.x - a.x, to_y = centre.y - a.y;
    double length2 = along_x * along_x + along_y * along_y;
    double dot = along_x * to_x + along_y * to_y;
    if (dot <= 0)
        return to_x * to_x + to_y * to_y >= radius * radius;
    if (dot >= length2) {
        double end_x = centre.x - b.x, end_y = centre.y - b.y;
        return end_x * end_x + end_y * end_y >= radius * radius;
    }
    double turn = along_x * to_y - along_y * to_x;
    return turn * turn >= radius * radius * length2;
}

/* The way from the centre to the right crosses the edge. */
static bool crosses(HalfPoint a, HalfPoint b, HalfPoint centre)
{
    if ((a.y > centre.y) == (b.y > centre.y))
        return false;
    double turn = (b.x - a.x) * (centre.y - a.y) - (b.y - a.y) * (centre.x - a.x);
    return b.y > a.y ? turn > 0 : turn < 0;
}

static bool outline_holds_circle(const WbRoof *roof, const WbObstacle *round)
{
    double radius = (double)round->length_mm; /* of half millimetres */
    HalfPoint centre = {(double)(2 * round->x_mm + round->length_mm),
                        (double)(2 * round->y_mm + round->length_mm)};
    bool inside = false;
    for (size_t i = 0; i < roof->n_corners; i++) {
        const WbCorner *from = &roof->corners[i];
        const WbCorner *to = &roof->corners[i + 1 == roof->n_corners ? 0 : i + 1];
        HalfPoint a = {2.0 * (double)from->x_mm, 2.0 * (double)from->y_mm};
        HalfPoint b = {2.0 * (double)to->x_mm, 2.0 * (double)to->y_mm};
        if (!edge_clears(a, b, centre, radius))
            return false;
        inside = inside != crosses(a, b, centre);
    }
    return inside;
}

static bool on_roof(const WbMove *move, const WbObstacle *moved)
{
    int64_t at_mm = move->along_x ? moved->x_mm : moved->y_mm;
    int64_t size_mm = move->along_x ? moved->length_mm : moved->width_mm;
    int64_t frame_mm = move->along_x ? move->roof->length_mm : move->roof->width_mm;
    if (at_mm < 0 || at_mm + size_mm > frame_mm)
        return false;
    if (moved->kind != WB_OBSTACLE_STANDS || move->roof->n_corners == 0)
        return true;
    return moved->round ? outline_holds_circle(move->roof, moved)
                        : wb_outline_holds(move->roof, body_of(moved));
}

static WbZone swept(const WbMove *move, int64_t last_mm)
{
    WbObstacle last = wb_moved(move, last_mm);
    WbZone from = body_of(&move->roof->obstacles[move->obstacle]), to = body_of(&last);
    return (WbZone){from.left_mm < to.left_mm ? from.left_mm : to.left_mm,
                    from.front_mm < to.front_mm ? from.front_mm : to.front_mm,
                    from.right_mm > to.right_mm ? from.right_mm : to.right_mm,
                    from.back_mm > to.back_mm ? from.back_mm : to.back_mm};
}

WbStatus wb_bodies(const WbMove *move, int64_t last_mm, WbBodies *bodies)
{
    const WbRoof *roof = move->roof;
    *bodies = (WbBodies){.move = move, .near = malloc(roof->n_obstacles * sizeof *bodies->near)};
    if (!bodies->near)
        return WB_NO_MEMORY;
    if (roof->obstacles[move->obstacle].kind != WB_OBSTACLE_STANDS)
        return WB_OK;
    WbZone way = swept(move, last_mm);
    for (size_t i = 0; i < roof->n_obstacles; i++)
        if ((int)i != move->obstacle && roof->obstacles[i].kind == WB_OBSTACLE_STANDS &&
            zones_meet(way, body_of(&roof->obstacles[i])))
            bodies->near[bodies->n_near++] = roof->obstacles[i];
    return WB_OK;
}

bool wb_bodies_allow(const WbBodies *bodies, int64_t by_mm)
{
    WbObstacle moved = wb_moved(bodies->move, by_mm);
    for (size_t i = 0; i < bodies->n_near; i++)
        if (bodies_meet(&moved, &bodies->near[i]))
            return false;
    return on_roof(bodies->move, &moved);
}

void wb_bodies_free(WbBodies *bodies)
{
    free(bodies->near);
    *bodies = (WbBodies){0};
}
