/* What is under the pointer, and how it would be taken hold of. */
#include "roof_plan_private.h"

#include <math.h>

#define NEAR 7  /* px round a handle, corner or gland */
#define SMALL 4 /* px round a small obstacle, and an edge */
#define SMALL_SIDE 14

int wb_plan_handles(WbRoofPlan *self, const WbPlanPlace *place, const WbRect *rect, double x[8],
                    double y[8], guint sides[8])
{
    WbPlanThing thing = self->held.off ? self->held.thing : self->chosen;
    if (!self->editable || thing.kind != WB_PLAN_OBSTACLE || !wb_plan_has(self, thing))
        return 0;
    gboolean round = self->roof.obstacles[thing.index].round;
    double left = place->x + place->scale * (double)rect->x_mm;
    double top = place->y + place->scale * (double)rect->y_mm;
    double width = place->scale * (double)rect->length_mm;
    double height = place->scale * (double)rect->width_mm;
    int n = 0;
    for (int down = 0; down <= 2; down++)
        for (int across = 0; across <= 2; across++) {
            gboolean corner = down != 1 && across != 1;
            gboolean small = corner ? FALSE : (down == 1 ? height : width) < 30;
            if ((down == 1 && across == 1) || (round && !corner) || small)
                continue;
            x[n] = left + width * across / 2;
            y[n] = top + height * down / 2;
            sides[n] = (across == 0   ? 1u << WB_SIDE_LEFT
                        : across == 2 ? 1u << WB_SIDE_RIGHT
                                      : 0) |
                       (down == 0   ? 1u << WB_SIDE_FRONT
                        : down == 2 ? 1u << WB_SIDE_BACK
                                    : 0);
            n++;
        }
    return n;
}

static gboolean near_point(const WbPlanPlace *place, const WbRect *rect, double x, double y)
{
    return hypot(place->x + place->scale * (double)rect->x_mm - x,
                 place->y + place->scale * (double)rect->y_mm - y) <= NEAR;
}

static gboolean inside(const WbPlanPlace *place, const WbRect *rect, double x, double y,
                       double around)
{
    double left = place->x + place->scale * (double)rect->x_mm;
    double top = place->y + place->scale * (double)rect->y_mm;
    return x >= left - around && y >= top - around &&
           x <= left + place->scale * (double)rect->length_mm + around &&
           y <= top + place->scale * (double)rect->width_mm + around;
}

static gboolean hit_handle(WbRoofPlan *self, const WbPlanPlace *place, double x, double y,
                           WbPlanHeld *hit)
{
    double at_x[8], at_y[8];
    guint sides[8];
    WbRect rect = wb_plan_rect(self, self->chosen);
    int n = wb_plan_handles(self, place, &rect, at_x, at_y, sides);
    for (int i = 0; i < n; i++)
        if (fabs(at_x[i] - x) <= NEAR && fabs(at_y[i] - y) <= NEAR) {
            hit->grip = WB_GRIP_RESIZE;
            hit->thing = self->chosen;
            hit->sides = sides[i];
            return TRUE;
        }
    return FALSE;
}

static WbPlanThing point_at(WbRoofPlan *self, const WbPlanPlace *place, double x, double y)
{
    for (int i = 0; i < (int)self->roof.n_corners; i++) {
        WbPlanThing corner = {WB_PLAN_CORNER, i};
        WbRect rect = wb_plan_rect(self, corner);
        if (near_point(place, &rect, x, y))
            return corner;
    }
    WbPlanThing gland = {WB_PLAN_GLAND, 0};
    WbRect rect = wb_plan_rect(self, gland);
    return wb_plan_has(self, gland) && near_point(place, &rect, x, y)
               ? gland
               : (WbPlanThing){WB_PLAN_NONE, 0};
}

