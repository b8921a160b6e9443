/* Which part of a roof a drawing shows, and how large: the mapping between millimetres and pixels.
 * Lengths in mm on the roof, px in the drawing. Other drawings have a unit of their own for mm. */
#ifndef WB_ROOF_VIEW_H
#define WB_ROOF_VIEW_H

#include <stdbool.h>
#include <stdint.h>

/* Room kept for dimensions and marks, px. */
#define WB_VIEW_LEFT 64
#define WB_VIEW_TOP 24
#define WB_VIEW_RIGHT 16
#define WB_VIEW_BOTTOM 28

/* px = origin + mm x scale. */
typedef struct {
    double x, y, scale;
} WbPlanPlace;

typedef struct {
    double zoom; /* 1: all of the roof fits; 0: not set yet, as 1 */
    double x_mm,
        y_mm; /* of the roof, in the middle of the drawing; not looked at while zoom is 1 */
} WbRoofView;

typedef struct {
    int width, height;           /* of the drawing, px */
    int64_t length_mm, width_mm; /* of the roof, > 0 */
    bool bare;                   /* nothing is written round it: no room is kept */
} WbViewFrame;

WbPlanPlace wb_roof_view_place(const WbRoofView *view, const WbViewFrame *frame);
/* Larger by `factor`; what lies at (x, y) stays there. */
void wb_roof_view_zoom(WbRoofView *view, const WbViewFrame *frame, double factor, double x,
                       double y);
/* Moves the roof by (dx, dy) px; some of it stays in sight. */
void wb_roof_view_pan(WbRoofView *view, const WbViewFrame *frame, double dx, double dy);
void wb_roof_view_fit(WbRoofView *view);
/* Distance of grid lines: 100, 500, 1000 mm or more, by what leaves them apart. */
int64_t wb_roof_view_grid_mm(double scale);

#endif
