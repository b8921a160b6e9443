#include "roof_ink.h"
#include "pen.h"

#include <math.h>

void wb_ink_begin(WbInk *ink, GtkWidget *widget, cairo_t *cr, const WbPlanPlace *place)
{
    ink->cr = cr;
    ink->place = *place;
    ink->width = gtk_widget_get_width(widget);
    ink->height = gtk_widget_get_height(widget);
    wb_palette_read(widget, &ink->palette);
    ink->layout = wb_pen_layout_new(widget);
}

void wb_ink_end(WbInk *ink)
{
    g_clear_object(&ink->layout);
}

double wb_ink_x(const WbInk *ink, int64_t mm)
{
    return ink->place.x + ink->place.scale * (double)mm;
}

double wb_ink_y(const WbInk *ink, int64_t mm)
{
    return ink->place.y + ink->place.scale * (double)mm;
}

WbRect wb_rect_grown(const WbRect *rect, int64_t by_mm)
{
    return (WbRect){rect->x_mm - by_mm, rect->y_mm - by_mm, rect->length_mm + 2 * by_mm,
                    rect->width_mm + 2 * by_mm};
}

gboolean wb_ink_in_sight(const WbInk *ink, const WbRect *rect)
{
    return wb_ink_x(ink, rect->x_mm) < ink->width && wb_ink_y(ink, rect->y_mm) < ink->height &&
           wb_ink_x(ink, rect->x_mm + rect->length_mm) > 0 &&
           wb_ink_y(ink, rect->y_mm + rect->width_mm) > 0;
}

/* ---- paths ---- */

/* Hairlines run through the middle of pixels. */
static double crisp(double px)
{
    return floor(px) + 0.5;
}

void wb_ink_outline(WbInk *ink, const WbRoof *roof)
{
    const WbRect frame = {0, 0, roof->length_mm, roof->width_mm};
    if (roof->n_corners == 0) {
        wb_ink_shape(ink, &frame, FALSE);
        return;
    }
    cairo_new_path(ink->cr);
    for (gsize i = 0; i < roof->n_corners; i++)
        cairo_line_to(ink->cr, crisp(wb_ink_x(ink, roof->corners[i].x_mm)),
                      crisp(wb_ink_y(ink, roof->corners[i].y_mm)));
    cairo_close_path(ink->cr);
}

void wb_ink_shape(WbInk *ink, const WbRect *rect, gboolean round)
{
    double x = crisp(wb_ink_x(ink, rect->x_mm)), y = crisp(wb_ink_y(ink, rect->y_mm));
    double right = crisp(wb_ink_x(ink, rect->x_mm + rect->length_mm));
    double bottom = crisp(wb_ink_y(ink, rect->y_mm + rect->width_mm));
    cairo_new_path(ink->cr);
    if (round)
        cairo_arc(ink->cr, (x + right) / 2, (y + bottom) / 2, fmax(right - x, 2) / 2, 0, 2 * G_PI);
    else
        cairo_rectangle(ink->cr, x, y, fmax(right - x, 1), fmax(bottom - y, 1));
}

void wb_ink_clearance(WbInk *ink, const WbRect *rect, int64_t clearance_mm, gboolean round)
{
    double by = ink->place.scale * (double)clearance_mm;
    double x = wb_ink_x(ink, rect->x_mm), y = wb_ink_y(ink, rect->y_mm);
    double r = ink->place.scale * (double)rect->length_mm / 2;
    if (!round) {
        WbRect grown = wb_rect_grown(rect, clearance_mm);
        wb_ink_shape(ink, &grown, FALSE);
        return;
    }
    for (int quarter = 0; quarter < 4; quarter++) { /* right back, left back, left front, ... */
        double side = quarter == 0 || quarter == 3 ? by : -by, end = quarter < 2 ? by : -by;
        cairo_arc(ink->cr, x + r + side, y + r + end, r, quarter * G_PI_2, (quarter + 1) * G_PI_2);
    }
    cairo_close_path(ink->cr);
}

void wb_ink_fill(WbInk *ink, const GdkRGBA *color, double alpha)
{
    cairo_set_source_rgba(ink->cr, color->red, color->green, color->blue, color->alpha * alpha);
    cairo_fill_preserve(ink->cr);
}

void wb_ink_hatch(WbInk *ink, const GdkRGBA *color, double step, gboolean falling)
{
    double x1, y1, x2, y2;
    cairo_t *cr = ink->cr;
    cairo_path_t *path = cairo_copy_path(cr);
    cairo_save(cr);
    cairo_clip(cr);
    cairo_clip_extents(cr, &x1, &y1, &x2, &y2);
    double height = y2 - y1;
    /* Lines stay where they are on the roof while it is panned. */
    double phase = ink->place.x + (falling ? -ink->place.y : ink->place.y);
    double first = falling ? x1 - height - y1 : x1 + y1;
    double last = falling ? x2 - y1 : x2 + y2;
    for (double c = phase + floor((first - height - phase) / step) * step; c < last + height;
         c += step) {
        cairo_move_to(cr, falling ? c + y1 : c - y1, y1);
        cairo_line_to(cr, falling ? c + y2 : c - y2, y2);
    }
    wb_ink_stroke(ink, color, 1, 0);
    cairo_restore(cr);
    cairo_new_path(cr);
    cairo_append_path(cr, path);
    cairo_path_destroy(path);
}

