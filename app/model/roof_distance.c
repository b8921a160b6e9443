#include "roof_hand.h"

#include <math.h>

/* Seen from one side: `ahead` grows away from it, `across` runs along it. */
typedef struct {
    gboolean upright; /* the side runs along y */
    int sign;         /* +1: ahead is the way of growing x or y */
    gint64 at, from, to;
} View;

static View view_of(const WbRect *rect, WbSide side)
{
    gboolean upright = side == WB_SIDE_LEFT || side == WB_SIDE_RIGHT;
    gboolean far = side == WB_SIDE_RIGHT || side == WB_SIDE_BACK;
    gint64 low = upright ? rect->x_mm : rect->y_mm;
    gint64 size = upright ? rect->length_mm : rect->width_mm;
    gint64 from = upright ? rect->y_mm : rect->x_mm;
    gint64 across = upright ? rect->width_mm : rect->length_mm;
    return (View){upright, far ? 1 : -1, far ? low + size : low, from, from + across};
}

static void nearer(WbDistance *distance, gint64 mm, gint64 along_mm)
{
    if (mm >= 0 && (!distance->found || mm < distance->mm))
        *distance = (WbDistance){TRUE, mm, along_mm};
}

static void see_box(const View *view, gint64 x, gint64 y, gint64 length, gint64 width,
                    WbDistance *distance)
{
    gint64 low = view->upright ? x : y, size = view->upright ? length : width;
    gint64 from = view->upright ? y : x, to = from + (view->upright ? width : length);
    if (from >= view->to || to <= view->from)
        return;
    gint64 mm = view->sign > 0 ? low - view->at : view->at - (low + size);
    nearer(distance, mm, (MAX(from, view->from) + MIN(to, view->to)) / 2);
}

/* Where the line through the side's middle meets an edge of the outline. */
static void see_edge(const View *view, const WbCorner *a, const WbCorner *b, WbDistance *distance)
{
    double middle = (double)(view->from + view->to) / 2;
    double a_across = (double)(view->upright ? a->y_mm : a->x_mm);
    double b_across = (double)(view->upright ? b->y_mm : b->x_mm);
    double a_ahead = (double)(view->upright ? a->x_mm : a->y_mm);
    double b_ahead = (double)(view->upright ? b->x_mm : b->y_mm);
    if (a_across == b_across || middle < fmin(a_across, b_across) ||
        middle > fmax(a_across, b_across))
        return;
    double share = (middle - a_across) / (b_across - a_across);
    double ahead = (a_ahead + share * (b_ahead - a_ahead) - (double)view->at) * view->sign;
    nearer(distance, (gint64)floor(ahead + 1e-6), (view->from + view->to) / 2);
}

static void see_outline(const View *view, const WbRoof *roof, WbDistance *distance)
{
    const WbCorner frame[] = {
        {0, 0}, {roof->length_mm, 0}, {roof->length_mm, roof->width_mm}, {0, roof->width_mm}};
    const WbCorner *corners = roof->n_corners > 0 ? roof->corners : frame;
    gsize n = roof->n_corners > 0 ? roof->n_corners : G_N_ELEMENTS(frame);
    for (gsize i = 0; i < n; i++)
        see_edge(view, &corners[i], &corners[(i + 1) % n], distance);
}

void wb_held_distances(const WbHeld *held, const WbRect *rect, WbDistance distance[WB_N_SIDES])
{
    for (int side = 0; side < WB_N_SIDES; side++) {
        View view = view_of(rect, (WbSide)side);
        distance[side] = (WbDistance){0};
        see_outline(&view, held->roof, &distance[side]);
        for (gsize i = 0; i < held->roof->n_obstacles; i++) {
            const WbObstacle *o = &held->roof->obstacles[i];
            if (o->kind != WB_OBSTACLE_SHADE &&
                (held->kind != WB_HELD_OBSTACLE || held->index != (int)i))
                see_box(&view, o->x_mm, o->y_mm, o->length_mm, o->width_mm, &distance[side]);
        }
        for (int i = 0; i < held->n_panels; i++) {
            const WbRect *p = &held->panels[i];
            if (held->kind != WB_HELD_PANEL || held->index != i)
                see_box(&view, p->x_mm, p->y_mm, p->length_mm, p->width_mm, &distance[side]);
        }
    }
}
