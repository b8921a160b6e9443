/* What is chosen or held, over the still picture: its frame and handles, its distances, and why it
 * cannot stay where it is. */
#include "roof_plan_private.h"

#include "figures_text.h"
#include "format.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define HANDLE 7

/* ---- frames and handles ---- */

/* Three pixels, so that the choice is not told by colour alone. */
static void paint_frame(WbInk *ink, const WbRect *rect, gboolean round, const GdkRGBA *color)
{
    wb_ink_shape(ink, rect, round);
    wb_ink_stroke(ink, color, 3, 0);
}

static void paint_handle(WbInk *ink, double x, double y)
{
    cairo_new_path(ink->cr);
    cairo_rectangle(ink->cr, round(x - HANDLE / 2.0) + 0.5, round(y - HANDLE / 2.0) + 0.5, HANDLE,
                    HANDLE);
    wb_ink_fill(ink, &ink->palette.paper, 1);
    wb_ink_stroke(ink, &ink->palette.accent, 1.5, 0);
}

static void paint_handles(WbRoofPlan *self, WbInk *ink, const WbRect *rect)
{
    double x[8], y[8];
    guint sides[8];
    int n = wb_plan_handles(self, &ink->place, rect, x, y, sides);
    for (int i = 0; i < n; i++)
        paint_handle(ink, x[i], y[i]);
}

/* Corners and the edges that can be drawn outwards are always there to be taken. */
static void paint_outline_handles(WbRoofPlan *self, WbInk *ink)
{
    const WbRoof *roof = &self->roof;
    for (gsize i = 0; i < roof->n_corners; i++)
        paint_handle(ink, wb_ink_x(ink, roof->corners[i].x_mm),
                     wb_ink_y(ink, roof->corners[i].y_mm));
    if (roof->n_corners > 0)
        return;
    paint_handle(ink, wb_ink_x(ink, roof->length_mm), wb_ink_y(ink, roof->width_mm / 2));
    paint_handle(ink, wb_ink_x(ink, roof->length_mm / 2), wb_ink_y(ink, roof->width_mm));
}

/* ---- distances ---- */

static void paint_distance(WbInk *ink, const WbRect *rect, int side, const WbDistance *distance)
{
    gboolean upright = side == WB_SIDE_FRONT || side == WB_SIDE_BACK;
    gboolean far = side == WB_SIDE_RIGHT || side == WB_SIDE_BACK;
    int64_t low = upright ? rect->y_mm : rect->x_mm;
    int64_t from = far ? low + (upright ? rect->width_mm : rect->length_mm) : low;
    int64_t to = from + (far ? distance->mm : -distance->mm);
    double px = fabs((double)distance->mm * ink->place.scale);
    if (px < 1)
        return;
    double a = upright ? wb_ink_y(ink, from) : wb_ink_x(ink, from);
    double b = upright ? wb_ink_y(ink, to) : wb_ink_x(ink, to);
    double at = upright ? wb_ink_x(ink, distance->along_mm) : wb_ink_y(ink, distance->along_mm);
    g_autofree char *text = wb_text_number((double)distance->mm, 0);
    if (upright) {
        wb_ink_line(ink, at, a, at, b, &ink->palette.accent);
        wb_ink_line(ink, at - 4, b, at + 4, b, &ink->palette.accent);
        wb_ink_label(ink, text, at + 3, (a + b) / 2, 0, 0.5, &ink->palette.ink);
    } else {
        wb_ink_line(ink, a, at, b, at, &ink->palette.accent);
        wb_ink_line(ink, b, at - 4, b, at + 4, &ink->palette.accent);
        wb_ink_label(ink, text, (a + b) / 2, at - 2, 0.5, 1, &ink->palette.ink);
    }
}

static void paint_distances(WbRoofPlan *self, WbInk *ink, WbPlanThing thing, const WbRect *rect)
{
    WbDistance distance[WB_N_SIDES];
    WbHeld around = wb_plan_around(self, thing);
    wb_held_distances(&around, rect, distance);
    for (int side = 0; side < WB_N_SIDES; side++)
        if (distance[side].found)
            paint_distance(ink, rect, side, &distance[side]);
}

