/* The one file that asks GtkStyleContext: both calls are deprecated from GTK 4.10 on. */
#include "palette.h"

static void look_up(GtkStyleContext *style, const char *name, GdkRGBA *color)
{
    if (!gtk_style_context_lookup_color(style, name, color))
        gtk_style_context_get_color(style, color);
}

static GdkRGBA blend(const GdkRGBA *from, const GdkRGBA *to, float share)
{
    return (GdkRGBA){from->red + (to->red - from->red) * share,
                     from->green + (to->green - from->green) * share,
                     from->blue + (to->blue - from->blue) * share, 1};
}

void wb_palette_read(GtkWidget *widget, WbPalette *palette)
{
    GtkStyleContext *style = gtk_widget_get_style_context(widget);
    gtk_style_context_get_color(style, &palette->ink);
    look_up(style, "wb_paper", &palette->paper);
    look_up(style, "wb_accent", &palette->accent);
    look_up(style, "wb_warm", &palette->warm);
    look_up(style, "wb_over", &palette->over);
    GdkRGBA step;
    look_up(style, "wb_dim", &palette->dim);
    look_up(style, "wb_grid", &step);
    palette->grid = blend(&palette->paper, &step, step.alpha);
    for (guint i = 0; i < WB_N_SERIES; i++) {
        char name[16];
        g_snprintf(name, sizeof name, "wb_series_%u", i);
        look_up(style, name, &palette->series[i]);
    }
}

guint wb_palette_series(const char *chemistry)
{
    static const char *const known[] = {"flooded", "agm", "gel", "lfp"};
    for (guint i = 0; i < G_N_ELEMENTS(known); i++)
        if (g_strcmp0(chemistry, known[i]) == 0)
            return i;
    return WB_N_SERIES - 1;
}

/* Square, triangle, diamond, circle, cross: the same area to the eye. */
void wb_palette_marker(cairo_t *cr, guint series, double x, double y, double radius)
{
    double r = radius;
    switch (series) {
    case 0:
        cairo_rectangle(cr, x - 0.85 * r, y - 0.85 * r, 1.7 * r, 1.7 * r);
        break;
    case 1:
        cairo_move_to(cr, x, y - 1.15 * r);
        cairo_line_to(cr, x + 1.1 * r, y + 0.85 * r);
        cairo_line_to(cr, x - 1.1 * r, y + 0.85 * r);
        cairo_close_path(cr);
        break;
    case 2:
        cairo_move_to(cr, x, y - 1.25 * r);
        cairo_line_to(cr, x + 1.25 * r, y);
        cairo_line_to(cr, x, y + 1.25 * r);
        cairo_line_to(cr, x - 1.25 * r, y);
        cairo_close_path(cr);
        break;
    case 3:
        cairo_new_sub_path(cr);
        cairo_arc(cr, x, y, r, 0, 2 * G_PI);
        break;
    default:
        cairo_rectangle(cr, x - 1.15 * r, y - 0.4 * r, 2.3 * r, 0.8 * r);
        cairo_rectangle(cr, x - 0.4 * r, y - 1.15 * r, 0.8 * r, 0.75 * r);
        cairo_rectangle(cr, x - 0.4 * r, y + 0.4 * r, 0.8 * r, 0.75 * r);
        break;
    }
}
