#include "day_chart.h"

#include "column_cursor.h"
#include "format.h"
#include "pen.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define HOURS 24
#define NAMED 8

typedef struct {
    char *name;
    double wh[HOURS], sum;
} Band;

struct _WbDayChart {
    GtkWidget parent_instance;
    char *title;
    Band band[NAMED + 1]; /* largest first; the last one: others */
    guint n;
    WbColumnCursor cursor;
};

G_DEFINE_FINAL_TYPE(WbDayChart, wb_day_chart, GTK_TYPE_WIDGET)

static double hour_sum(const WbDayChart *self, int hour)
{
    double sum = 0;
    for (guint b = 0; b < self->n; b++)
        sum += self->band[b].wh[hour];
    return sum;
}

static int highest_hour(const WbDayChart *self)
{
    int highest = 0;
    for (int h = 1; h < HOURS; h++)
        if (hour_sum(self, h) > hour_sum(self, highest))
            highest = h;
    return highest;
}

/* The hour's loads, largest first, one a line. (transfer full) */
static char *hour_text(const WbDayChart *self, int hour)
{
    g_autofree char *sum = wb_format_quantity(hour_sum(self, hour), 0, "Wh");
    GString *text = g_string_new(NULL);
    g_string_append_printf(text, _("%d to %d h: %s"), hour, hour + 1, sum);
    for (guint b = 0; b < self->n; b++) {
        if (self->band[b].wh[hour] < 0.05)
            continue;
        g_autofree char *part = wb_format_quantity(self->band[b].wh[hour], 1, "Wh");
        g_string_append_printf(text, "\n%s  %s", self->band[b].name, part);
    }
    return g_string_free(text, FALSE);
}

static void describe(GtkWidget *widget)
{
    WbDayChart *self = WB_DAY_CHART(widget);
    int hour = self->cursor.shown >= 0 ? self->cursor.shown : highest_hour(self);
    g_autofree char *text = self->n > 0 ? hour_text(self, hour) : g_strdup(_("No loads yet."));
    g_autofree char *description = self->cursor.shown >= 0 || self->n == 0
                                       ? g_steal_pointer(&text)
                                       : g_strdup_printf(_("The highest hour is %s"), text);
    wb_pen_describe(widget, self->title, description);
}

/* Steps from the accent towards paper: enough to follow a band, and the legend names it. */
static GdkRGBA band_color(const WbPalette *palette, guint band, guint n)
{
    float share = n > 1 ? 0.78F * (float)band / (float)(n - 1) : 0;
    const GdkRGBA *from = &palette->accent, *to = &palette->paper;
    return (GdkRGBA){from->red + (to->red - from->red) * share,
                     from->green + (to->green - from->green) * share,
                     from->blue + (to->blue - from->blue) * share, 1};
}

/* Largest at the bottom, as the bands lie; a low picture names only as many as it has room for. */
static double paint_legend(WbDayChart *self, WbPen *pen, double width, double height)
{
    int widest = 0, row = 1;
    for (guint b = 0; b < self->n; b++) {
        int across, down;
        wb_pen_text_size(pen, self->band[b].name, &across, &down);
        widest = MAX(widest, across);
        row = MAX(row, down);
    }
    widest = MIN(widest, (int)(width * 0.3));
    double left = width - widest - 16, room = height - 26;
    guint named = (guint)CLAMP(room / row, 1, self->n);
    double step = MIN(row + 3.0, room / named);
    for (guint b = 0; b < named; b++) {
        double y = 26 + (named - 1 - b) * step;
        GdkRGBA color = band_color(&pen->palette, b, self->n);
        wb_pen_box(pen, left, y + row / 2.0 - 5, 10, 10, &color);
        wb_pen_frame(pen, left, y + row / 2.0 - 5, 10, 10, &pen->palette.dim);
        wb_pen_text_within(pen, self->band[b].name, left + 16, y + row / 2.0, widest,
                           &pen->palette.ink);
    }
    return left - 14;
}

static void paint_hours(WbDayChart *self, WbPen *pen, const WbAxis *axis, double top, double bottom)
{
    double width = (self->cursor.right - self->cursor.left) / HOURS;
    for (int h = 0; h < HOURS; h++) {
        double below = 0, x = round(self->cursor.left + h * width);
        double right = round(self->cursor.left + (h + 1) * width) - 1;
        for (guint b = 0; b < self->n; b++) {
            double wh = self->band[b].wh[h];
            double low = wb_axis_at(axis, below, bottom, top);
            double high = wb_axis_at(axis, below + wh, bottom, top);
            GdkRGBA color = band_color(&pen->palette, b, self->n);
            wb_pen_box(pen, x, high, right - x, low - high, &color);
            if (low - high > 2)
                wb_pen_box(pen, x, high, right - x, 1, &pen->palette.paper);
            below += wh;
        }
        if (h % 3 == 0) {
            g_autofree char *hour = g_strdup_printf("%d", h);
            wb_pen_text(pen, hour, x, bottom + 4, 0, 0, &pen->palette.dim);
        }
        if (h == self->cursor.shown)
            wb_pen_frame(pen, x - 1, top, right - x + 2, bottom - top, &pen->palette.ink);
    }
    wb_pen_text(pen, _("h"), self->cursor.right, bottom + 4, 0, 0, &pen->palette.dim);
}

