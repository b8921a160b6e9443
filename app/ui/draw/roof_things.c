/* One obstacle, panel or gland of a roof drawing, told apart by shape and pattern. */
#include "roof_ink.h"
#include "roof_plan_private.h"

#include <math.h>

static void paint_body(WbInk *ink, const WbObstacle *obstacle)
{
    if (obstacle->kind == WB_OBSTACLE_WALKWAY) {
        wb_ink_fill(ink, &ink->palette.grid, 0.6);
        wb_ink_hatch(ink, &ink->palette.dim, 7, FALSE);
    } else if (obstacle->kind == WB_OBSTACLE_SHADE) {
        wb_ink_fill(ink, &ink->palette.dim, 0.10);
        wb_ink_hatch(ink, &ink->palette.grid, 14, TRUE);
    } else {
        wb_ink_fill(ink, &ink->palette.grid, 1);
    }
}

void wb_plan_paint_obstacle(WbRoofPlan *self, WbInk *ink, int index, const WbRect *rect)
{
    const WbObstacle *obstacle = &self->roof.obstacles[index];
    gboolean stands = obstacle->kind == WB_OBSTACLE_STANDS;
    WbRect clear = wb_rect_grown(rect, obstacle->clearance_mm);
    if (!wb_ink_in_sight(ink, &clear))
        return;
    if (obstacle->clearance_mm > 0 && obstacle->kind != WB_OBSTACLE_SHADE) {
        /* Clearance is axis-wise: round a circle it is what a square of it sweeps. */
        cairo_new_path(ink->cr);
        wb_ink_clearance(ink, rect, obstacle->clearance_mm, obstacle->round);
        wb_ink_stroke(ink, &ink->palette.dim, 1, 3);
    }
    wb_ink_shape(ink, rect, obstacle->round);
    paint_body(ink, obstacle);
    wb_ink_stroke(ink, stands ? &ink->palette.ink : &ink->palette.dim, 1, stands ? 0 : 5);
}

/* A pin stuck into the corner: head and needle. */
static void paint_pin(WbInk *ink, double x, double y)
{
    wb_ink_line(ink, x, y, x + 6, y + 9, &ink->palette.ink);
    cairo_new_path(ink->cr);
    cairo_arc(ink->cr, x, y, 4, 0, 2 * G_PI);
    wb_ink_fill(ink, &ink->palette.accent, 1);
    wb_ink_stroke(ink, &ink->palette.ink, 1, 0);
}

static void paint_number(WbInk *ink, int number, const WbRect *rect)
{
    double x = wb_ink_x(ink, rect->x_mm), y = wb_ink_y(ink, rect->y_mm);
    double width = ink->place.scale * (double)rect->length_mm;
    double height = ink->place.scale * (double)rect->width_mm;
    g_autofree char *text = g_strdup_printf("%d", number);
    g_autofree char *size = g_strdup_printf("%" G_GINT64_FORMAT " × %" G_GINT64_FORMAT,
                                            rect->length_mm, rect->width_mm);
    int across, down, size_across, line;
    wb_ink_text_size(ink, size, &size_across, &line);
    wb_ink_text_size(ink, text, &across, &down);
    gboolean both = size_across + 10 < width && 2 * line + 4 < height;
    if (across + 4 < width && down < height)
        wb_ink_text(ink, text, x + width / 2, y + height / 2, 0.5, both ? 1 : 0.5,
                    &ink->palette.ink);
    if (both)
        wb_ink_text(ink, size, x + width / 2, y + height / 2, 0.5, 0, &ink->palette.dim);
}

void wb_plan_paint_panel(WbRoofPlan *self, WbInk *ink, int index, const WbRect *rect)
{
    gboolean pinned = self->panels[index].pin >= 0;
    if (!wb_ink_in_sight(ink, rect))
        return;
    wb_ink_shape(ink, rect, FALSE);
    wb_ink_fill(ink, &ink->palette.accent, 0.18);
    wb_ink_stroke(ink, &ink->palette.accent, pinned ? 2 : 1, 0);
    paint_number(ink, index + 1, rect);
    if (pinned)
        paint_pin(ink, wb_ink_x(ink, rect->x_mm) + 8, wb_ink_y(ink, rect->y_mm) + 8);
}

/* A ring with a cross through it. */
void wb_plan_paint_gland(WbInk *ink, int64_t x_mm, int64_t y_mm)
{
    double x = wb_ink_x(ink, x_mm), y = wb_ink_y(ink, y_mm);
    cairo_new_path(ink->cr);
    cairo_arc(ink->cr, x, y, 6, 0, 2 * G_PI);
    wb_ink_fill(ink, &ink->palette.paper, 1);
    wb_ink_stroke(ink, &ink->palette.ink, 2, 0);
    wb_ink_line(ink, x - 9, y, x + 9, y, &ink->palette.ink);
    wb_ink_line(ink, x, y - 9, x, y + 9, &ink->palette.ink);
}
