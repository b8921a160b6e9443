#include "pen.h"

#include "figures_text.h"
#include <math.h>

PangoLayout *wb_pen_layout_new(GtkWidget *widget)
{
    PangoLayout *layout = gtk_widget_create_pango_layout(widget, NULL);
    PangoAttrList *attributes = pango_attr_list_new();
    pango_attr_list_insert(attributes, pango_attr_scale_new(0.85));
    pango_attr_list_insert(attributes, pango_attr_font_features_new("tnum=1"));
    pango_layout_set_attributes(layout, attributes);
    pango_attr_list_unref(attributes);
    return layout;
}

void wb_pen_begin(WbPen *pen, GtkWidget *widget, GtkSnapshot *snapshot)
{
    pen->widget = widget;
    pen->snapshot = snapshot;
    wb_palette_read(widget, &pen->palette);
    pen->layout = wb_pen_layout_new(widget);
}

void wb_pen_end(WbPen *pen)
{
    g_clear_object(&pen->layout);
}

static void append_layout(WbPen *pen, double x, double y, double x_align, double y_align,
                          const GdkRGBA *color)
{
    int width, height;
    pango_layout_get_pixel_size(pen->layout, &width, &height);
    gtk_snapshot_save(pen->snapshot);
    gtk_snapshot_translate(pen->snapshot, &GRAPHENE_POINT_INIT((float)round(x - x_align * width),
                                                               (float)round(y - y_align * height)));
    gtk_snapshot_append_layout(pen->snapshot, pen->layout, color);
    gtk_snapshot_restore(pen->snapshot);
}

void wb_pen_text(WbPen *pen, const char *text, double x, double y, double x_align, double y_align,
                 const GdkRGBA *color)
{
    pango_layout_set_text(pen->layout, text, -1);
    append_layout(pen, x, y, x_align, y_align, color);
}

void wb_pen_text_bold(WbPen *pen, const char *text, double x, double y, double x_align,
                      double y_align, const GdkRGBA *color)
{
    PangoAttrList *plain = pango_attr_list_ref(pango_layout_get_attributes(pen->layout));
    PangoAttrList *bold = pango_attr_list_copy(plain);
    pango_attr_list_insert(bold, pango_attr_weight_new(PANGO_WEIGHT_BOLD));
    pango_layout_set_attributes(pen->layout, bold);
    wb_pen_text(pen, text, x, y, x_align, y_align, color);
    pango_layout_set_attributes(pen->layout, plain);
    pango_attr_list_unref(bold);
    pango_attr_list_unref(plain);
}

void wb_pen_text_within(WbPen *pen, const char *text, double x, double y, double width,
                        const GdkRGBA *color)
{
    pango_layout_set_width(pen->layout, (int)(width * PANGO_SCALE));
    pango_layout_set_ellipsize(pen->layout, PANGO_ELLIPSIZE_END);
    wb_pen_text(pen, text, x, y, 0, 0.5, color);
    pango_layout_set_ellipsize(pen->layout, PANGO_ELLIPSIZE_NONE);
    pango_layout_set_width(pen->layout, -1);
}

void wb_pen_text_size(WbPen *pen, const char *text, int *width, int *height)
{
    pango_layout_set_text(pen->layout, text, -1);
    pango_layout_get_pixel_size(pen->layout, width, height);
}

void wb_pen_box(WbPen *pen, double x, double y, double width, double height, const GdkRGBA *color)
{
    if (width <= 0 || height <= 0)
        return;
    gtk_snapshot_append_color(pen->snapshot, color,
                              &GRAPHENE_RECT_INIT((float)x, (float)y, (float)width, (float)height));
}

void wb_pen_frame(WbPen *pen, double x, double y, double width, double height, const GdkRGBA *color)
{
    GskRoundedRect outline;
    gsk_rounded_rect_init_from_rect(
        &outline, &GRAPHENE_RECT_INIT((float)x, (float)y, (float)width, (float)height), 0);
    const GdkRGBA colors[4] = {*color, *color, *color, *color};
    gtk_snapshot_append_border(pen->snapshot, &outline, (const float[4]){1, 1, 1, 1}, colors);
}