static void wb_day_chart_snapshot(GtkWidget *widget, GtkSnapshot *snapshot)
{
    WbDayChart *self = WB_DAY_CHART(widget);
    double top = 26, bottom = gtk_widget_get_height(widget) - 22;
    WbPen pen;
    wb_pen_begin(&pen, widget, snapshot);
    if (self->n == 0) {
        wb_pen_empty(&pen, _("Add a load to see the day."));
    } else {
        WbAxis axis = wb_axis_fit(0, hour_sum(self, highest_hour(self)),
                                  CLAMP((int)(bottom - top) / 40, 2, 5));
        self->cursor.left = wb_pen_axis_width(&pen, &axis) + 10;
        self->cursor.right =
            paint_legend(self, &pen, gtk_widget_get_width(widget), gtk_widget_get_height(widget));
        wb_pen_upright_axis(&pen, &axis, self->cursor.left, self->cursor.right, top, bottom);
        paint_hours(self, &pen, &axis, top, bottom);
        wb_pen_across(&pen, self->cursor.left, self->cursor.right, bottom, &pen.palette.dim);
        g_autofree char *title = g_strdup_printf(_("%s, Wh in each hour"), self->title);
        wb_pen_text(&pen, title, 0, 0, 0, 0, &pen.palette.ink);
        if (self->cursor.shown >= 0) {
            g_autofree char *text = hour_text(self, self->cursor.shown);
            double width = (self->cursor.right - self->cursor.left) / HOURS;
            wb_pen_card(&pen, text, self->cursor.left + (self->cursor.shown + 1) * width,
                        (top + bottom) / 2);
        }
    }
    wb_pen_end(&pen);
}

static void wb_day_chart_measure(GtkWidget *widget, GtkOrientation orientation, int for_size,
                                 int *minimum, int *natural, int *minimum_baseline,
                                 int *natural_baseline)
{
    *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 260 : 130;
    *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 480 : 200;
}

static void forget(WbDayChart *self)
{
    g_clear_pointer(&self->title, g_free);
    for (guint b = 0; b < self->n; b++)
        g_clear_pointer(&self->band[b].name, g_free);
    self->n = 0;
}

static void wb_day_chart_finalize(GObject *object)
{
    forget(WB_DAY_CHART(object));
    G_OBJECT_CLASS(wb_day_chart_parent_class)->finalize(object);
}

static void wb_day_chart_class_init(WbDayChartClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->finalize = wb_day_chart_finalize;
    widget->snapshot = wb_day_chart_snapshot;
    widget->measure = wb_day_chart_measure;
    gtk_widget_class_set_css_name(widget, "daychart");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_IMG);
}

static void wb_day_chart_init(WbDayChart *self)
{
    self->title = g_strdup("");
    wb_column_cursor_attach(&self->cursor, GTK_WIDGET(self), HOURS, describe);
}

GtkWidget *wb_day_chart_new(void)
{
    return g_object_new(WB_TYPE_DAY_CHART, NULL);
}

static int larger_first(gconstpointer a, gconstpointer b)
{
    const Band *p = a, *q = b;
    return p->sum > q->sum ? -1 : p->sum < q->sum;
}

static void take_band(WbDayChart *self, const Band *band)
{
    Band *kept = &self->band[MIN(self->n, NAMED)];
    if (self->n <= NAMED) {
        *kept = *band;
        kept->name = g_strdup(self->n < NAMED ? band->name : _("others"));
        self->n++;
        return;
    }
    for (int h = 0; h < HOURS; h++)
        kept->wh[h] += band->wh[h];
}

void wb_day_chart_set(WbDayChart *self, const char *title, const WbDayBand *bands, guint n)
{
    g_return_if_fail(WB_IS_DAY_CHART(self));
    forget(self);
    self->title = g_strdup(title);
    g_autofree Band *all = g_new0(Band, n + 1);
    for (guint b = 0; b < n; b++) {
        all[b].name = (char *)bands[b].name;
        for (int h = 0; h < HOURS; h++) {
            all[b].wh[h] = bands[b].wh[h];
            all[b].sum += bands[b].wh[h];
        }
    }
    qsort(all, n, sizeof *all, larger_first);
    for (guint b = 0; b < n; b++)
        if (all[b].sum > 0)
            take_band(self, &all[b]);
    describe(GTK_WIDGET(self));
    gtk_widget_queue_draw(GTK_WIDGET(self));
}
