#include "step_chart.h"

#include "figures_text.h"
#include "pen.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define RADIUS 3.0
#define TOP 26.0
#define BELOW 40.0

struct _WbStepChart {
    GtkWidget parent_instance;
    WbStep *steps;
    guint n;
    double limit, end, hand_x, hand_y;
    char *x_label, *y_label, *summary;
    WbStepText text;
    gpointer text_data;
    int shown; /* step under the pointer or the keyboard; -1 none */
    gboolean stale;
    WbAxis x, y;
    double left, right, bottom; /* of the plot, px */
};

enum { CHOSEN, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE(WbStepChart, wb_step_chart, GTK_TYPE_WIDGET)

static void describe(WbStepChart *self)
{
    g_autofree char *shown = self->shown >= 0 && self->text != NULL
                                 ? self->text((guint)self->shown, self->text_data)
                                 : NULL;
    g_autofree char *label = g_strdup_printf(_("%s against %s"), self->y_label, self->x_label);
    wb_pen_describe(GTK_WIDGET(self), label, shown != NULL ? shown : self->summary);
}

static void show_step(WbStepChart *self, int index)
{
    if (index == self->shown)
        return;
    self->shown = index;
    describe(self);
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

/* ---- the picture ---- */

static double x_at(const WbStepChart *self, double value)
{
    return wb_axis_at(&self->x, value, self->left, self->right);
}

static double y_at(const WbStepChart *self, double value)
{
    return wb_axis_at(&self->y, value, self->bottom, TOP);
}

static void widen(double value, double *low, double *high)
{
    if (!isfinite(value))
        return;
    *low = fmin(*low, value);
    *high = fmax(*high, value);
}

static void fit_axes(WbStepChart *self, int width, int height)
{
    double low[2] = {INFINITY, INFINITY}, high[2] = {-INFINITY, -INFINITY};
    for (guint i = 0; i < self->n; i++) {
        widen(self->steps[i].x, &low[0], &high[0]);
        widen(self->steps[i].y, &low[1], &high[1]);
    }
    widen(self->limit, &low[0], &high[0]);
    if (!isnan(self->hand_x + self->hand_y)) {
        widen(self->hand_x, &low[0], &high[0]);
        widen(self->hand_y, &low[1], &high[1]);
    }
    self->x = wb_axis_fit(low[0], high[0], CLAMP(width / 90, 2, 8));
    self->y = wb_axis_fit(low[1], high[1], CLAMP(height / 45, 2, 6));
}

static void paint_axes(WbStepChart *self, WbPen *pen)
{
    const WbPalette *palette = &pen->palette;
    wb_pen_upright_axis(pen, &self->y, self->left, self->right, TOP, self->bottom);
    for (int i = 0; i < wb_axis_ticks(&self->x); i++) {
        double value = wb_axis_tick(&self->x, i);
        g_autofree char *text = wb_text_number(value, self->x.decimals);
        wb_pen_text(pen, text, x_at(self, value), self->bottom + 4, 0.5, 0, &palette->dim);
    }
    wb_pen_across(pen, self->left, self->right, self->bottom, &palette->dim);
    wb_pen_text(pen, self->y_label, 0, 0, 0, 0, &palette->ink);
    wb_pen_text(pen, self->x_label, self->right, self->bottom + 20, 1, 0, &palette->ink);
}

/* Shaded from the limit on; the words stand where there is more room. */
static void paint_limit(WbStepChart *self, WbPen *pen)
{
    int width, height;
    if (!isfinite(self->limit))
        return;
    double x = x_at(self, self->limit);
    GdkRGBA shade = pen->palette.over;
    shade.alpha = 0.08F;
    wb_pen_box(pen, x, TOP, self->right - x, self->bottom - TOP, &shade);
    wb_pen_down(pen, x, TOP, self->bottom, &pen->palette.over);
    wb_pen_text_size(pen, _("your limit"), &width, &height);
    gboolean before = x - self->left > width + 8;
    wb_pen_text(pen, _("your limit"), before ? x - 4 : x + 4, self->bottom - 2, before ? 1 : 0, 1,
                &pen->palette.over);
}

static void paint_line(WbStepChart *self, cairo_t *cr, const WbPalette *palette)
{
    for (guint i = 0; i < self->n; i++) {
        double y = y_at(self, self->steps[i].y);
        double to = i + 1 < self->n ? self->steps[i + 1].x : fmin(self->end, self->x.high);
        if (i == 0)
            cairo_move_to(cr, x_at(self, self->steps[i].x), y);
        else
            cairo_line_to(cr, x_at(self, self->steps[i].x), y);
        cairo_line_to(cr, x_at(self, to), y);
    }
    cairo_set_line_width(cr, 1.5);
    gdk_cairo_set_source_rgba(cr, &palette->dim);
    cairo_stroke(cr);
}

static void paint_step(WbStepChart *self, cairo_t *cr, const WbPalette *palette, guint i)
{
    gboolean shown = (int)i == self->shown, beyond = self->steps[i].x > self->limit;
    cairo_new_sub_path(cr);
    cairo_arc(cr, x_at(self, self->steps[i].x), y_at(self, self->steps[i].y),
              shown ? RADIUS + 2 : RADIUS, 0, 2 * G_PI);
    gdk_cairo_set_source_rgba(cr, beyond ? &palette->paper : &palette->ink);
    cairo_fill_preserve(cr);
    gdk_cairo_set_source_rgba(cr, beyond ? &palette->over : &palette->ink);
    cairo_stroke(cr);
}

static void paint_hand(WbStepChart *self, WbPen *pen, cairo_t *cr)
{
    if (isnan(self->hand_x + self->hand_y))
        return;
    double x = x_at(self, self->hand_x), y = y_at(self, self->hand_y);
    cairo_new_sub_path(cr);
    cairo_arc(cr, x, y, RADIUS + 3, 0, 2 * G_PI);
    cairo_set_line_width(cr, 2);
    gdk_cairo_set_source_rgba(cr, &pen->palette.accent);
    cairo_stroke(cr);
}

static void paint_marks(WbStepChart *self, WbPen *pen)
{
    cairo_t *cr = gtk_snapshot_append_cairo(
        pen->snapshot, &GRAPHENE_RECT_INIT((float)self->left - 8, (float)TOP - 8,
                                           (float)(self->right - self->left) + 16,
                                           (float)(self->bottom - TOP) + 16));
    paint_line(self, cr, &pen->palette);
    for (guint i = 0; i < self->n; i++)
        paint_step(self, cr, &pen->palette, i);
    paint_hand(self, pen, cr);
    cairo_destroy(cr);
    if (isnan(self->hand_x + self->hand_y))
        return;
    double x = x_at(self, self->hand_x);
    gboolean after = x < (self->left + self->right) / 2;
    wb_pen_text(pen, _("in hand"), after ? x + 9 : x - 9, y_at(self, self->hand_y) + 3,
                after ? 0 : 1, 0, &pen->palette.accent);
}

static void wb_step_chart_snapshot(GtkWidget *widget, GtkSnapshot *snapshot)
{
    WbStepChart *self = WB_STEP_CHART(widget);
    int width = gtk_widget_get_width(widget), height = gtk_widget_get_height(widget);
    WbPen pen;
    wb_pen_begin(&pen, widget, snapshot);
    if (self->n == 0) {
        wb_pen_empty(&pen, self->summary);
        wb_pen_end(&pen);
        return;
    }
    fit_axes(self, width, height);
    self->left = wb_pen_axis_width(&pen, &self->y) + 10;
    self->right = MAX(width - 20, self->left + 10);
    self->bottom = MAX(height - BELOW, TOP + 10);
    gtk_snapshot_push_opacity(snapshot, self->stale ? 0.55 : 1);
    paint_axes(self, &pen);
    paint_limit(self, &pen);
    paint_marks(self, &pen);
    gtk_snapshot_pop(snapshot);
    if (self->shown >= 0 && self->text != NULL) {
        const WbStep *step = &self->steps[self->shown];
        g_autofree char *text = self->text((guint)self->shown, self->text_data);
        wb_pen_card(&pen, text, x_at(self, step->x), y_at(self, step->y));
    }
    wb_pen_end(&pen);
}

/* ---- pointer and keys ---- */

/* The step whose stretch of the line stands over x; the first before it begins. */
static int step_at(const WbStepChart *self, double x)
{
    int at = self->n > 0 ? 0 : -1;
    for (guint i = 0; self->right > self->left && i < self->n; i++)
        if (x_at(self, self->steps[i].x) <= x + RADIUS)
            at = (int)i;
    return at;
}

static void on_motion(GtkEventControllerMotion *motion, double x, double y, WbStepChart *self)
{
    show_step(self, step_at(self, x));
}

static void on_leave(GtkEventControllerMotion *motion, WbStepChart *self)
{
    show_step(self, -1);
}

static void choose(WbStepChart *self, int index)
{
    if (index >= 0)
        g_signal_emit(self, signals[CHOSEN], 0, (guint)index);
}

static void on_pressed(GtkGestureClick *click, int n, double x, double y, WbStepChart *self)
{
    gtk_widget_grab_focus(GTK_WIDGET(self));
    choose(self, step_at(self, x));
}

static void on_focus_left(GtkEventControllerFocus *focus, WbStepChart *self)
{
    show_step(self, -1);
}

static gboolean on_step(GtkWidget *widget, GVariant *arguments, gpointer data)
{
    WbStepChart *self = WB_STEP_CHART(widget);
    int by = g_variant_get_int32(arguments);
    if (self->n == 0)
        return FALSE;
    /* The first key shows an end of the line, unless it moves from the step in sight. */
    int at = self->shown >= 0 ? self->shown + by : by > 0 ? 0 : (int)self->n - 1;
    show_step(self, CLAMP(at, 0, (int)self->n - 1));
    return TRUE;
}

static gboolean on_end(GtkWidget *widget, GVariant *arguments, gpointer data)
{
    WbStepChart *self = WB_STEP_CHART(widget);
    show_step(self, g_variant_get_boolean(arguments) ? (int)self->n - 1 : MIN(0, (int)self->n - 1));
    return self->n > 0;
}

static gboolean on_enter(GtkWidget *widget, GVariant *arguments, gpointer data)
{
    WbStepChart *self = WB_STEP_CHART(widget);
    choose(self, self->shown);
    return self->shown >= 0;
}

/* ---- GObject ---- */

static void wb_step_chart_measure(GtkWidget *widget, GtkOrientation orientation, int for_size,
                                  int *minimum, int *natural, int *minimum_baseline,
                                  int *natural_baseline)
{
    *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 240 : 140;
    *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 320 : 200;
}

static void wb_step_chart_finalize(GObject *object)
{
    WbStepChart *self = WB_STEP_CHART(object);
    g_free(self->steps);
    g_free(self->x_label);
    g_free(self->y_label);
    g_free(self->summary);
    G_OBJECT_CLASS(wb_step_chart_parent_class)->finalize(object);
}

static void bind_keys(GtkWidgetClass *class)
{
    gtk_widget_class_add_binding(class, GDK_KEY_Left, 0, on_step, "i", -1);
    gtk_widget_class_add_binding(class, GDK_KEY_Right, 0, on_step, "i", 1);
    gtk_widget_class_add_binding(class, GDK_KEY_Home, 0, on_end, "b", FALSE);
    gtk_widget_class_add_binding(class, GDK_KEY_End, 0, on_end, "b", TRUE);
    static const guint enter[] = {GDK_KEY_Return, GDK_KEY_KP_Enter, GDK_KEY_space};
    for (guint i = 0; i < G_N_ELEMENTS(enter); i++)
        gtk_widget_class_add_binding(class, enter[i], 0, on_enter, NULL);
}

static void wb_step_chart_class_init(WbStepChartClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->finalize = wb_step_chart_finalize;
    widget->snapshot = wb_step_chart_snapshot;
    widget->measure = wb_step_chart_measure;
    gtk_widget_class_set_css_name(widget, "stepchart");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_IMG);
    bind_keys(widget);
    /* The step at this index was clicked or entered. */
    signals[CHOSEN] = g_signal_new("chosen", WB_TYPE_STEP_CHART, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
}

static void wb_step_chart_init(WbStepChart *self)
{
    GtkWidget *widget = GTK_WIDGET(self);
    self->shown = -1;
    self->limit = self->end = INFINITY;
    self->hand_x = self->hand_y = NAN;
    self->x_label = g_strdup("");
    self->y_label = g_strdup("");
    self->summary = g_strdup("");
    gtk_widget_set_focusable(widget, TRUE);
    GtkEventController *motion = gtk_event_controller_motion_new();
    g_signal_connect(motion, "motion", G_CALLBACK(on_motion), self);
    g_signal_connect(motion, "leave", G_CALLBACK(on_leave), self);
    gtk_widget_add_controller(widget, motion);
    GtkGesture *click = gtk_gesture_click_new();
    g_signal_connect(click, "pressed", G_CALLBACK(on_pressed), self);
    gtk_widget_add_controller(widget, GTK_EVENT_CONTROLLER(click));
    GtkEventController *focus = gtk_event_controller_focus_new();
    g_signal_connect(focus, "leave", G_CALLBACK(on_focus_left), self);
    gtk_widget_add_controller(widget, focus);
}

GtkWidget *wb_step_chart_new(void)
{
    return g_object_new(WB_TYPE_STEP_CHART, NULL);
}

void wb_step_chart_set_text(WbStepChart *self, WbStepText text, gpointer data)
{
    g_return_if_fail(WB_IS_STEP_CHART(self));
    self->text = text;
    self->text_data = data;
}

void wb_step_chart_set_words(WbStepChart *self, const char *x_label, const char *y_label,
                             const char *summary)
{
    g_return_if_fail(WB_IS_STEP_CHART(self));
    g_free(self->x_label);
    g_free(self->y_label);
    g_free(self->summary);
    self->x_label = g_strdup(x_label);
    self->y_label = g_strdup(y_label);
    self->summary = g_strdup(summary);
    describe(self);
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

void wb_step_chart_set_steps(WbStepChart *self, const WbStep *steps, guint n, double limit,
                             double end)
{
    g_return_if_fail(WB_IS_STEP_CHART(self));
    g_free(self->steps);
    self->steps = g_memdup2(steps, n * sizeof *steps);
    self->n = n;
    self->limit = limit;
    self->end = end;
    self->shown = -1;
    describe(self);
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

void wb_step_chart_set_hand(WbStepChart *self, double x, double y)
{
    g_return_if_fail(WB_IS_STEP_CHART(self));
    self->hand_x = x;
    self->hand_y = y;
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

void wb_step_chart_set_stale(WbStepChart *self, gboolean stale)
{
    g_return_if_fail(WB_IS_STEP_CHART(self));
    self->stale = stale;
    gtk_widget_queue_draw(GTK_WIDGET(self));
}
