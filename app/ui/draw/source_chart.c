#include "source_chart.h"

#include "column_cursor.h"
#include "figures_text.h"
#include "format.h"
#include "pen.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define TOP 26.0
#define UNDER 22.0
#define LEAST_WH 0.5 /* a day: what rounds to nothing is not marked */

struct _WbSourceChart {
    GtkWidget parent_instance;
    WbYearMonth month[WB_MONTHS];
    guint32 used;
    WbColumnCursor cursor;
};

G_DEFINE_FINAL_TYPE(WbSourceChart, wb_source_chart, GTK_TYPE_WIDGET)

typedef enum { SUN, ALTERNATOR, SHORE, N_SOURCES } Source;

static double source_wh(const WbYearMonth *month, Source source)
{
    return source == SUN          ? month->array_wh
           : source == ALTERNATOR ? month->alternator_wh
                                  : month->shore_wh;
}

static const char *source_name(Source source)
{
    static const char *const names[N_SOURCES] = {N_("Sun"), N_("Alternator"), N_("Shore")};
    return _(names[source]);
}

static double need_wh(const WbYearMonth *month)
{
    return month->need_wh + month->own_draw_wh;
}

static gboolean any_source(const WbSourceChart *self, Source source)
{
    for (int m = 0; m < WB_MONTHS; m++)
        if (source_wh(&self->month[m], source) > 0)
            return TRUE;
    return FALSE;
}

static gboolean any_unmet(const WbSourceChart *self)
{
    for (int m = 0; m < WB_MONTHS; m++)
        if (self->month[m].unmet_wh >= LEAST_WH)
            return TRUE;
    return FALSE;
}

/* ---- words ---- */

static void append_wh(GString *text, const char *between, const char *what, double wh)
{
    g_autofree char *figure = wb_format_quantity(wh, 0, "Wh");
    g_string_append_printf(text, "%s%s %s", between, what, figure);
}

static char *month_text(const WbSourceChart *self, int m, const char *between)
{
    const WbYearMonth *month = &self->month[m];
    g_autofree char *dark = wb_text_number(month->dark_h, 1);
    GString *text = g_string_new(wb_text_month(m));
    if (!(self->used >> m & 1))
        g_string_append_printf(text, " (%s)", _("not in use"));
    for (Source source = SUN; source < N_SOURCES; source++)
        if (source == SUN || any_source(self, source))
            append_wh(text, between, source_name(source), source_wh(month, source));
    if (!(self->used >> m & 1)) /* the rest is not reckoned there */
        return g_string_free(text, FALSE);
    append_wh(text, between, _("Need"), need_wh(month));
    append_wh(text, between, _("Not used"), month->spilled_wh);
    if (month->unmet_wh >= LEAST_WH)
        append_wh(text, between, _("Not carried"), month->unmet_wh);
    if (month->dark_h > 0) {
        g_string_append(text, between);
        g_string_append_printf(text, _("Dark %s h in the month"), dark);
    }
    return g_string_free(text, FALSE);
}

static int darkest_month(const WbSourceChart *self)
{
    int darkest = 0;
    for (int m = 1; m < WB_MONTHS; m++)
        if (self->month[m].dark_h > self->month[darkest].dark_h)
            darkest = m;
    return self->month[darkest].dark_h > 0 ? darkest : -1;
}

static void describe(GtkWidget *widget)
{
    WbSourceChart *self = WB_SOURCE_CHART(widget);
    int month = self->cursor.shown >= 0 ? self->cursor.shown : darkest_month(self);
    g_autofree char *text = month >= 0 ? month_text(self, month, ", ") : NULL;
    g_autofree char *description =
        self->cursor.shown >= 0 ? g_strdup(text)
        : text != NULL
            ? g_strdup_printf(_("Wh a day by month. The month with most dark hours: %s."), text)
            : g_strdup(_("Wh a day by month. The loads are carried in every month."));
    wb_pen_describe(widget, _("Sources and need, by month"), description);
}

/* ---- painting ---- */

static double highest(const WbSourceChart *self)
{
    double most = 1;
    for (int m = 0; m < WB_MONTHS; m++) {
        const WbYearMonth *month = &self->month[m];
        double supply = month->array_wh + month->alternator_wh + month->shore_wh;
        most = fmax(most, fmax(need_wh(month), supply));
    }
    return most;
}

static const GdkRGBA *source_color(const WbPalette *palette, Source source)
{
    return source == SUN ? &palette->warm : source == ALTERNATOR ? &palette->accent : &palette->ink;
}

/* From the bottom up; shore is hollow, to be told from the need without colour. */
static void paint_sources(const WbYearMonth *month, WbPen *pen, const WbAxis *axis, double x,
                          double width, double bottom, float alpha)
{
    double below = 0;
    for (Source source = SUN; source < N_SOURCES; source++) {
        double wh = fmax(source_wh(month, source), 0);
        double low = round(wb_axis_at(axis, below, bottom, TOP));
        double high = round(wb_axis_at(axis, below + wh, bottom, TOP));
        GdkRGBA color = *source_color(&pen->palette, source);
        color.alpha = alpha;
        if (source == SHORE && low - high >= 2)
            wb_pen_frame(pen, x, high, width, low - high, &color);
        else
            wb_pen_box(pen, x, high, width, low - high, &color);
        below += wh;
    }
}