/* Lengths of the two edges that meet in a corner. */
static void paint_edges(WbRoofPlan *self, WbInk *ink, int index, const WbRect *at)
{
    gsize n = self->roof.n_corners;
    for (int by = -1; by <= 1; by += 2) {
        const WbCorner *other = &self->roof.corners[((gsize)index + n + (gsize)by) % n];
        double dx = (double)(other->x_mm - at->x_mm), dy = (double)(other->y_mm - at->y_mm);
        double x = wb_ink_x(ink, at->x_mm), y = wb_ink_y(ink, at->y_mm);
        double end_x = wb_ink_x(ink, other->x_mm), end_y = wb_ink_y(ink, other->y_mm);
        g_autofree char *text = wb_text_number(round(hypot(dx, dy)), 0);
        cairo_new_path(ink->cr);
        cairo_move_to(ink->cr, x, y);
        cairo_line_to(ink->cr, end_x, end_y);
        wb_ink_stroke(ink, &ink->palette.accent, 2, self->held.off ? 4 : 0);
        wb_ink_label(ink, text, (x + end_x) / 2, (y + end_y) / 2, 0.5, 0.5, &ink->palette.ink);
    }
}

/* ---- single things ---- */

/* Where it is, or how large where it is being resized, beside its right back corner. */
static void paint_figures(WbRoofPlan *self, WbInk *ink, const WbRect *rect)
{
    gboolean sized = self->held.grip == WB_GRIP_RESIZE;
    g_autofree char *a = wb_text_number((double)(sized ? rect->length_mm : rect->x_mm), 0);
    g_autofree char *b = wb_format_quantity((double)(sized ? rect->width_mm : rect->y_mm), 0, "mm");
    g_autofree char *text = g_strdup_printf(sized ? "%s × %s" : "%s, %s", a, b);
    wb_ink_label(ink, text, wb_ink_x(ink, rect->x_mm + rect->length_mm) + 8,
                 wb_ink_y(ink, rect->y_mm + rect->width_mm) + 10, 0, 0.5, &ink->palette.ink);
}

static void paint_thing(WbRoofPlan *self, WbInk *ink, WbPlanThing thing, const WbRect *rect)
{
    const GdkRGBA *color = self->held.refusal != NULL ? &ink->palette.over : &ink->palette.accent;
    switch (thing.kind) {
    case WB_PLAN_OBSTACLE:
        if (self->held.off)
            wb_plan_paint_obstacle(self, ink, thing.index, rect);
        paint_frame(ink, rect, self->roof.obstacles[thing.index].round, color);
        paint_handles(self, ink, rect);
        break;
    case WB_PLAN_PANEL:
        if (self->held.off)
            wb_plan_paint_panel(self, ink, thing.index, rect);
        paint_frame(ink, rect, FALSE, color);
        break;
    case WB_PLAN_CORNER:
        paint_edges(self, ink, thing.index, rect);
        break;
    case WB_PLAN_GLAND:
        if (self->held.off)
            wb_plan_paint_gland(ink, rect->x_mm, rect->y_mm);
        break;
    case WB_PLAN_RIGHT:
    case WB_PLAN_BACK:
    case WB_PLAN_NONE:
        break;
    }
}

/* A point or an edge has no inside: a thick line or ring tells it. */
static void paint_mark(WbInk *ink, WbPlanThing thing, const WbRect *rect)
{
    double x = wb_ink_x(ink, rect->x_mm), y = wb_ink_y(ink, rect->y_mm);
    cairo_new_path(ink->cr);
    if (thing.kind == WB_PLAN_RIGHT || thing.kind == WB_PLAN_BACK) {
        cairo_move_to(ink->cr, x, y);
        cairo_line_to(ink->cr, wb_ink_x(ink, rect->x_mm + rect->length_mm),
                      wb_ink_y(ink, rect->y_mm + rect->width_mm));
        wb_ink_stroke(ink, &ink->palette.accent, 3, 0);
    } else if (thing.kind == WB_PLAN_CORNER || thing.kind == WB_PLAN_GLAND) {
        cairo_arc(ink->cr, x, y, 9, 0, 2 * G_PI);
        wb_ink_stroke(ink, &ink->palette.accent, 3, 0);
    }
}

