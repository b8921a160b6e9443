#include "charge_chart.h"

#include "column_cursor.h"
#include "figures_text.h"
#include "format.h"
#include "pen.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define TOP 26.0     /* over the charge: caption and legend */
#define BETWEEN 32.0 /* charge and power: the same for the power */
#define UNDER 22.0   /* days */
#define LINE 2.0

struct _WbChargeChart {
    GtkWidget parent_instance;
    WbKitEnergy *energy; /* NULL: none yet */
    WbColumnCursor cursor;
};

G_DEFINE_FINAL_TYPE(WbChargeChart, wb_charge_chart, GTK_TYPE_WIDGET)

typedef struct {
    const WbKitEnergy *energy;
    WbPen *pen;
    WbAxis charge, power;
    double left, right, top, floor, roof, bottom; /* px: charge top..floor, power roof..bottom */
} Plan;

static void describe(GtkWidget *widget)
{
    WbChargeChart *self = WB_CHARGE_CHART(widget);
    g_autofree char *text = NULL;
    if (self->energy == NULL)
        text = g_strdup(_("The year is being worked out."));
    else if (self->cursor.shown >= 0)
        text = wb_kit_energy_hour_text(self->energy, self->cursor.shown, ", ");
    else
        text = wb_kit_energy_sentence(self->energy);
    wb_pen_describe(widget, _("Charge of the bank through the worst fortnight"), text);
}

/* ---- geometry ---- */

static double hour_x(const Plan *plan, double hour)
{
    return plan->left + (plan->right - plan->left) * hour / WB_FORTNIGHT_HOURS;
}

static double charge_y(const Plan *plan, double share)
{
    return wb_axis_at(&plan->charge, share * 100, plan->floor, plan->top);
}

static double power_y(const Plan *plan, double wh)
{
    return wb_axis_at(&plan->power, fmax(wh, 0), plan->bottom, plan->roof);
}

static double most_power(const WbKitEnergy *energy)
{
    double most = 1;
    for (int h = 0; h < WB_FORTNIGHT_HOURS; h++)
        most = fmax(
            most, fmax(energy->hour[h].need_wh, energy->hour[h].sun_wh + energy->hour[h].other_wh));
    return most;
}

static void make_plan(Plan *plan, WbPen *pen, const WbKitEnergy *energy, double width,
                      double height)
{
    double room = height - TOP - BETWEEN - UNDER;
    *plan = (Plan){.energy = energy, .pen = pen, .top = TOP, .bottom = height - UNDER};
    plan->floor = TOP + round(room * 0.6);
    plan->roof = plan->floor + BETWEEN;
    plan->charge = wb_axis_fit(0, 100, CLAMP((int)(plan->floor - plan->top) / 22, 2, 5));
    plan->power =
        wb_axis_fit(0, most_power(energy), CLAMP((int)(plan->bottom - plan->roof) / 26, 1, 4));
    plan->left =
        MAX(wb_pen_axis_width(pen, &plan->charge), wb_pen_axis_width(pen, &plan->power)) + 10;
    plan->right = width;
}

/* ---- painting ---- */

static void paint_days(const Plan *plan)
{
    double day = (plan->right - plan->left) / WB_FORTNIGHT_DAYS;
    int step = day < 50 ? 2 : 1;
    for (int d = 0; d < WB_FORTNIGHT_DAYS; d++) {
        double x = hour_x(plan, d * WB_HOURS);
        wb_pen_down(plan->pen, x, plan->top, plan->floor, &plan->pen->palette.grid);
        wb_pen_down(plan->pen, x, plan->roof, plan->bottom, &plan->pen->palette.grid);
        if (d % step != 0)
            continue;
        int of_year = (plan->energy->first_hour / WB_HOURS + d) % WB_YEAR_DAYS;
        int month = wb_month_of_day(of_year);
        /* Translators: day of the month and short month: "14 Dec". */
        g_autofree char *date = g_strdup_printf(
            _("%d %s"), of_year - wb_first_day_of_month(month) + 1, wb_format_month_short(month));
        wb_pen_text(plan->pen, date, x + day / 2, plan->bottom + 4, 0.5, 0,
                    &plan->pen->palette.dim);
    }
}

/* Hours without their need as boxes over the whole height of the charge; runs are one box. */
static void paint_dark(const Plan *plan)
{
    GdkRGBA tint = plan->pen->palette.over;
    tint.alpha = 0.22F;
    for (int h = 0; h < WB_FORTNIGHT_HOURS; h++) {
        int end = h;
        while (end < WB_FORTNIGHT_HOURS && plan->energy->hour[end].dark)
            end++;
        if (end == h)
            continue;
        double x = hour_x(plan, h), width = fmax(hour_x(plan, end) - x, 2);
        wb_pen_box(plan->pen, x, plan->top, width, plan->floor - plan->top, &tint);
        wb_pen_box(plan->pen, x, plan->top, width, 4, &plan->pen->palette.over);
        h = end;
    }
}

