/* The still picture of a roof: everything but what is chosen or held. It is painted once and kept
 * while nothing of it changes, so that a drag moves one thing over it, whatever stands there. */
#include "roof_ink.h"
#include "roof_plan_private.h"

#include "figures_text.h"
#include "format.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* ---- ground ---- */

static void paint_grid(WbInk *ink, const WbRoof *roof)
{
    int64_t step = wb_roof_view_grid_mm(ink->place.scale);
    cairo_save(ink->cr);
    wb_ink_outline(ink, roof);
    cairo_clip(ink->cr);
    for (int64_t x = step; x < roof->length_mm; x += step)
        if (wb_ink_x(ink, x) >= 0 && wb_ink_x(ink, x) <= ink->width)
            wb_ink_line(ink, wb_ink_x(ink, x), 0, wb_ink_x(ink, x), ink->height,
                        &ink->palette.grid);
    for (int64_t y = step; y < roof->width_mm; y += step)
        if (wb_ink_y(ink, y) >= 0 && wb_ink_y(ink, y) <= ink->height)
            wb_ink_line(ink, 0, wb_ink_y(ink, y), ink->width, wb_ink_y(ink, y), &ink->palette.grid);
    cairo_restore(ink->cr);
}

/* All that is within `m` px of the edge a-b along both axes: a square swept along it. */
static void swept(cairo_t *cr, double ax, double ay, double bx, double by, double m)
{
    double across = (bx - ax) * (by - ay) >= 0 ? 1 : -1; /* the corners that lead the sweep */
    double ex = m, ey = -m * across;
    double turn = (bx - ax) * ey - (by - ay) * ex;
    if (turn > 0) {
        ex = -ex;
        ey = -ey;
    }
    cairo_rectangle(cr, ax - m, ay - m, 2 * m, 2 * m);
    cairo_rectangle(cr, bx - m, by - m, 2 * m, 2 * m);
    cairo_move_to(cr, ax + ex, ay + ey);
    cairo_line_to(cr, bx + ex, by + ey);
    cairo_line_to(cr, bx - ex, by - ey);
    cairo_line_to(cr, ax - ex, ay - ey);
    cairo_close_path(cr);
}

static void margin_path(WbInk *ink, const WbRoof *roof)
{
    const WbCorner frame[] = {
        {0, 0}, {roof->length_mm, 0}, {roof->length_mm, roof->width_mm}, {0, roof->width_mm}};
    const WbCorner *corners = roof->n_corners > 0 ? roof->corners : frame;
    gsize n = roof->n_corners > 0 ? roof->n_corners : G_N_ELEMENTS(frame);
    cairo_new_path(ink->cr);
    for (gsize i = 0; i < n; i++) {
        const WbCorner *a = &corners[i], *b = &corners[(i + 1) % n];
        swept(ink->cr, wb_ink_x(ink, a->x_mm), wb_ink_y(ink, a->y_mm), wb_ink_x(ink, b->x_mm),
              wb_ink_y(ink, b->y_mm), ink->place.scale * (double)roof->margin_mm);
    }
}

/* The margin is tinted; its inner line is what is left of the strokes once their inside is wiped
 * out. */
static void paint_margin(WbInk *ink, const WbRoof *roof)
{
    cairo_t *cr = ink->cr;
    if (roof->margin_mm <= 0)
        return;
    cairo_save(cr);
    wb_ink_outline(ink, roof);
    cairo_clip(cr);
    margin_path(ink, roof);
    wb_ink_fill(ink, &ink->palette.grid, 0.5);
    cairo_push_group(cr);
    wb_ink_stroke(ink, &ink->palette.dim, 2.4, 3);
    margin_path(ink, roof);
    cairo_set_operator(cr, CAIRO_OPERATOR_CLEAR);
    cairo_fill(cr);
    cairo_pop_group_to_source(cr);
    cairo_paint(cr);
    cairo_restore(cr);
}

/* ---- what stands and lies ---- */

static void paint_obstacle(WbRoofPlan *self, WbInk *ink, gsize index)
{
    const WbRect rect = wb_plan_rect(self, (WbPlanThing){WB_PLAN_OBSTACLE, (int)index});
    wb_plan_paint_obstacle(self, ink, (int)index, &rect);
}

static gboolean hidden(const WbRoofPlan *self, WbPlanKind kind, int index)
{
    return self->held.off && wb_plan_same(self->held.thing, (WbPlanThing){kind, index});
}

