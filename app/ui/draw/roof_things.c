/* One obstacle, panel or gland of a roof drawing, told apart by shape and pattern. */
#include "roof_ink.h"
#include "roof_plan_private.h"

#include "figures_text.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define MOST_BESIDE 40 /* names beside small obstacles: more would cover the roof */

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

/* Does a box of px lie over another obstacle? */
static gboolean covers_another(WbRoofPlan *self, WbInk *ink, const WbObstacle *own, double x,
                               double y, double width, double height)
{
    for (gsize i = 0; i < self->roof.n_obstacles; i++) {
        const WbObstacle *o = &self->roof.obstacles[i];
        if (o != own && o->kind == WB_OBSTACLE_STANDS && wb_ink_x(ink, o->x_mm) < x + width &&
            wb_ink_x(ink, o->x_mm + o->length_mm) > x && wb_ink_y(ink, o->y_mm) < y + height &&
            wb_ink_y(ink, o->y_mm + o->width_mm) > y)
            return TRUE;
    }
    return FALSE;
}

/* Beside what is too small to be written in, towards the roof's middle, where nothing stands. */
static void paint_name_beside(WbRoofPlan *self, WbInk *ink, const WbObstacle *obstacle,
                              const WbRect *rect)
{
    int width, height;
    gboolean left = rect->x_mm > self->roof.length_mm / 2;
    double x = wb_ink_x(ink, left ? rect->x_mm : rect->x_mm + rect->length_mm);
    double y = wb_ink_y(ink, rect->y_mm) + ink->place.scale * (double)rect->width_mm / 2;
    wb_ink_text_size(ink, obstacle->name, &width, &height);
    double from = left ? x - 4 - width : x + 4;
    if (!covers_another(self, ink, obstacle, from, y - height / 2.0, width, height))
        wb_ink_text(ink, obstacle->name, from, y, 0, 0.5, &ink->palette.ink);
}

/* The name, with the height under it where there is room. */
static void paint_name(WbRoofPlan *self, WbInk *ink, const WbObstacle *obstacle, const WbRect *rect)
{
    double width = ink->place.scale * (double)rect->length_mm;
    double height = ink->place.scale * (double)rect->width_mm;
    gboolean card = obstacle->kind != WB_OBSTACLE_STANDS;
    g_autofree char *high = wb_text_number((double)obstacle->height_mm, 0);
    /* Translators: mm over the roof. */
    g_autofree char *told = g_strdup_printf(_("%s high"), high);
    g_autofree char *text =
        obstacle->height_mm > 0
            ? g_strdup_printf(height >= 34 ? "%s\n%s" : "%s, %s", obstacle->name, told)
            : g_strdup(obstacle->name);
    if (wb_ink_label_within(ink, text, wb_ink_x(ink, rect->x_mm), wb_ink_y(ink, rect->y_mm), width,
                            height, card))
        return;
    if (wb_ink_text_upright(ink, obstacle->name, wb_ink_x(ink, rect->x_mm),
                            wb_ink_y(ink, rect->y_mm), width, height))
        return;
    if (self->roof.n_obstacles <= MOST_BESIDE)
        paint_name_beside(self, ink, obstacle, rect);
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
    paint_name(self, ink, obstacle, rect);
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

/* A ring with a cross through it, and its name beside it. */
void wb_plan_paint_gland(WbInk *ink, int64_t x_mm, int64_t y_mm)
{
    double x = wb_ink_x(ink, x_mm), y = wb_ink_y(ink, y_mm);
    cairo_new_path(ink->cr);
    cairo_arc(ink->cr, x, y, 6, 0, 2 * G_PI);
    wb_ink_fill(ink, &ink->palette.paper, 1);
    wb_ink_stroke(ink, &ink->palette.ink, 2, 0);
    wb_ink_line(ink, x - 9, y, x + 9, y, &ink->palette.ink);
    wb_ink_line(ink, x, y - 9, x, y + 9, &ink->palette.ink);
    wb_ink_label(ink, _("Cable gland"), x + 11, y, 0, 0.5, &ink->palette.ink);
}