static cairo_t *brush(const Plan *plan, double top, double bottom)
{
    return gtk_snapshot_append_cairo(plan->pen->snapshot,
                                     &GRAPHENE_RECT_INIT((float)plan->left, (float)(top - LINE),
                                                         (float)(plan->right - plan->left),
                                                         (float)(bottom - top + 2 * LINE)));
}

/* A step an hour; `value` answers in px. */
static void trace_steps(const Plan *plan, cairo_t *cr,
                        double (*value)(const Plan *plan, const WbEnergyHour *hour))
{
    for (int h = 0; h < WB_FORTNIGHT_HOURS; h++) {
        double y = value(plan, &plan->energy->hour[h]);
        cairo_line_to(cr, hour_x(plan, h), y);
        cairo_line_to(cr, hour_x(plan, h + 1), y);
    }
}

static double floor_of(const Plan *plan, const WbEnergyHour *hour)
{
    return charge_y(plan, hour->floor);
}

static double sun_of(const Plan *plan, const WbEnergyHour *hour)
{
    return power_y(plan, hour->sun_wh);
}

static double supply_of(const Plan *plan, const WbEnergyHour *hour)
{
    return power_y(plan, hour->sun_wh + hour->other_wh);
}

static double need_of(const Plan *plan, const WbEnergyHour *hour)
{
    return power_y(plan, hour->need_wh);
}

static void fill_area(const Plan *plan, cairo_t *cr, double base,
                      double (*value)(const Plan *plan, const WbEnergyHour *hour),
                      const GdkRGBA *color)
{
    cairo_move_to(cr, plan->left, base);
    trace_steps(plan, cr, value);
    cairo_line_to(cr, plan->right, base);
    cairo_close_path(cr);
    gdk_cairo_set_source_rgba(cr, color);
    cairo_fill(cr);
}

static void paint_band(const Plan *plan)
{
    cairo_t *cr = brush(plan, plan->top, plan->floor);
    GdkRGBA tint = plan->pen->palette.dim;
    tint.alpha = 0.16F;
    fill_area(plan, cr, plan->floor, floor_of, &tint);
    cairo_destroy(cr);
    double high = charge_y(plan, plan->energy->hour[0].floor);
    if (plan->floor - high > 18)
        wb_pen_text(plan->pen, _("not to be drawn"), plan->left + 6, (high + plan->floor) / 2, 0,
                    0.5, &plan->pen->palette.dim);
}

static void paint_charge(const Plan *plan)
{
    cairo_t *cr = brush(plan, plan->top, plan->floor);
    for (int h = 0; h < WB_FORTNIGHT_HOURS; h++)
        cairo_line_to(cr, hour_x(plan, h + 1), charge_y(plan, plan->energy->hour[h].charge));
    gdk_cairo_set_source_rgba(cr, &plan->pen->palette.accent);
    cairo_set_line_width(cr, LINE);
    cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
    cairo_stroke(cr);
    cairo_destroy(cr);
}

/* The lowest hour: a dot and its figure, on the side that has room. */
static void paint_lowest(const Plan *plan)
{
    int lowest = wb_kit_energy_lowest(plan->energy), width, height;
    double x = hour_x(plan, lowest + 1), share = plan->energy->hour[lowest].charge;
    double y = charge_y(plan, share);
    g_autofree char *text = wb_format_percent(share);
    wb_pen_text_size(plan->pen, text, &width, &height);
    wb_pen_box(plan->pen, round(x) - 3, round(y) - 3, 6, 6, &plan->pen->palette.accent);
    gboolean after = x + width + 16 < plan->right;
    double middle = CLAMP(y, plan->top + height / 2.0, plan->floor - height / 2.0);
    double left = after ? x + 7 : x - 7 - width;
    wb_pen_box(plan->pen, left - 2, middle - height / 2.0, width + 6, height,
               &plan->pen->palette.paper);
    wb_pen_text_bold(plan->pen, text, left, middle, 0, 0.5, &plan->pen->palette.ink);
}

static void paint_power(const Plan *plan)
{
    cairo_t *cr = brush(plan, plan->roof, plan->bottom);
    fill_area(plan, cr, plan->bottom, supply_of, &plan->pen->palette.accent);
    fill_area(plan, cr, plan->bottom, sun_of, &plan->pen->palette.warm);
    trace_steps(plan, cr, need_of);
    gdk_cairo_set_source_rgba(cr, &plan->pen->palette.ink);
    cairo_set_line_width(cr, 1);
    cairo_stroke(cr);
    cairo_destroy(cr);
}

static gboolean any_dark(const WbKitEnergy *energy)
{
    for (int h = 0; h < WB_FORTNIGHT_HOURS; h++)
        if (energy->hour[h].dark)
            return TRUE;
    return FALSE;
}

