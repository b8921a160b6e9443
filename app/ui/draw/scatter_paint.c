/* The picture of the scatter. Axes, grid and points are painted once into a render node and kept;
 * moving the pointer only adds the card and the rings. */
#include "scatter_private.h"

#include "figures_text.h"
#include "pen.h"
#include <glib/gi18n-lib.h>
#include <math.h>

void wb_scatter_place(const WbScatter *self, guint index, double *x, double *y)
{
    *x = wb_axis_at(&self->x, self->points[index].x, self->left, self->right);
    *y = wb_axis_at(&self->y, self->points[index].y, self->bottom, self->top);
}

static void fit_axes(WbScatter *self, int width, int height)
{
    double low[2] = {INFINITY, INFINITY}, high[2] = {-INFINITY, -INFINITY};
    for (guint i = 0; i < self->n; i++) {
        const double value[2] = {self->points[i].x, self->points[i].y};
        if (isnan(value[0]) || isnan(value[1]))
            continue;
        for (int a = 0; a < 2; a++) {
            low[a] = fmin(low[a], value[a]);
            high[a] = fmax(high[a], value[a]);
        }
    }
    self->x = wb_axis_fit(low[0], high[0], CLAMP(width / 90, 2, 8));
    self->y = wb_axis_fit(low[1], high[1], CLAMP(height / 45, 2, 6));
}

static const char *label_text(const char *label)
{
    return label != NULL ? label : "";
}

static const char *line_text(void)
{
    return _("best in these two");
}

/* Width of the legend; 0 without points. */
static double legend_width(WbScatter *self, WbPen *pen)
{
    int width, height;
    wb_pen_text_size(pen, line_text(), &width, &height);
    double sum = 30 + width;
    for (guint s = 0; s < WB_N_SERIES; s++) {
        if (self->series_name[s] == NULL)
            continue;
        wb_pen_text_size(pen, self->series_name[s], &width, &height);
        sum += 16 + width + 14;
    }
    return sum;
}

static void paint_axes(WbScatter *self, WbPen *pen)
{
    const WbPalette *palette = &pen->palette;
    wb_pen_upright_axis(pen, &self->y, self->left, self->right, self->top, self->bottom);
    for (int i = 0; i < wb_axis_ticks(&self->x); i++) {
        double value = wb_axis_tick(&self->x, i);
        double x = wb_axis_at(&self->x, value, self->left, self->right);
        g_autofree char *text = wb_text_number(value, self->x.decimals);
        wb_pen_down(pen, x, self->top, self->bottom, &palette->grid);
        wb_pen_text(pen, text, x, self->bottom + 4, 0.5, 0, &palette->dim);
    }
    wb_pen_across(pen, self->left, self->right, self->bottom, &palette->dim);
    wb_pen_text(pen, label_text(self->y_label), 0, 0, 0, 0, &palette->ink);
    wb_pen_text(pen, label_text(self->x_label), self->right, self->bottom + 20, 1, 0,
                &palette->ink);
}

/* Markers with their names from the left at height `y`, then the line. */
static void paint_legend(WbScatter *self, WbPen *pen, double y)
{
    /* In a narrow window from the very edge and closer together. */
    gboolean tight = self->left + legend_width(self, pen) > gtk_widget_get_width(pen->widget);
    double x = tight ? 0 : self->left, gap = tight ? 4 : 14;
    for (guint s = 0; s < WB_N_SERIES; s++) {
        int width, height;
        if (self->series_name[s] == NULL)
            continue;
        cairo_t *cr = gtk_snapshot_append_cairo(
            pen->snapshot, &GRAPHENE_RECT_INIT((float)x, (float)y - 6, 12, 12));
        gdk_cairo_set_source_rgba(cr, &pen->palette.series[s]);
        wb_palette_marker(cr, s, x + 6, y, 4);
        cairo_fill(cr);
        cairo_destroy(cr);
        wb_pen_text(pen, self->series_name[s], x + 16, y, 0, 0.5, &pen->palette.dim);
        wb_pen_text_size(pen, self->series_name[s], &width, &height);
        x += 16 + width + gap;
    }
    int width, height;
    wb_pen_text_size(pen, line_text(), &width, &height);
    if (x + 24 + width > gtk_widget_get_width(pen->widget))
        return;
    wb_pen_box(pen, x, y - 1, 18, 2, &pen->palette.dim);
    wb_pen_text(pen, line_text(), x + 24, y, 0, 0.5, &pen->palette.dim);
}

static void paint_line(WbScatter *self, cairo_t *cr, const WbPalette *palette)
{
    for (guint i = 0; i < self->n_line; i++) {
        double x, y;
        wb_scatter_place(self, self->line[i], &x, &y);
        if (i == 0)
            cairo_move_to(cr, x, y);
        else
            cairo_line_to(cr, x, y);
    }
    cairo_set_line_width(cr, 1.5);
    cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
    gdk_cairo_set_source_rgba(cr, &palette->dim);
    cairo_stroke(cr);
}