/* The topmost; small ones are taken from a little further away. */
static WbPlanThing obstacle_at(WbRoofPlan *self, const WbPlanPlace *place, double x, double y,
                               gboolean flat)
{
    for (int i = (int)self->roof.n_obstacles - 1; i >= 0; i--) {
        WbPlanThing thing = {WB_PLAN_OBSTACLE, i};
        WbRect rect = wb_plan_rect(self, thing);
        gboolean small = place->scale * (double)MIN(rect.length_mm, rect.width_mm) < SMALL_SIDE;
        if ((self->roof.obstacles[i].kind != WB_OBSTACLE_STANDS) == flat &&
            inside(place, &rect, x, y, small ? SMALL : 0))
            return thing;
    }
    return (WbPlanThing){WB_PLAN_NONE, 0};
}

static WbPlanThing panel_at(WbRoofPlan *self, const WbPlanPlace *place, double x, double y)
{
    for (int i = (int)self->n_panels - 1; i >= 0; i--)
        if (inside(place, &self->rects[i], x, y, 0))
            return (WbPlanThing){WB_PLAN_PANEL, i};
    return (WbPlanThing){WB_PLAN_NONE, 0};
}

static WbPlanThing edge_at(WbRoofPlan *self, const WbPlanPlace *place, double x, double y)
{
    const WbPlanThing edges[] = {{WB_PLAN_RIGHT, 0}, {WB_PLAN_BACK, 0}};
    for (guint i = 0; i < G_N_ELEMENTS(edges); i++) {
        WbRect rect = wb_plan_rect(self, edges[i]);
        if (wb_plan_has(self, edges[i]) && inside(place, &rect, x, y, SMALL + 1))
            return edges[i];
    }
    return (WbPlanThing){WB_PLAN_NONE, 0};
}

static WbPlanThing thing_at(WbRoofPlan *self, const WbPlanPlace *place, double x, double y)
{
    WbPlanThing thing = point_at(self, place, x, y);
    if (thing.kind == WB_PLAN_NONE)
        thing = obstacle_at(self, place, x, y, FALSE);
    if (thing.kind == WB_PLAN_NONE)
        thing = edge_at(self, place, x, y);
    if (thing.kind == WB_PLAN_NONE)
        thing = panel_at(self, place, x, y);
    if (thing.kind == WB_PLAN_NONE)
        thing = obstacle_at(self, place, x, y, TRUE);
    return thing;
}

void wb_plan_hit(WbRoofPlan *self, double x, double y, WbPlanHeld *hit)
{
    WbPlanPlace place = wb_plan_place(self);
    *hit = (WbPlanHeld){0};
    if (!self->given)
        return;
    if (!hit_handle(self, &place, x, y, hit)) {
        hit->thing = thing_at(self, &place, x, y);
        hit->grip = hit->thing.kind == WB_PLAN_NONE ? WB_GRIP_NONE : WB_GRIP_MOVE;
    }
    hit->was = hit->now = wb_plan_rect(self, hit->thing);
    hit->x_mm = (x - place.x) / place.scale - (double)hit->was.x_mm;
    hit->y_mm = (y - place.y) / place.scale - (double)hit->was.y_mm;
    hit->x = x;
    hit->y = y;
}

int wb_plan_hit_edge(WbRoofPlan *self, double x, double y)
{
    WbPlanPlace place = wb_plan_place(self);
    gsize n = self->roof.n_corners;
    for (gsize i = 0; i < n; i++) {
        const WbCorner *a = &self->roof.corners[i], *b = &self->roof.corners[(i + 1) % n];
        double ax = place.x + place.scale * (double)a->x_mm;
        double ay = place.y + place.scale * (double)a->y_mm;
        double dx = place.scale * (double)(b->x_mm - a->x_mm);
        double dy = place.scale * (double)(b->y_mm - a->y_mm);
        double share = ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy);
        if (share >= 0 && share <= 1 && hypot(ax + share * dx - x, ay + share * dy - y) <= NEAR)
            return (int)i;
    }
    return -1;
}
