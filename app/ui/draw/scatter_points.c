/* The points of the scatter as one picture in memory. A marker is drawn once for each series, size
 * and strength, and stamped for each point; of points of a series on the same pixel the largest is
 * stamped alone. So the cost is a look at each point and a stamp for each pixel that has one. */
#include "scatter_private.h"

#include <math.h>

#define RADIUS 3.2
#define LEAST_RADIUS 2.0
#define MOST_RADIUS 7.0
/* Sizes told apart. */
#define N_SIZES 8
#define MARGIN 9

double wb_scatter_radius(const WbScatter *self, guint index)
{
    return self->sized ? LEAST_RADIUS + (MOST_RADIUS - LEAST_RADIUS) * self->points[index].size
                       : RADIUS;
}

static int size_step(const WbScatter *self, guint index)
{
    return self->sized ? (int)CLAMP(self->points[index].size * (N_SIZES - 1) + 0.5, 0, N_SIZES - 1)
                       : 0;
}

static cairo_surface_t *new_stamp(guint series, double radius, double half, int scale,
                                  const GdkRGBA *color)
{
    int side = (int)ceil(2 * half);
    cairo_surface_t *stamp = cairo_image_surface_create(CAIRO_FORMAT_ARGB32, side, side);
    cairo_t *cr = cairo_create(stamp);
    cairo_scale(cr, scale, scale);
    gdk_cairo_set_source_rgba(cr, color);
    wb_palette_marker(cr, series, half / scale, half / scale, radius);
    cairo_fill(cr);
    cairo_destroy(cr);
    return stamp;
}

/* Which size, and 1, stands on each pixel; 0: none. */
typedef struct {
    guint8 *at;
    int width, height, scale;
    double left, top; /* of the picture in the widget */
} Sheet;

static guint8 *cell(const Sheet *sheet, double x, double y)
{
    int column = (int)((x - sheet->left) * sheet->scale),
        row = (int)((y - sheet->top) * sheet->scale);
    column = CLAMP(column, 0, sheet->width - 1);
    row = CLAMP(row, 0, sheet->height - 1);
    return &sheet->at[(gsize)row * (gsize)sheet->width + (gsize)column];
}

static void mark_points(const WbScatter *self, const Sheet *sheet, guint series, gboolean front)
{
    for (guint i = 0; i < self->n; i++) {
        const WbScatterPoint *point = &self->points[i];
        double x, y;
        if (point->series != series || !point->front != !front || isnan(point->x + point->y))
            continue;
        wb_scatter_place(self, i, &x, &y);
        guint8 *at = cell(sheet, x, y);
        *at = (guint8)MAX(*at, size_step(self, i) + 1);
    }
}

static void stamp_points(const WbScatter *self, const Sheet *sheet, cairo_t *cr, guint series,
                         gboolean front, const GdkRGBA *color)
{
    cairo_surface_t *stamps[N_SIZES] = {NULL};
    double half = (MOST_RADIUS + 2) * sheet->scale;
    for (int y = 0; y < sheet->height; y++)
        for (int x = 0; x < sheet->width; x++) {
            guint8 *at = &sheet->at[(gsize)y * (gsize)sheet->width + (gsize)x];
            if (*at == 0)
                continue;
            int size = *at - 1;
            double radius = self->sized ? LEAST_RADIUS + (MOST_RADIUS - LEAST_RADIUS) * size /
                                                             (double)(N_SIZES - 1)
                                        : RADIUS;
            if (stamps[size] == NULL)
                stamps[size] =
                    new_stamp(series, front ? radius + 0.6 : radius, half, sheet->scale, color);
            cairo_set_source_surface(cr, stamps[size], x - floor(half), y - floor(half));
            cairo_paint(cr);
            *at = 0;
        }
    for (int s = 0; s < N_SIZES; s++)
        g_clear_pointer(&stamps[s], cairo_surface_destroy);
}

static GdkTexture *to_texture(cairo_surface_t *surface)
{
    cairo_surface_flush(surface);
    int width = cairo_image_surface_get_width(surface),
        height = cairo_image_surface_get_height(surface);
    gsize stride = (gsize)cairo_image_surface_get_stride(surface);
    g_autoptr(GBytes) bytes =
        g_bytes_new(cairo_image_surface_get_data(surface), stride * (gsize)height);
    return gdk_memory_texture_new(width, height, GDK_MEMORY_DEFAULT, bytes, stride);
}

void wb_scatter_paint_points(WbScatter *self, GtkSnapshot *snapshot, const WbPalette *palette)
{
    int scale = gtk_widget_get_scale_factor(GTK_WIDGET(self));
    Sheet sheet = {.scale = scale, .left = self->left - MARGIN, .top = self->top - MARGIN};
    sheet.width = (int)ceil(self->right - self->left + 2 * MARGIN) * scale;
    sheet.height = (int)ceil(self->bottom - self->top + 2 * MARGIN) * scale;
    sheet.at = g_malloc0((gsize)sheet.width * (gsize)sheet.height);
    cairo_surface_t *surface =
        cairo_image_surface_create(CAIRO_FORMAT_ARGB32, sheet.width, sheet.height);
    cairo_t *cr = cairo_create(surface);
    for (int front = 0; front < 2; front++)
        for (guint s = 0; s < WB_N_SERIES; s++) {
            GdkRGBA color = palette->series[s];
            color.alpha = front ? 1 : 0.4F;
            mark_points(self, &sheet, s, front);
            stamp_points(self, &sheet, cr, s, front, &color);
        }
    cairo_destroy(cr);
    g_autoptr(GdkTexture) texture = to_texture(surface);
    gtk_snapshot_append_texture(snapshot, texture,
                                &GRAPHENE_RECT_INIT((float)sheet.left, (float)sheet.top,
                                                    (float)sheet.width / (float)scale,
                                                    (float)sheet.height / (float)scale));
    cairo_surface_destroy(surface);
    g_free(sheet.at);
}
