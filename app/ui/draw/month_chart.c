#include "month_chart.h"

#include "column_cursor.h"
#include "figures_text.h"
#include "format.h"
#include "pen.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define MONTHS 12

struct _WbMonthChart {
    GtkWidget parent_instance;
    char *title, *name[2]; /* supply, need; NULL: not shown */
    double wh[2][MONTHS];
    guint32 used;
    int worst;
    gboolean nameless;
    WbColumnCursor cursor;
};

G_DEFINE_FINAL_TYPE(WbMonthChart, wb_month_chart, GTK_TYPE_WIDGET)

static char *month_text(const WbMonthChart *self, int month, const char *between)
{
    GString *text = g_string_new(wb_text_month(month));
    if (!(self->used & 1U << month))
        g_string_append_printf(text, " (%s)", _("not in use"));
    for (int s = 0; s < 2; s++) {
        if (self->name[s] == NULL)
            continue;
        g_autofree char *figure = wb_format_quantity(self->wh[s][month], 0, "Wh");
        g_string_append_printf(text, "%s%s %s", between, self->name[s], figure);
    }
    return g_string_free(text, FALSE);
}

static void describe(GtkWidget *widget)
{
    WbMonthChart *self = WB_MONTH_CHART(widget);
    g_autofree char *description = NULL;
    if (self->cursor.shown >= 0) {
        description = month_text(self, self->cursor.shown, ", ");
    } else if (self->worst >= 0) {
        g_autofree char *worst = month_text(self, self->worst, ", ");
        description = g_strdup_printf(_("Wh a day by month. The month that decides: %s."), worst);
    } else {
        description = g_strdup(_("Wh a day by month."));
    }
    wb_pen_describe(widget, self->title, description);
}

static double highest(const WbMonthChart *self)
{
    double most = 0;
    for (int s = 0; s < 2; s++)
        for (int m = 0; m < MONTHS; m++)
            if (self->name[s] != NULL && self->wh[s][m] > most)
                most = self->wh[s][m];
    return most;
}

static void paint_month(WbMonthChart *self, WbPen *pen, const WbAxis *axis, int month, double top,
                        double bottom)
{
    double width = (self->cursor.right - self->cursor.left) / MONTHS;
    double left = self->cursor.left + month * width, bar = floor(fmin(width * 0.36, 22));
    gboolean both = self->name[0] != NULL && self->name[1] != NULL;
    double x = round(left + width / 2 - (both ? bar : bar / 2));
    gboolean used = (self->used & 1U << month) != 0;
    for (int s = 0; s < 2; s++) {
        if (self->name[s] == NULL)
            continue;
        GdkRGBA color = s == 0 ? pen->palette.warm : pen->palette.ink;
        if (!used)
            color.alpha = 0.3F;
        double y = wb_axis_at(axis, fmax(self->wh[s][month], 0), bottom, top);
        wb_pen_box(pen, x, y, bar - 1, bottom - y, &color);
        x += bar;
    }
    const GdkRGBA *ink = used ? &pen->palette.ink : &pen->palette.dim;
    if (!self->nameless && month == self->worst)
        wb_pen_text_bold(pen, wb_format_month_short(month), left + width / 2, bottom + 4, 0.5, 0,
                         ink);
    else if (!self->nameless)
        wb_pen_text(pen, wb_format_month_short(month), left + width / 2, bottom + 4, 0.5, 0, ink);
    if (month == self->cursor.shown)
        wb_pen_frame(pen, round(left), top, round(width), bottom - top, &pen->palette.ink);
}

static void paint_legend(WbMonthChart *self, WbPen *pen)
{
    double x = gtk_widget_get_width(pen->widget);
    for (int s = 1; s >= 0; s--)
        if (self->name[s] != NULL)
            x = wb_pen_key(pen, self->name[s], x, 0, WB_KEY_BOX,
                           s == 0 ? &pen->palette.warm : &pen->palette.ink);
}

