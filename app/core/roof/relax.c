/* For each pair of panels one of the four ways to stand apart is kept, the one with most room; so
 * too against obstacles. With these kept, what is wanted of the places is a set of linear
 * inequalities (near a circle nearly so). They are met by cyclic projections: each one broken moves
 * what breaks it the shortest way to where it holds (Kaczmarz 1937; Agmon 1954, from memory). With
 * room enough left that places still hold when they are floored to whole millimetres. */
#include "relax.h"
#include "plain_roof.h"
#include <math.h>
#include <stdlib.h>

enum { SWEEPS = 400, PANELS_MAX = 64, WAYS = 4 };
static const double EASE_MM = 0.01, CLOSE_MM = 0.005;

typedef struct {
    double x, y;
} Spot;

typedef struct {
    const WbRoof *roof;
    const WbRect *fixed, *before;
    int n_fixed, n;
    Spot at[PANELS_MAX];
    double worst; /* of a sweep */
} Relax;

/* Room between a and b where b stands right of a, left, behind, in front. */
static int64_t room_mm(const WbRect *a, const WbRect *b, int way)
{
    switch (way) {
    case 0:
        return b->x_mm - a->x_mm - a->length_mm;
    case 1:
        return a->x_mm - b->x_mm - b->length_mm;
    case 2:
        return b->y_mm - a->y_mm - a->width_mm;
    default:
        return a->y_mm - b->y_mm - b->width_mm;
    }
}

static int widest_way(const WbRect *a, const WbRect *b)
{
    int widest = 0;
    for (int way = 1; way < WAYS; way++)
        if (room_mm(a, b, way) > room_mm(a, b, widest))
            widest = way;
    return widest;
}

static double missing(Relax *relax, double by)
{
    relax->worst = by > relax->worst ? by : relax->worst;
    return by;
}

/* Panels i and k stand that way apart; each gives half of what is missing. */
static void part(Relax *relax, int i, int k, int way)
{
    const WbRect *a = &relax->before[i], *b = &relax->before[k];
    Spot *p = &relax->at[i], *q = &relax->at[k];
    double gap = (double)relax->roof->gap_mm + EASE_MM;
    double room = way == 0   ? q->x - p->x - (double)a->length_mm
                  : way == 1 ? p->x - q->x - (double)b->length_mm
                  : way == 2 ? q->y - p->y - (double)a->width_mm
                             : p->y - q->y - (double)b->width_mm;
    if (room >= gap)
        return;
    double half = missing(relax, gap - room) / 2 * (way % 2 ? -1 : 1);
    if (way < 2) {
        p->x -= half;
        q->x += half;
    } else {
        p->y -= half;
        q->y += half;
    }
}

static void keep_off(Relax *relax, int i, const WbRect *block, int64_t clearance_mm)
{
    const WbRect *a = &relax->before[i];
    Spot *p = &relax->at[i];
    int way = widest_way(a, block);
    double off = (double)clearance_mm + EASE_MM;
    double x = (double)block->x_mm, y = (double)block->y_mm;
    double limit = way == 0   ? x - off - (double)a->length_mm
                   : way == 1 ? x + (double)block->length_mm + off
                   : way == 2 ? y - off - (double)a->width_mm
                              : y + (double)block->width_mm + off;
    double *at = way < 2 ? &p->x : &p->y;
    double by = way % 2 ? limit - *at : *at - limit;
    if (by <= 0)
        return;
    missing(relax, by);
    *at = limit;
}

static double nearest(double at, double low, double high)
{
    return at < low ? low : at > high ? high : at;
}

static void keep_off_circle(Relax *relax, int i, const WbObstacle *round)
{
    const WbRect *a = &relax->before[i];
    Spot *p = &relax->at[i];
    double clear = (double)round->clearance_mm, radius = (double)round->length_mm / 2;
    double x = (double)round->x_mm + radius, y = (double)round->y_mm + radius;
    double dx = nearest(x, p->x - clear, p->x + (double)a->length_mm + clear) - x;
    double dy = nearest(y, p->y - clear, p->y + (double)a->width_mm + clear) - y;
    double far = sqrt(dx * dx + dy * dy), wanted = radius + sqrt(2) + EASE_MM;
    if (far >= wanted)
        return;
    if (far < 1) { /* its middle is covered: out the way it stands widest apart */
        WbRect square = {round->x_mm, round->y_mm, round->length_mm, round->length_mm};
        keep_off(relax, i, &square, round->clearance_mm);
        return;
    }
    double by = missing(relax, wanted - far);
    p->x += dx / far * by;
    p->y += dy / far * by;
}