static GskRenderNode *paint_base(WbScatter *self, int width, int height)
{
    GtkSnapshot *snapshot = gtk_snapshot_new();
    WbPen pen;
    wb_pen_begin(&pen, GTK_WIDGET(self), snapshot);
    fit_axes(self, width, height);
    self->left = wb_pen_axis_width(&pen, &self->y) + 10;
    self->right = MAX(width - 20, self->left + 10);
    /* The legend shares the line of the label across where both have room. */
    int label, line;
    wb_pen_text_size(&pen, label_text(self->x_label), &label, &line);
    gboolean shared = legend_width(self, &pen) + 24 + label < self->right - self->left;
    self->top = 26;
    self->bottom = MAX(height - (shared ? 40 : 58), self->top + 10);
    paint_axes(self, &pen);
    paint_legend(self, &pen, self->bottom + (shared ? 28 : 46));
    cairo_t *cr = gtk_snapshot_append_cairo(
        snapshot, &GRAPHENE_RECT_INIT((float)self->left - 6, (float)self->top - 6,
                                      (float)(self->right - self->left) + 12,
                                      (float)(self->bottom - self->top) + 12));
    paint_line(self, cr, &pen.palette);
    cairo_destroy(cr);
    wb_scatter_paint_points(self, snapshot, &pen.palette);
    wb_pen_end(&pen);
    return gtk_snapshot_free_to_node(snapshot);
}

static void paint_ring(WbScatter *self, WbPen *pen, int index, const GdkRGBA *color, double radius)
{
    double x, y;
    if (index < 0 || (guint)index >= self->n ||
        isnan(self->points[index].x + self->points[index].y))
        return;
    wb_scatter_place(self, (guint)index, &x, &y);
    float half = (float)radius + 3;
    cairo_t *cr = gtk_snapshot_append_cairo(
        pen->snapshot, &GRAPHENE_RECT_INIT((float)x - half, (float)y - half, 2 * half, 2 * half));
    guint series = self->points[index].series;
    gdk_cairo_set_source_rgba(cr, &pen->palette.series[series]);
    wb_palette_marker(cr, series, x, y, wb_scatter_radius(self, (guint)index) + 1.5);
    cairo_fill(cr);
    cairo_arc(cr, x, y, radius, 0, 2 * G_PI);
    cairo_set_line_width(cr, 2);
    gdk_cairo_set_source_rgba(cr, color);
    cairo_stroke(cr);
    cairo_destroy(cr);
}

/* The rectangle, and a veil over what is outside of it. */
static void paint_brush(WbScatter *self, WbPen *pen)
{
    if (!self->brushed)
        return;
    double x1 = wb_axis_at(&self->x, self->brush.x_low, self->left, self->right);
    double x2 = wb_axis_at(&self->x, self->brush.x_high, self->left, self->right);
    double y1 = wb_axis_at(&self->y, self->brush.y_high, self->bottom, self->top);
    double y2 = wb_axis_at(&self->y, self->brush.y_low, self->bottom, self->top);
    double left = self->left - 8, right = self->right + 8;
    double top = self->top - 8, bottom = self->bottom - 1;
    x1 = CLAMP(x1 - 3, left, right), x2 = CLAMP(x2 + 3, left, right);
    y1 = CLAMP(y1 - 3, top, bottom), y2 = CLAMP(y2 + 3, top, bottom);
    GdkRGBA veil = pen->palette.paper;
    veil.alpha = 0.7F;
    wb_pen_box(pen, left, top, right - left, y1 - top, &veil);
    wb_pen_box(pen, left, y2, right - left, bottom - y2, &veil);
    wb_pen_box(pen, left, y1, x1 - left, y2 - y1, &veil);
    wb_pen_box(pen, x2, y1, right - x2, y2 - y1, &veil);
    wb_pen_frame(pen, x1, y1, x2 - x1, y2 - y1, &pen->palette.accent);
}

static void paint_card(WbScatter *self, WbPen *pen)
{
    double x, y;
    if (self->shown < 0 || self->text == NULL)
        return;
    g_autofree char *text = self->text((guint)self->shown, self->text_data);
    wb_scatter_place(self, (guint)self->shown, &x, &y);
    wb_pen_card(pen, text, x, y);
}

void wb_scatter_paint(WbScatter *self, GtkSnapshot *snapshot)
{
    GtkWidget *widget = GTK_WIDGET(self);
    WbPen pen;
    wb_pen_begin(&pen, widget, snapshot);
    if (self->n == 0) {
        wb_pen_empty(&pen, _("Kits that work appear here as points."));
    } else {
        if (self->base == NULL)
            self->base =
                paint_base(self, gtk_widget_get_width(widget), gtk_widget_get_height(widget));
        gtk_snapshot_push_opacity(snapshot, self->stale ? 0.55 : 1);
        gtk_snapshot_append_node(snapshot, self->base);
        paint_brush(self, &pen);
        paint_ring(self, &pen, self->chosen, &pen.palette.accent, 8);
        gtk_snapshot_pop(snapshot);
        paint_ring(self, &pen, self->shown, &pen.palette.ink, 6);
        paint_card(self, &pen);
    }
    wb_pen_end(&pen);
}