static gboolean any_other(const WbKitEnergy *energy)
{
    for (int h = 0; h < WB_FORTNIGHT_HOURS; h++)
        if (energy->hour[h].other_wh > 0)
            return TRUE;
    return FALSE;
}

static void paint_words(const Plan *plan)
{
    const WbPalette *palette = &plan->pen->palette;
    double x = plan->right, y = plan->floor + 10;
    wb_pen_text(plan->pen, _("Charge, % of full"), 0, 0, 0, 0, &palette->dim);
    if (any_dark(plan->energy))
        wb_pen_key(plan->pen, _("Dark hours"), x, 0, WB_KEY_BOX, &palette->over);
    wb_pen_text(plan->pen, _("Wh in each hour"), 0, y, 0, 0, &palette->dim);
    x = wb_pen_key(plan->pen, _("Need"), x, y, WB_KEY_LINE, &palette->ink);
    if (any_other(plan->energy))
        x = wb_pen_key(plan->pen, _("Other sources"), x, y, WB_KEY_BOX, &palette->accent);
    wb_pen_key(plan->pen, _("Sun"), x, y, WB_KEY_BOX, &palette->warm);
}

static void paint_shown(const Plan *plan, int hour)
{
    double x = (hour_x(plan, hour) + hour_x(plan, hour + 1)) / 2;
    g_autofree char *text = wb_kit_energy_hour_text(plan->energy, hour, "\n");
    wb_pen_down(plan->pen, x, plan->top, plan->floor, &plan->pen->palette.ink);
    wb_pen_down(plan->pen, x, plan->roof, plan->bottom, &plan->pen->palette.ink);
    wb_pen_card(plan->pen, text, x, (plan->top + plan->floor) / 2);
}

static void paint(WbChargeChart *self, WbPen *pen)
{
    Plan plan;
    make_plan(&plan, pen, self->energy, gtk_widget_get_width(pen->widget),
              gtk_widget_get_height(pen->widget));
    self->cursor.left = plan.left;
    self->cursor.right = plan.right;
    wb_pen_upright_axis(pen, &plan.charge, plan.left, plan.right, plan.top, plan.floor);
    wb_pen_upright_axis(pen, &plan.power, plan.left, plan.right, plan.roof, plan.bottom);
    paint_days(&plan);
    paint_dark(&plan);
    paint_band(&plan);
    paint_charge(&plan);
    paint_lowest(&plan);
    paint_power(&plan);
    wb_pen_across(pen, plan.left, plan.right, plan.floor, &pen->palette.dim);
    wb_pen_across(pen, plan.left, plan.right, plan.bottom, &pen->palette.dim);
    paint_words(&plan);
    if (self->cursor.shown >= 0)
        paint_shown(&plan, self->cursor.shown);
}

static void wb_charge_chart_snapshot(GtkWidget *widget, GtkSnapshot *snapshot)
{
    WbChargeChart *self = WB_CHARGE_CHART(widget);
    WbPen pen;
    wb_pen_begin(&pen, widget, snapshot);
    if (self->energy != NULL)
        paint(self, &pen);
    else
        wb_pen_empty(&pen, _("The year is being worked out."));
    wb_pen_end(&pen);
}

/* ---- GObject ---- */

static void wb_charge_chart_measure(GtkWidget *widget, GtkOrientation orientation, int for_size,
                                    int *minimum, int *natural, int *minimum_baseline,
                                    int *natural_baseline)
{
    *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 300 : 310;
    *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 640 : 310;
}

static void wb_charge_chart_finalize(GObject *object)
{
    g_clear_pointer(&WB_CHARGE_CHART(object)->energy, wb_kit_energy_free);
    G_OBJECT_CLASS(wb_charge_chart_parent_class)->finalize(object);
}

static void wb_charge_chart_class_init(WbChargeChartClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->finalize = wb_charge_chart_finalize;
    widget->snapshot = wb_charge_chart_snapshot;
    widget->measure = wb_charge_chart_measure;
    gtk_widget_class_set_css_name(widget, "chargechart");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_IMG);
}

static void wb_charge_chart_init(WbChargeChart *self)
{
    wb_column_cursor_attach(&self->cursor, GTK_WIDGET(self), WB_FORTNIGHT_HOURS, describe);
    self->cursor.stride = WB_HOURS;
    describe(GTK_WIDGET(self));
}

GtkWidget *wb_charge_chart_new(void)
{
    return g_object_new(WB_TYPE_CHARGE_CHART, NULL);
}

void wb_charge_chart_set(WbChargeChart *self, const WbKitEnergy *energy)
{
    g_return_if_fail(WB_IS_CHARGE_CHART(self));
    g_clear_pointer(&self->energy, wb_kit_energy_free);
    if (energy != NULL)
        self->energy = g_memdup2(energy, sizeof *energy);
    else
        self->cursor.shown = -1;
    describe(GTK_WIDGET(self));
    gtk_widget_queue_draw(GTK_WIDGET(self));
}