/* Flat ones first: a vent may stand on a walkway or in the shade. */
static void paint_obstacles(WbRoofPlan *self, WbInk *ink, gboolean flat)
{
    for (gsize i = 0; i < self->roof.n_obstacles; i++)
        if ((self->roof.obstacles[i].kind != WB_OBSTACLE_STANDS) == flat &&
            !hidden(self, WB_PLAN_OBSTACLE, (int)i))
            paint_obstacle(self, ink, i);
}

/* The layout of the roof of before, while a hand changes the roof: where panels lay, which is what
 * it snaps to, and plainly no answer. */
static void paint_former_panels(WbRoofPlan *self, WbInk *ink)
{
    for (guint i = 0; i < self->n_panels; i++) {
        wb_ink_shape(ink, &self->rects[i], FALSE);
        wb_ink_stroke(ink, &ink->palette.dim, 1, 2);
    }
}

static void paint_panels(WbRoofPlan *self, WbInk *ink)
{
    for (guint i = 0; i < self->n_panels; i++)
        if (!hidden(self, WB_PLAN_PANEL, (int)i))
            wb_plan_paint_panel(self, ink, (int)i, &self->rects[i]);
}

/* ---- dimensions ---- */

static double kept_within(double px, double low, double high)
{
    return fmin(fmax(px, low), high);
}

/* The strips for dimensions stay clear of the roof while it is larger than the drawing. */
static void paint_strips(WbInk *ink)
{
    const double strips[][4] = {{0, 0, WB_VIEW_LEFT - 4, ink->height},
                                {0, ink->height - WB_VIEW_BOTTOM + 2, ink->width, WB_VIEW_BOTTOM},
                                {0, 0, ink->width, WB_VIEW_TOP - 3}};
    for (guint i = 0; i < G_N_ELEMENTS(strips); i++) {
        cairo_rectangle(ink->cr, strips[i][0], strips[i][1], strips[i][2], strips[i][3]);
        gdk_cairo_set_source_rgba(ink->cr, &ink->palette.paper);
        cairo_set_operator(ink->cr, CAIRO_OPERATOR_CLEAR);
        cairo_fill(ink->cr);
        cairo_set_operator(ink->cr, CAIRO_OPERATOR_OVER);
    }
}

static void paint_length(WbInk *ink, const WbRoof *roof)
{
    double left = wb_ink_x(ink, 0), right = wb_ink_x(ink, roof->length_mm);
    double bottom = ink->height - WB_VIEW_BOTTOM;
    double y = fmin(wb_ink_y(ink, roof->width_mm), bottom) + 9;
    double from = kept_within(left, WB_VIEW_LEFT - 4, ink->width);
    double to = kept_within(right, WB_VIEW_LEFT - 4, ink->width);
    g_autofree char *length = wb_format_quantity((double)roof->length_mm, 0, "mm");
    wb_ink_line(ink, from, y, to, y, &ink->palette.dim);
    if (from == left)
        wb_ink_line(ink, left, y - 3, left, y + 3, &ink->palette.dim);
    if (to == right)
        wb_ink_line(ink, right, y - 3, right, y + 3, &ink->palette.dim);
    wb_ink_text(ink, length, (from + to) / 2, y + 2, 0.5, 0, &ink->palette.ink);
}

static void paint_width(WbInk *ink, const WbRoof *roof)
{
    double top = wb_ink_y(ink, 0), bottom = wb_ink_y(ink, roof->width_mm);
    double x = fmax(wb_ink_x(ink, 0), WB_VIEW_LEFT) - 9;
    double from = kept_within(top, WB_VIEW_TOP - 3, ink->height - WB_VIEW_BOTTOM);
    double to = kept_within(bottom, WB_VIEW_TOP - 3, ink->height - WB_VIEW_BOTTOM);
    g_autofree char *width = wb_text_number((double)roof->width_mm, 0);
    wb_ink_line(ink, x, from, x, to, &ink->palette.dim);
    if (from == top)
        wb_ink_line(ink, x - 3, top, x + 3, top, &ink->palette.dim);
    if (to == bottom)
        wb_ink_line(ink, x - 3, bottom, x + 3, bottom, &ink->palette.dim);
    wb_ink_text(ink, width, x - 6, (from + to) / 2, 1, 0.5, &ink->palette.ink);
    wb_ink_text(ink, _("Left"), x - 6, (from + to) / 2 - 18, 1, 0.5, &ink->palette.dim);
}