static void paint_chosen(WbRoofPlan *self, WbInk *ink)
{
    WbPlanThing thing = self->held.off ? self->held.thing : self->chosen;
    if (!wb_plan_has(self, thing))
        return;
    WbRect rect = self->held.off ? self->held.now : wb_plan_rect(self, thing);
    gboolean edge = thing.kind == WB_PLAN_RIGHT || thing.kind == WB_PLAN_BACK;
    paint_thing(self, ink, thing, &rect);
    if (self->held.off)
        wb_plan_paint_name(self, ink, thing, &rect);
    paint_mark(ink, thing, &rect);
    if (!edge && thing.kind != WB_PLAN_CORNER)
        paint_distances(self, ink, thing, &rect);
    if (edge && self->held.off) {
        g_autofree char *text = wb_format_quantity(
            (double)(thing.kind == WB_PLAN_RIGHT ? rect.x_mm : rect.y_mm), 0, "mm");
        wb_ink_label(ink, text, wb_ink_x(ink, rect.x_mm + rect.length_mm / 2),
                     wb_ink_y(ink, rect.y_mm + rect.width_mm / 2), 0.5, 0.5, &ink->palette.ink);
    } else if (self->held.off) {
        paint_figures(self, ink, &rect);
    }
}

/* ---- how it would be ---- */

static void paint_way(WbInk *ink, const WbRect *from, const WbRect *to)
{
    double x = wb_ink_x(ink, from->x_mm + from->length_mm / 2);
    double y = wb_ink_y(ink, from->y_mm + from->width_mm / 2);
    double end_x = wb_ink_x(ink, to->x_mm + to->length_mm / 2);
    double end_y = wb_ink_y(ink, to->y_mm + to->width_mm / 2);
    cairo_new_path(ink->cr);
    cairo_move_to(ink->cr, x, y);
    cairo_line_to(ink->cr, end_x, end_y);
    wb_ink_stroke(ink, &ink->palette.ink, 2, 0);
    cairo_arc(ink->cr, end_x, end_y, 4, 0, 2 * G_PI);
    wb_ink_fill(ink, &ink->palette.ink, 1);
    cairo_new_path(ink->cr);
}

/* Dashed, so that it is not taken for what is. */
static void paint_trial(WbRoofPlan *self, WbInk *ink)
{
    const WbPlanTrial *trial = &self->trial;
    for (guint i = 0; i < trial->n; i++) {
        const WbRect *rect = &trial->panels[i];
        g_autofree char *number = g_strdup_printf("%u", i + 1);
        wb_ink_shape(ink, rect, FALSE);
        wb_ink_fill(ink, &ink->palette.accent, 0.10);
        wb_ink_stroke(ink, &ink->palette.accent, 2, 6);
        wb_ink_label_within(ink, number, wb_ink_x(ink, rect->x_mm), wb_ink_y(ink, rect->y_mm),
                            ink->place.scale * (double)rect->length_mm,
                            ink->place.scale * (double)rect->width_mm);
    }
    if (trial->obstacle < 0)
        return;
    WbRect from = wb_plan_rect(self, (WbPlanThing){WB_PLAN_OBSTACLE, trial->obstacle});
    wb_ink_shape(ink, &trial->to, self->roof.obstacles[trial->obstacle].round);
    wb_ink_fill(ink, &ink->palette.paper, 0.5);
    wb_ink_stroke(ink, &ink->palette.ink, 2, 4);
    paint_way(ink, &from, &trial->to);
}

void wb_plan_paint_live(WbRoofPlan *self, cairo_t *cr, const WbPlanPlace *place)
{
    const char *sentence = self->held.refusal != NULL ? self->held.refusal : self->told;
    WbInk ink;
    wb_ink_begin(&ink, GTK_WIDGET(self), cr, place);
    cairo_save(cr); /* the strips of the dimensions stay clear */
    cairo_rectangle(cr, WB_VIEW_LEFT - 8, WB_VIEW_TOP - 8, ink.width,
                    ink.height - WB_VIEW_TOP - WB_VIEW_BOTTOM + 16);
    cairo_clip(cr);
    if (self->trial.panels != NULL && !self->held.off)
        paint_trial(self, &ink);
    if (self->trial.panels != NULL)
        wb_plan_paint_names(self, &ink); /* they lie over it */
    if (self->editable && !self->held.off)
        paint_outline_handles(self, &ink);
    paint_chosen(self, &ink);
    cairo_restore(cr);
    if (sentence != NULL)
        wb_plan_paint_told(self, &ink, sentence);
    wb_ink_end(&ink);
}