static void wb_month_chart_snapshot(GtkWidget *widget, GtkSnapshot *snapshot)
{
    WbMonthChart *self = WB_MONTH_CHART(widget);
    double top = 26, bottom = gtk_widget_get_height(widget) - (self->nameless ? 4 : 22);
    WbPen pen;
    wb_pen_begin(&pen, widget, snapshot);
    WbAxis axis = wb_axis_fit(0, highest(self), CLAMP((int)(bottom - top) / 40, 2, 5));
    self->cursor.left = wb_pen_axis_width(&pen, &axis) + 10;
    if (self->nameless)
        self->cursor.left = fmax(self->cursor.left, WB_MONTH_CHART_LEFT);
    self->cursor.right = gtk_widget_get_width(widget);
    wb_pen_upright_axis(&pen, &axis, self->cursor.left, self->cursor.right, top, bottom);
    for (int m = 0; m < MONTHS; m++)
        paint_month(self, &pen, &axis, m, top, bottom);
    wb_pen_across(&pen, self->cursor.left, self->cursor.right, bottom, &pen.palette.dim);
    wb_pen_text(&pen, _("Wh a day"), 0, 0, 0, 0, &pen.palette.dim);
    paint_legend(self, &pen);
    if (self->cursor.shown >= 0) {
        g_autofree char *text = month_text(self, self->cursor.shown, "\n");
        double width = (self->cursor.right - self->cursor.left) / MONTHS;
        wb_pen_card(&pen, text, self->cursor.left + (self->cursor.shown + 1) * width,
                    (top + bottom) / 2);
    }
    wb_pen_end(&pen);
}

static void wb_month_chart_measure(GtkWidget *widget, GtkOrientation orientation, int for_size,
                                   int *minimum, int *natural, int *minimum_baseline,
                                   int *natural_baseline)
{
    *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 250 : 120;
    *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 420 : 170;
}

static void wb_month_chart_finalize(GObject *object)
{
    WbMonthChart *self = WB_MONTH_CHART(object);
    g_free(self->title);
    g_free(self->name[0]);
    g_free(self->name[1]);
    G_OBJECT_CLASS(wb_month_chart_parent_class)->finalize(object);
}

static void wb_month_chart_class_init(WbMonthChartClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->finalize = wb_month_chart_finalize;
    widget->snapshot = wb_month_chart_snapshot;
    widget->measure = wb_month_chart_measure;
    gtk_widget_class_set_css_name(widget, "monthchart");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_IMG);
}

static void wb_month_chart_init(WbMonthChart *self)
{
    self->title = g_strdup("");
    self->worst = -1;
    wb_column_cursor_attach(&self->cursor, GTK_WIDGET(self), MONTHS, describe);
}

GtkWidget *wb_month_chart_new(void)
{
    return g_object_new(WB_TYPE_MONTH_CHART, NULL);
}

void wb_month_chart_hide_names(WbMonthChart *self)
{
    g_return_if_fail(WB_IS_MONTH_CHART(self));
    self->nameless = TRUE;
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

void wb_month_chart_set(WbMonthChart *self, const char *title, const char *supply_name,
                        const double supply_wh[12], const char *need_name, const double need_wh[12],
                        guint32 used, int worst)
{
    g_return_if_fail(WB_IS_MONTH_CHART(self));
    const char *names[2] = {supply_wh != NULL ? supply_name : NULL,
                            need_wh != NULL ? need_name : NULL};
    const double *figures[2] = {supply_wh, need_wh};
    g_free(self->title);
    self->title = g_strdup(title);
    for (int s = 0; s < 2; s++) {
        g_free(self->name[s]);
        self->name[s] = g_strdup(names[s]);
        if (figures[s] != NULL)
            memcpy(self->wh[s], figures[s], sizeof self->wh[s]);
    }
    self->used = used;
    self->worst = worst;
    describe(GTK_WIDGET(self));
    gtk_widget_queue_draw(GTK_WIDGET(self));
}