/* inward: the side of the edge from a to b on which the roof lies, +1 or -1. */
static void keep_within(Relax *relax, int i, WbCorner a, WbCorner b, double inward)
{
    const WbRect *rect = &relax->before[i];
    Spot *p = &relax->at[i];
    double margin = (double)relax->roof->margin_mm, ax = (double)a.x_mm, ay = (double)a.y_mm;
    double left = p->x - margin, right = p->x + (double)rect->length_mm + margin;
    double front = p->y - margin, back = p->y + (double)rect->width_mm + margin;
    double ex = (double)b.x_mm - ax, ey = (double)b.y_mm - ay, length = sqrt(ex * ex + ey * ey);
    if (fmin(ax, ax + ex) >= right || fmax(ax, ax + ex) <= left || fmin(ay, ay + ey) >= back ||
        fmax(ay, ay + ey) <= front)
        return;
    double nx = -ey / length * inward, ny = ex / length * inward; /* points inward */
    double deep = nx * ((nx > 0 ? left : right) - ax) + ny * ((ny > 0 ? front : back) - ay);
    double by = fmax(nx, 0) + fmax(ny, 0) + EASE_MM - deep;
    if (by <= 0)
        return;
    missing(relax, by);
    p->x += nx * by;
    p->y += ny * by;
}

static double inward_of(const WbRoof *roof)
{
    int64_t twice_mm2 = 0;
    for (size_t i = 0; i < roof->n_corners; i++) {
        WbCorner a = roof->corners[i], b = roof->corners[(i + 1) % roof->n_corners];
        twice_mm2 += a.x_mm * b.y_mm - b.x_mm * a.y_mm;
    }
    return twice_mm2 > 0 ? 1 : -1;
}

static void keep_on_roof(Relax *relax, int i, double inward)
{
    const WbRoof *roof = relax->roof;
    const WbRect *a = &relax->before[i];
    WbZone usable = wb_roof_usable(roof);
    Spot *p = &relax->at[i], was = *p;
    p->x = nearest(p->x, (double)usable.left_mm, (double)(usable.right_mm - a->length_mm));
    p->y = nearest(p->y, (double)usable.front_mm, (double)(usable.back_mm - a->width_mm));
    missing(relax, fabs(p->x - was.x) + fabs(p->y - was.y));
    for (size_t k = 0; k < roof->n_corners; k++)
        keep_within(relax, i, roof->corners[k], roof->corners[(k + 1) % roof->n_corners], inward);
    for (size_t k = 0; k < roof->n_obstacles; k++) {
        const WbObstacle *o = &roof->obstacles[k];
        WbRect block = {o->x_mm, o->y_mm, o->length_mm, o->width_mm};
        if (!wb_obstacle_blocks(roof, o))
            continue;
        if (o->round)
            keep_off_circle(relax, i, o);
        else
            keep_off(relax, i, &block, o->clearance_mm);
    }
    for (int k = 0; k < relax->n_fixed; k++)
        keep_off(relax, i, &relax->fixed[k], roof->gap_mm);
}

static bool settle(Relax *relax, const uint8_t *way)
{
    double inward = inward_of(relax->roof);
    for (int sweep = 0; sweep < SWEEPS; sweep++) {
        relax->worst = 0;
        for (int i = 0; i < relax->n; i++)
            for (int k = 0; k < i; k++)
                part(relax, i, k, way[i * PANELS_MAX + k]);
        for (int i = 0; i < relax->n; i++)
            keep_on_roof(relax, i, inward);
        if (relax->worst < CLOSE_MM)
            return true;
    }
    return false;
}

/* Whether the floored places lie on the roof and keep apart; then they are the layout. */
static bool take_floored(const Relax *relax, WbRect *layout)
{
    WbRect floored[PANELS_MAX];
    int64_t gap_mm = relax->roof->gap_mm;
    for (int i = 0; i < relax->n; i++) {
        floored[i] = layout[i];
        floored[i].x_mm = (int64_t)floor(relax->at[i].x);
        floored[i].y_mm = (int64_t)floor(relax->at[i].y);
        bool good = wb_roof_place_ok(relax->roof, &floored[i]);
        for (int k = 0; k < i && good; k++)
            good =
                room_mm(&floored[i], &floored[k], widest_way(&floored[i], &floored[k])) >= gap_mm;
        for (int k = 0; k < relax->n_fixed && good; k++)
            good = room_mm(&floored[i], &relax->fixed[k],
                           widest_way(&floored[i], &relax->fixed[k])) >= gap_mm;
        if (!good)
            return false;
    }
    for (int i = 0; i < relax->n; i++)
        layout[i] = floored[i];
    return true;
}

bool wb_relax(const WbRoof *roof, const WbRect *fixed, int n_fixed, WbRect *layout, int n)
{
    Relax relax = {.roof = roof, .fixed = fixed, .before = layout, .n_fixed = n_fixed, .n = n};
    uint8_t *way = n <= PANELS_MAX ? malloc(PANELS_MAX * PANELS_MAX) : NULL;
    if (!way)
        return false;
    for (int i = 0; i < n; i++) {
        relax.at[i] = (Spot){(double)layout[i].x_mm, (double)layout[i].y_mm};
        for (int k = 0; k < i; k++)
            way[i * PANELS_MAX + k] = (uint8_t)widest_way(&layout[i], &layout[k]);
    }
    bool done = settle(&relax, way) && take_floored(&relax, layout);
    free(way);
    return done;
}