void wb_pen_across(WbPen *pen, double x1, double x2, double y, const GdkRGBA *color)
{
    wb_pen_box(pen, x1, round(y), x2 - x1, 1, color);
}

void wb_pen_down(WbPen *pen, double x, double y1, double y2, const GdkRGBA *color)
{
    wb_pen_box(pen, round(x), y1, 1, y2 - y1, color);
}

double wb_pen_key(WbPen *pen, const char *text, double x, double y, WbKey key, const GdkRGBA *color)
{
    int width, height;
    wb_pen_text_size(pen, text, &width, &height);
    wb_pen_text(pen, text, x, y, 1, 0, &pen->palette.ink);
    double left = x - width - 15, middle = round(y + height / 2.0);
    if (key == WB_KEY_LINE)
        wb_pen_box(pen, left, middle - 1, 10, 2, color);
    else if (key == WB_KEY_BOX)
        wb_pen_box(pen, left, middle - 5, 10, 10, color);
    else
        wb_pen_frame(pen, left, middle - 5, 10, 10, color);
    return left - 12;
}

void wb_pen_card(WbPen *pen, const char *text, double x, double y)
{
    int width, height, across = gtk_widget_get_width(pen->widget),
                       down = gtk_widget_get_height(pen->widget);
    wb_pen_text_size(pen, text, &width, &height);
    double left = x + 12 + width + 12 > across ? x - 24 - width : x + 12;
    double top = CLAMP(y - height / 2.0 - 6, 0, MAX(0, down - height - 12));
    left = round(CLAMP(left, 0, MAX(0, across - width - 12)));
    top = round(top);
    wb_pen_box(pen, left, top, width + 12, height + 12, &pen->palette.paper);
    wb_pen_frame(pen, left, top, width + 12, height + 12, &pen->palette.dim);
    wb_pen_text(pen, text, left + 6, top + 6, 0, 0, &pen->palette.ink);
}

void wb_pen_empty(WbPen *pen, const char *text)
{
    int width = gtk_widget_get_width(pen->widget);
    pango_layout_set_width(pen->layout, MAX(width - 24, 24) * PANGO_SCALE);
    pango_layout_set_alignment(pen->layout, PANGO_ALIGN_CENTER);
    wb_pen_text(pen, text, 12, gtk_widget_get_height(pen->widget) / 2.0, 0, 0.5, &pen->palette.dim);
    pango_layout_set_alignment(pen->layout, PANGO_ALIGN_LEFT);
    pango_layout_set_width(pen->layout, -1);
}

int wb_pen_axis_width(WbPen *pen, const WbAxis *axis)
{
    int widest = 0;
    for (int i = 0; i < wb_axis_ticks(axis); i++) {
        g_autofree char *text = wb_text_number(wb_axis_tick(axis, i), axis->decimals);
        int width, height;
        wb_pen_text_size(pen, text, &width, &height);
        widest = MAX(widest, width);
    }
    return widest;
}

void wb_pen_upright_axis(WbPen *pen, const WbAxis *axis, double left, double right, double top,
                         double bottom)
{
    for (int i = 0; i < wb_axis_ticks(axis); i++) {
        double value = wb_axis_tick(axis, i);
        double y = wb_axis_at(axis, value, bottom, top);
        g_autofree char *text = wb_text_number(value, axis->decimals);
        wb_pen_across(pen, left, right, y, &pen->palette.grid);
        wb_pen_text(pen, text, left - 6, y, 1, 0.5, &pen->palette.dim);
    }
}

void wb_pen_describe(GtkWidget *widget, const char *label, const char *description)
{
    gtk_accessible_update_property(GTK_ACCESSIBLE(widget), GTK_ACCESSIBLE_PROPERTY_LABEL, label,
                                   GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, description, -1);
}
