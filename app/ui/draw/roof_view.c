#include "roof_view.h"

#include <math.h>

#define SMALLEST 0.5 /* leaves room to draw the right and back edge outwards */
#define LARGEST_SCALE 4.0
#define GRID_PX 14

/* Room for the drawing itself, px. */
typedef struct {
    double left, top, across, down;
} Room;

static Room room_of(const WbViewFrame *frame)
{
    if (frame->bare)
        return (Room){0, 0, frame->width, frame->height};
    return (Room){WB_VIEW_LEFT, WB_VIEW_TOP, frame->width - WB_VIEW_LEFT - WB_VIEW_RIGHT,
                  frame->height - WB_VIEW_TOP - WB_VIEW_BOTTOM};
}

static double fitting_scale(const WbViewFrame *frame)
{
    Room room = room_of(frame);
    return fmax(fmin(room.across / (double)frame->length_mm, room.down / (double)frame->width_mm),
                1e-6);
}

static double middle_x(const WbViewFrame *frame)
{
    Room room = room_of(frame);
    return room.left + room.across / 2.0;
}

static double middle_y(const WbViewFrame *frame)
{
    Room room = room_of(frame);
    return room.top + room.down / 2.0;
}

static int fits_all(const WbRoofView *view)
{
    return view->zoom == 0 || view->zoom == 1;
}

/* Not on whole pixels: a row of small movements must not drift. */
static WbPlanPlace exact_place(const WbRoofView *view, const WbViewFrame *frame)
{
    double scale = fitting_scale(frame) * (view->zoom > 0 ? view->zoom : 1);
    double x_mm = fits_all(view) ? (double)frame->length_mm / 2 : view->x_mm;
    double y_mm = fits_all(view) ? (double)frame->width_mm / 2 : view->y_mm;
    return (WbPlanPlace){middle_x(frame) - x_mm * scale, middle_y(frame) - y_mm * scale, scale};
}

WbPlanPlace wb_roof_view_place(const WbRoofView *view, const WbViewFrame *frame)
{
    WbPlanPlace place = exact_place(view, frame);
    return (WbPlanPlace){round(place.x), round(place.y), place.scale};
}

static double within(double value, double low, double high)
{
    return fmin(fmax(value, low), high);
}

/* The point (x, y) of the drawing shows (x_mm, y_mm). */
static void look(WbRoofView *view, const WbViewFrame *frame, double scale, double x, double y,
                 double x_mm, double y_mm)
{
    view->x_mm = within(x_mm + (middle_x(frame) - x) / scale, 0, (double)frame->length_mm);
    view->y_mm = within(y_mm + (middle_y(frame) - y) / scale, 0, (double)frame->width_mm);
}

void wb_roof_view_zoom(WbRoofView *view, const WbViewFrame *frame, double factor, double x,
                       double y)
{
    WbPlanPlace place = exact_place(view, frame);
    double fit = fitting_scale(frame);
    double most = fmax(LARGEST_SCALE / fit, 1);
    double zoom = within((view->zoom > 0 ? view->zoom : 1) * factor, SMALLEST, most);
    view->zoom = fabs(zoom - 1) < 0.02 ? 1 : zoom;
    look(view, frame, fit * view->zoom, x, y, (x - place.x) / place.scale,
         (y - place.y) / place.scale);
}

void wb_roof_view_pan(WbRoofView *view, const WbViewFrame *frame, double dx, double dy)
{
    WbPlanPlace place = exact_place(view, frame);
    if (fits_all(view))
        return; /* all is in sight */
    look(view, frame, place.scale, dx, dy, -place.x / place.scale, -place.y / place.scale);
}

void wb_roof_view_fit(WbRoofView *view)
{
    view->zoom = 1;
}

int64_t wb_roof_view_grid_mm(double scale)
{
    static const int64_t steps[] = {100, 500, 1000, 5000, 10000, 50000};
    for (unsigned i = 0; i < sizeof steps / sizeof *steps; i++)
        if ((double)steps[i] * scale >= GRID_PX)
            return steps[i];
    return 100000;
}