static void paint_need(const WbYearMonth *month, WbPen *pen, const WbAxis *axis, double x,
                       double width, double bottom)
{
    double high = round(wb_axis_at(axis, need_wh(month), bottom, TOP));
    double missed = wb_axis_at(axis, month->unmet_wh, bottom, TOP);
    double part = month->unmet_wh >= LEAST_WH ? fmax(round(bottom - missed), 2) : 0;
    double gap = part > 0 ? 1 : 0; /* tells the two apart without colour */
    wb_pen_box(pen, x, high + part + gap, width, bottom - high - part - gap, &pen->palette.ink);
    wb_pen_box(pen, x, high, width, part, &pen->palette.over);
}

static void paint_month(WbSourceChart *self, WbPen *pen, const WbAxis *axis, int m, double bottom)
{
    double width = (self->cursor.right - self->cursor.left) / WB_MONTHS;
    double left = self->cursor.left + m * width, bar = floor(fmin(width * 0.36, 22));
    double x = round(left + width / 2 - bar);
    gboolean used = (self->used >> m & 1) != 0;
    float alpha = used ? 1 : 0.3F;
    paint_sources(&self->month[m], pen, axis, x, bar - 1, bottom, alpha);
    if (used)
        paint_need(&self->month[m], pen, axis, x + bar, bar - 1, bottom);
    wb_pen_text(pen, wb_format_month_short(m), left + width / 2, bottom + 4, 0.5, 0,
                used ? &pen->palette.ink : &pen->palette.dim);
    if (m == self->cursor.shown)
        wb_pen_frame(pen, round(left), TOP, round(width), bottom - TOP, &pen->palette.ink);
}

static void paint_legend(const WbSourceChart *self, WbPen *pen)
{
    double x = gtk_widget_get_width(pen->widget);
    if (any_unmet(self))
        x = wb_pen_key(pen, _("not carried"), x, 0, WB_KEY_BOX, &pen->palette.over);
    x = wb_pen_key(pen, _("Need"), x, 0, WB_KEY_BOX, &pen->palette.ink);
    for (int source = SHORE; source >= SUN; source--)
        if (source == SUN || any_source(self, source))
            x = wb_pen_key(pen, source_name(source), x, 0,
                           source == SHORE ? WB_KEY_HOLLOW : WB_KEY_BOX,
                           source_color(&pen->palette, source));
}

static void wb_source_chart_snapshot(GtkWidget *widget, GtkSnapshot *snapshot)
{
    WbSourceChart *self = WB_SOURCE_CHART(widget);
    double bottom = gtk_widget_get_height(widget) - UNDER;
    WbPen pen;
    wb_pen_begin(&pen, widget, snapshot);
    WbAxis axis = wb_axis_fit(0, highest(self), CLAMP((int)(bottom - TOP) / 40, 2, 5));
    self->cursor.left = wb_pen_axis_width(&pen, &axis) + 10;
    self->cursor.right = gtk_widget_get_width(widget);
    wb_pen_upright_axis(&pen, &axis, self->cursor.left, self->cursor.right, TOP, bottom);
    for (int m = 0; m < WB_MONTHS; m++)
        paint_month(self, &pen, &axis, m, bottom);
    wb_pen_across(&pen, self->cursor.left, self->cursor.right, bottom, &pen.palette.dim);
    wb_pen_text(&pen, _("Wh a day"), 0, 0, 0, 0, &pen.palette.dim);
    paint_legend(self, &pen);
    if (self->cursor.shown >= 0) {
        g_autofree char *text = month_text(self, self->cursor.shown, "\n");
        double width = (self->cursor.right - self->cursor.left) / WB_MONTHS;
        wb_pen_card(&pen, text, self->cursor.left + (self->cursor.shown + 1) * width,
                    (TOP + bottom) / 2);
    }
    wb_pen_end(&pen);
}

/* ---- GObject ---- */

static void wb_source_chart_measure(GtkWidget *widget, GtkOrientation orientation, int for_size,
                                    int *minimum, int *natural, int *minimum_baseline,
                                    int *natural_baseline)
{
    *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 300 : 190;
    *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 480 : 190;
}

static void wb_source_chart_class_init(WbSourceChartClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    widget->snapshot = wb_source_chart_snapshot;
    widget->measure = wb_source_chart_measure;
    gtk_widget_class_set_css_name(widget, "sourcechart");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_IMG);
}

static void wb_source_chart_init(WbSourceChart *self)
{
    wb_column_cursor_attach(&self->cursor, GTK_WIDGET(self), WB_MONTHS, describe);
    describe(GTK_WIDGET(self));
}

GtkWidget *wb_source_chart_new(void)
{
    return g_object_new(WB_TYPE_SOURCE_CHART, NULL);
}

void wb_source_chart_set(WbSourceChart *self, const WbYearMonth month[WB_MONTHS], guint32 used)
{
    g_return_if_fail(WB_IS_SOURCE_CHART(self));
    memcpy(self->month, month, sizeof self->month);
    self->used = used;
    describe(GTK_WIDGET(self));
    gtk_widget_queue_draw(GTK_WIDGET(self));
}
