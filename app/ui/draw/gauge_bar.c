#include "gauge_bar.h"

#include "pen.h"
#include <math.h>

#define BAR 4

struct _WbGaugeBar {
    GtkWidget parent_instance;
    char *title, *words;
    double value, limit;
    gboolean at_most, mild;
};

G_DEFINE_FINAL_TYPE(WbGaugeBar, wb_gauge_bar, GTK_TYPE_WIDGET)

static gboolean is_over(const WbGaugeBar *self)
{
    return self->at_most ? self->value > self->limit : self->value < self->limit;
}

/* The tick stands at three quarters of the width, unless the figure needs more room. */
static double full_scale(const WbGaugeBar *self)
{
    double most = isnan(self->limit) ? self->value : self->limit / 0.75;
    return fmax(most, self->value);
}

static void wb_gauge_bar_snapshot(GtkWidget *widget, GtkSnapshot *snapshot)
{
    WbGaugeBar *self = WB_GAUGE_BAR(widget);
    int width = gtk_widget_get_width(widget), height = gtk_widget_get_height(widget);
    double scale = full_scale(self), y = height - BAR - 3;
    WbPen pen;
    wb_pen_begin(&pen, widget, snapshot);
    const GdkRGBA *over = self->mild ? &pen.palette.warm : &pen.palette.over;
    const GdkRGBA *color = is_over(self) ? over : &pen.palette.accent;
    int title_width, text_height;
    wb_pen_text_size(&pen, self->title, &title_width, &text_height);
    wb_pen_text(&pen, self->title, 0, y - 3, 0, 1, &pen.palette.dim);
    int gap = title_width > 0 ? 8 : 0;
    wb_pen_text_within(&pen, self->words, title_width + gap, y - 3 - text_height / 2.0,
                       MAX(width - title_width - gap, 1), is_over(self) ? over : &pen.palette.ink);
    wb_pen_box(&pen, 0, y, width, BAR, &pen.palette.grid);
    if (scale > 0 && !isnan(self->value))
        wb_pen_box(&pen, 0, y, round(width * fmax(self->value, 0) / scale), BAR, color);
    if (scale > 0 && !isnan(self->limit))
        wb_pen_box(&pen, fmin(round(width * self->limit / scale), width - 2), y - 3, 2, BAR + 6,
                   &pen.palette.ink);
    wb_pen_end(&pen);
}

static void wb_gauge_bar_measure(GtkWidget *widget, GtkOrientation orientation, int for_size,
                                 int *minimum, int *natural, int *minimum_baseline,
                                 int *natural_baseline)
{
    WbGaugeBar *self = WB_GAUGE_BAR(widget);
    PangoLayout *layout = gtk_widget_create_pango_layout(widget, NULL);
    g_autofree char *text = g_strconcat(self->title, "  ", self->words, NULL);
    pango_layout_set_text(layout, text, -1);
    int width, height;
    pango_layout_get_pixel_size(layout, &width, &height);
    g_object_unref(layout);
    if (orientation == GTK_ORIENTATION_HORIZONTAL)
        *minimum = 96, *natural = MAX(width, 150);
    else
        *minimum = *natural = height + BAR + 6;
}

static void wb_gauge_bar_finalize(GObject *object)
{
    WbGaugeBar *self = WB_GAUGE_BAR(object);
    g_free(self->title);
    g_free(self->words);
    G_OBJECT_CLASS(wb_gauge_bar_parent_class)->finalize(object);
}

static void wb_gauge_bar_class_init(WbGaugeBarClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->finalize = wb_gauge_bar_finalize;
    widget->snapshot = wb_gauge_bar_snapshot;
    widget->measure = wb_gauge_bar_measure;
    gtk_widget_class_set_css_name(widget, "gaugebar");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_IMG);
}

static void wb_gauge_bar_init(WbGaugeBar *self)
{
    self->title = g_strdup("");
    self->words = g_strdup("");
    self->value = self->limit = NAN;
}

GtkWidget *wb_gauge_bar_new(void)
{
    return g_object_new(WB_TYPE_GAUGE_BAR, NULL);
}

void wb_gauge_bar_set(WbGaugeBar *self, const char *title, const char *words, double value,
                      double limit, gboolean at_most)
{
    g_return_if_fail(WB_IS_GAUGE_BAR(self));
    g_free(self->title);
    g_free(self->words);
    self->title = g_strdup(title);
    self->words = g_strdup(words);
    self->value = value;
    self->limit = limit;
    self->at_most = at_most;
    wb_pen_describe(GTK_WIDGET(self), title[0] != '\0' ? title : words, words);
    gtk_widget_set_tooltip_text(GTK_WIDGET(self), words);
    gtk_widget_queue_resize(GTK_WIDGET(self));
}

void wb_gauge_bar_set_mild(WbGaugeBar *self, gboolean mild)
{
    g_return_if_fail(WB_IS_GAUGE_BAR(self));
    self->mild = mild;
    gtk_widget_queue_draw(GTK_WIDGET(self));
}