void wb_ink_stroke(WbInk *ink, const GdkRGBA *color, double width, double dash)
{
    gdk_cairo_set_source_rgba(ink->cr, color);
    cairo_set_line_width(ink->cr, width);
    cairo_set_dash(ink->cr, &dash, dash > 0 ? 1 : 0, 0);
    cairo_stroke(ink->cr);
    cairo_set_dash(ink->cr, NULL, 0, 0);
}

void wb_ink_line(WbInk *ink, double x1, double y1, double x2, double y2, const GdkRGBA *color)
{
    cairo_new_path(ink->cr);
    cairo_move_to(ink->cr, crisp(x1), crisp(y1));
    cairo_line_to(ink->cr, crisp(x2), crisp(y2));
    wb_ink_stroke(ink, color, 1, 0);
}

/* ---- text ---- */

static void show(WbInk *ink, double x, double y, const GdkRGBA *color)
{
    gdk_cairo_set_source_rgba(ink->cr, color);
    cairo_move_to(ink->cr, round(x), round(y));
    pango_cairo_show_layout(ink->cr, ink->layout);
    cairo_new_path(ink->cr);
}

void wb_ink_text_size(WbInk *ink, const char *text, int *width, int *height)
{
    pango_layout_set_text(ink->layout, text, -1);
    pango_layout_get_pixel_size(ink->layout, width, height);
}

void wb_ink_text(WbInk *ink, const char *text, double x, double y, double x_align, double y_align,
                 const GdkRGBA *color)
{
    int width, height;
    wb_ink_text_size(ink, text, &width, &height);
    show(ink, x - x_align * width, y - y_align * height, color);
}

static void card(WbInk *ink, double x, double y, double width, double height)
{
    cairo_rectangle(ink->cr, round(x), round(y), ceil(width), ceil(height));
    gdk_cairo_set_source_rgba(ink->cr, &ink->palette.paper);
    cairo_fill(ink->cr);
}

void wb_ink_label(WbInk *ink, const char *text, double x, double y, double x_align, double y_align,
                  const GdkRGBA *color)
{
    int width, height;
    wb_ink_text_size(ink, text, &width, &height);
    if (x < 0 || y < 0 || x > ink->width || y > ink->height)
        return; /* what it belongs to is out of sight */
    double left = fmax(fmin(x - x_align * (width + 6), ink->width - width - 6), 0);
    double top = fmax(fmin(y - y_align * height, ink->height - height), 0);
    card(ink, left, top, width + 6, height);
    show(ink, left + 3, top, color);
}

static void wrap(WbInk *ink, const char *text, double width, double height)
{
    pango_layout_set_width(ink->layout, (int)((width - 6) * PANGO_SCALE));
    pango_layout_set_height(ink->layout, (int)(height * PANGO_SCALE));
    pango_layout_set_ellipsize(ink->layout, PANGO_ELLIPSIZE_END);
    pango_layout_set_alignment(ink->layout, PANGO_ALIGN_CENTER);
    pango_layout_set_text(ink->layout, text, -1);
}

static void unwrap(WbInk *ink)
{
    pango_layout_set_alignment(ink->layout, PANGO_ALIGN_LEFT);
    pango_layout_set_ellipsize(ink->layout, PANGO_ELLIPSIZE_NONE);
    pango_layout_set_height(ink->layout, -1);
    pango_layout_set_width(ink->layout, -1);
}

#define LEAST_WIDTH 30 /* px of a box with text in it */
#define LEAST_HEIGHT 10

gboolean wb_ink_holds(WbInk *ink, const char *text, double width, double height)
{
    int across, down;
    if (width < LEAST_WIDTH || height < LEAST_HEIGHT)
        return FALSE;
    wrap(ink, text, width, height);
    pango_layout_get_pixel_size(ink->layout, &across, &down);
    gboolean holds = !pango_layout_is_ellipsized(ink->layout) && across <= width && down <= height;
    unwrap(ink);
    return holds;
}

gboolean wb_ink_label_within(WbInk *ink, const char *text, double x, double y, double width,
                             double height)
{
    PangoRectangle ink_box, box;
    if (width < LEAST_WIDTH || height < LEAST_HEIGHT)
        return FALSE;
    wrap(ink, text, width, height);
    pango_layout_get_pixel_extents(ink->layout, &ink_box, &box);
    double left = x + (width - box.width) / 2, top = y + (height - box.height) / 2;
    show(ink, left - box.x, top, &ink->palette.ink);
    unwrap(ink);
    return TRUE;
}

gboolean wb_ink_text_upright(WbInk *ink, const char *text, double x, double y, double width,
                             double height)
{
    int across, down;
    wb_ink_text_size(ink, text, &across, &down);
    if (across + 4 > height || down > width)
        return FALSE;
    cairo_save(ink->cr);
    cairo_translate(ink->cr, round(x + (width - down) / 2), round(y + (height + across) / 2));
    cairo_rotate(ink->cr, -G_PI_2);
    show(ink, 0, 0, &ink->palette.ink);
    cairo_restore(ink->cr);
    return TRUE;
}