static void paint_front(WbInk *ink, const WbRoof *roof)
{
    double middle = (kept_within(wb_ink_x(ink, 0), WB_VIEW_LEFT, ink->width) +
                     kept_within(wb_ink_x(ink, roof->length_mm), WB_VIEW_LEFT, ink->width)) /
                    2;
    double y = fmax(wb_ink_y(ink, 0), WB_VIEW_TOP) - 4;
    g_autofree char *text =
        isnan(roof->front_azimuth_deg)
            ? g_strdup(_("Front"))
            /* Translators: a compass direction, clockwise from north. */
            : g_strdup_printf(_("Front, towards %.0f°"), roof->front_azimuth_deg);
    int width, height;
    wb_ink_text_size(ink, text, &width, &height);
    wb_ink_text(ink, text, middle + 6, y, 0.5, 1, &ink->palette.dim);
    double x = middle - width / 2.0 - 6;
    cairo_new_path(ink->cr);
    cairo_move_to(ink->cr, x, y - height / 2.0 - 4);
    cairo_rel_line_to(ink->cr, 4, 8);
    cairo_rel_line_to(ink->cr, -8, 0);
    cairo_close_path(ink->cr);
    wb_ink_fill(ink, &ink->palette.dim, 1);
    cairo_new_path(ink->cr);
}

/* ---- the picture ---- */

static void paint(WbRoofPlan *self, WbInk *ink, const WbSceneKey *key)
{
    const WbRoof *roof = &self->roof;
    wb_ink_outline(ink, roof);
    wb_ink_fill(ink, &ink->palette.paper, 1);
    paint_grid(ink, roof);
    paint_margin(ink, roof);
    paint_obstacles(self, ink, TRUE);
    if (key->former)
        paint_former_panels(self, ink);
    else if (!key->trial)
        paint_panels(self, ink);
    paint_obstacles(self, ink, FALSE);
    wb_ink_outline(ink, roof);
    wb_ink_stroke(ink, &ink->palette.ink, 1.5, 0);
    if (roof->has_gland && !hidden(self, WB_PLAN_GLAND, 0))
        wb_plan_paint_gland(ink, roof->gland.x_mm, roof->gland.y_mm);
    if (!key->trial)
        wb_plan_paint_names(self, ink);
    paint_strips(ink);
    paint_length(ink, roof);
    paint_width(ink, roof);
    paint_front(ink, roof);
}

static GdkTexture *picture_of(WbRoofPlan *self, const WbSceneKey *key)
{
    int width = key->width * key->scale_factor, height = key->height * key->scale_factor;
    cairo_surface_t *surface = cairo_image_surface_create(CAIRO_FORMAT_ARGB32, width, height);
    cairo_surface_set_device_scale(surface, key->scale_factor, key->scale_factor);
    cairo_t *cr = cairo_create(surface);
    WbInk ink;
    wb_ink_begin(&ink, GTK_WIDGET(self), cr, &key->place);
    paint(self, &ink, key);
    wb_ink_end(&ink);
    cairo_destroy(cr);
    cairo_surface_flush(surface);
    gsize stride = (gsize)cairo_image_surface_get_stride(surface);
    g_autoptr(GBytes) bytes =
        g_bytes_new_with_free_func(cairo_image_surface_get_data(surface), stride * (gsize)height,
                                   (GDestroyNotify)cairo_surface_destroy, surface);
    return gdk_memory_texture_new(width, height, GDK_MEMORY_DEFAULT, bytes, stride);
}

GdkTexture *wb_plan_scene(WbRoofPlan *self, const WbPlanPlace *place)
{
    WbSceneKey key;
    memset(&key, 0, sizeof key);
    key.serial = self->serial;
    wb_palette_read(GTK_WIDGET(self), &key.palette);
    key.place = *place;
    key.width = gtk_widget_get_width(GTK_WIDGET(self));
    key.height = gtk_widget_get_height(GTK_WIDGET(self));
    key.scale_factor = gtk_widget_get_scale_factor(GTK_WIDGET(self));
    if (self->held.off)
        key.hidden = self->held.thing;
    key.former = self->held.off && self->held.thing.kind != WB_PLAN_PANEL &&
                 self->held.thing.kind != WB_PLAN_GLAND;
    key.trial = self->trial.panels != NULL;
    if (self->scene == NULL || memcmp(&key, &self->scene_key, sizeof key) != 0) {
        g_clear_object(&self->scene);
        self->scene = picture_of(self, &key);
        memcpy(&self->scene_key, &key, sizeof key);
    }
    return self->scene;
}
