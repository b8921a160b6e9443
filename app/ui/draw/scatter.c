#include "scatter_private.h"

#include "pen.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { CHOSEN, BRUSH_CHANGED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE(WbScatter, wb_scatter, GTK_TYPE_WIDGET)

static void repaint(WbScatter *self)
{
    g_clear_pointer(&self->base, gsk_render_node_unref);
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

static void describe(WbScatter *self)
{
    g_autofree char *label =
        g_strdup_printf(_("%s against %s"), self->y_label != NULL ? self->y_label : "",
                        self->x_label != NULL ? self->x_label : "");
    g_autofree char *shown = NULL;
    int told = self->shown >= 0 ? self->shown : self->chosen;
    if (told >= 0 && self->text != NULL)
        shown = self->text((guint)told, self->text_data);
    g_autofree char *description =
        g_strdup_printf(_("%u kits, %u of them beaten by no other in these two. %s"), self->n,
                        self->n_line, shown != NULL ? shown : "");
    wb_pen_describe(GTK_WIDGET(self), label, description);
}

static void show_point(WbScatter *self, int index)
{
    if (index == self->shown)
        return;
    self->shown = index;
    describe(self);
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

/* Best x first; among equal x the better y first. */
static int by_worth(gconstpointer a, gconstpointer b, gpointer data)
{
    const WbScatter *self = data;
    const WbScatterPoint *p = &self->points[*(const guint *)a],
                         *q = &self->points[*(const guint *)b];
    double x = self->x_less ? p->x - q->x : q->x - p->x;
    double y = self->y_less ? p->y - q->y : q->y - p->y;
    double order = x < 0 || x > 0 ? x : y;
    return order < 0 ? -1 : order > 0;
}

static void find_line(WbScatter *self)
{
    g_free(self->line);
    self->line = g_new(guint, self->n + 1);
    self->n_line = 0;
    guint n = 0;
    for (guint i = 0; i < self->n; i++)
        if (!isnan(self->points[i].x + self->points[i].y))
            self->line[n++] = i;
    g_qsort_with_data(self->line, (int)n, sizeof *self->line, by_worth, self);
    double best = self->y_less ? INFINITY : -INFINITY;
    for (guint i = 0; i < n; i++) {
        double y = self->points[self->line[i]].y;
        if (self->y_less ? y >= best : y <= best)
            continue;
        best = y;
        self->line[self->n_line++] = self->line[i];
    }
}

void wb_scatter_choose(WbScatter *self, int index)
{
    if (index >= 0)
        g_signal_emit(self, signals[CHOSEN], 0, (guint)index);
}

int wb_scatter_nearest(WbScatter *self, double x, double y)
{
    int best = -1;
    double least = 14 * 14;
    for (guint i = 0; self->base != NULL && i < self->n; i++) {
        double px, py;
        wb_scatter_place(self, i, &px, &py);
        double distance = (px - x) * (px - x) + (py - y) * (py - y);
        if (distance < least || ((int)i == self->chosen && distance <= least)) {
            least = distance;
            best = (int)i;
        }
    }
    return best;
}

static void on_motion(GtkEventControllerMotion *motion, double x, double y, WbScatter *self)
{
    show_point(self, wb_scatter_nearest(self, x, y));
}

static void on_leave(GtkEventControllerMotion *motion, WbScatter *self)
{
    show_point(self, -1);
}

static void on_focus(GtkEventControllerFocus *focus, WbScatter *self)
{
    if (self->shown < 0 && gtk_event_controller_focus_is_focus(focus))
        show_point(self, self->chosen);
}

static void on_focus_left(GtkEventControllerFocus *focus, WbScatter *self)
{
    show_point(self, -1);
}

/* Step along the points, or along the line where `along` is set. */
static void step(WbScatter *self, int by, gboolean along)
{
    int at = self->shown >= 0 ? self->shown : self->chosen;
    if (!along) {
        show_point(self, CLAMP(at + by, 0, (int)self->n - 1));
        return;
    }
    int on = -1;
    for (guint i = 0; i < self->n_line; i++)
        if ((int)self->line[i] == at)
            on = (int)i;
    gboolean rising = self->points[self->line[0]].x <= self->points[self->line[self->n_line - 1]].x;
    on = on < 0 ? 0 : on + (rising ? by : -by);
    show_point(self, (int)self->line[CLAMP(on, 0, (int)self->n_line - 1)]);
}

static gboolean on_step(GtkWidget *widget, GVariant *arguments, gpointer data)
{
    WbScatter *self = WB_SCATTER(widget);
    int by, from = self->shown >= 0 ? self->shown : self->chosen;
    gboolean along, extend;
    g_variant_get(arguments, "(ibb)", &by, &along, &extend);
    if (self->n == 0 || self->n_line == 0)
        return FALSE;
    step(self, by, along);
    wb_scatter_brush_walk(self, from, extend);
    return TRUE;
}

static gboolean on_escape(GtkWidget *widget, GVariant *arguments, gpointer data)
{
    return wb_scatter_brush_clear(WB_SCATTER(widget));
}

static gboolean on_enter(GtkWidget *widget, GVariant *arguments, gpointer data)
{
    WbScatter *self = WB_SCATTER(widget);
    wb_scatter_choose(self, self->shown);
    return self->shown >= 0;
}

static void wb_scatter_snapshot(GtkWidget *widget, GtkSnapshot *snapshot)
{
    wb_scatter_paint(WB_SCATTER(widget), snapshot);
}

static void wb_scatter_measure(GtkWidget *widget, GtkOrientation orientation, int for_size,
                               int *minimum, int *natural, int *minimum_baseline,
                               int *natural_baseline)
{
    *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 240 : 130;
    *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 520 : 240;
}

static void wb_scatter_size_allocate(GtkWidget *widget, int width, int height, int baseline)
{
    g_clear_pointer(&WB_SCATTER(widget)->base, gsk_render_node_unref);
}

static void wb_scatter_css_changed(GtkWidget *widget, GtkCssStyleChange *change)
{
    GTK_WIDGET_CLASS(wb_scatter_parent_class)->css_changed(widget, change);
    repaint(WB_SCATTER(widget));
}

static void wb_scatter_finalize(GObject *object)
{
    WbScatter *self = WB_SCATTER(object);
    g_clear_pointer(&self->base, gsk_render_node_unref);
    g_free(self->points);
    g_free(self->line);
    g_free(self->x_label);
    g_free(self->y_label);
    for (guint s = 0; s < WB_N_SERIES; s++)
        g_free(self->series_name[s]);
    G_OBJECT_CLASS(wb_scatter_parent_class)->finalize(object);
}

static void bind_keys(GtkWidgetClass *class)
{
    static const struct {
        guint key;
        int by;
        gboolean along;
    } keys[] = {
        {GDK_KEY_Left, -1, TRUE}, {GDK_KEY_Right, 1, TRUE},       {GDK_KEY_Up, -1, FALSE},
        {GDK_KEY_Down, 1, FALSE}, {GDK_KEY_Home, -1000000, TRUE}, {GDK_KEY_End, 1000000, TRUE},
    };
    for (guint i = 0; i < G_N_ELEMENTS(keys); i++) {
        gtk_widget_class_add_binding(class, keys[i].key, 0, on_step, "(ibb)", keys[i].by,
                                     keys[i].along, FALSE);
        gtk_widget_class_add_binding(class, keys[i].key, GDK_SHIFT_MASK, on_step, "(ibb)",
                                     keys[i].by, keys[i].along, TRUE);
    }
    gtk_widget_class_add_binding(class, GDK_KEY_Escape, 0, on_escape, NULL);
    gtk_widget_class_add_binding(class, GDK_KEY_Return, 0, on_enter, NULL);
    gtk_widget_class_add_binding(class, GDK_KEY_KP_Enter, 0, on_enter, NULL);
    gtk_widget_class_add_binding(class, GDK_KEY_space, 0, on_enter, NULL);
}

static void wb_scatter_class_init(WbScatterClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->finalize = wb_scatter_finalize;
    widget->snapshot = wb_scatter_snapshot;
    widget->measure = wb_scatter_measure;
    widget->size_allocate = wb_scatter_size_allocate;
    widget->css_changed = wb_scatter_css_changed;
    gtk_widget_class_set_css_name(widget, "scatter");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_IMG);
    bind_keys(widget);
    /* The point at this index was clicked or entered. */
    signals[CHOSEN] = g_signal_new("chosen", WB_TYPE_SCATTER, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
    signals[BRUSH_CHANGED] = g_signal_new("brush-changed", WB_TYPE_SCATTER, G_SIGNAL_RUN_LAST, 0,
                                          NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void wb_scatter_init(WbScatter *self)
{
    GtkWidget *widget = GTK_WIDGET(self);
    self->chosen = self->shown = self->anchor = -1;
    gtk_widget_set_focusable(widget, TRUE);
    GtkEventController *motion = gtk_event_controller_motion_new();
    g_signal_connect(motion, "motion", G_CALLBACK(on_motion), self);
    g_signal_connect(motion, "leave", G_CALLBACK(on_leave), self);
    gtk_widget_add_controller(widget, motion);
    wb_scatter_brush_attach(self);
    GtkEventController *focus = gtk_event_controller_focus_new();
    g_signal_connect(focus, "enter", G_CALLBACK(on_focus), self);
    g_signal_connect(focus, "leave", G_CALLBACK(on_focus_left), self);
    gtk_widget_add_controller(widget, focus);
    g_signal_connect(self, "notify::scale-factor", G_CALLBACK(repaint), NULL);
    describe(self);
}

GtkWidget *wb_scatter_new(void)
{
    return g_object_new(WB_TYPE_SCATTER, NULL);
}

void wb_scatter_set_axes(WbScatter *self, const char *x_label, gboolean x_less_is_better,
                         const char *y_label, gboolean y_less_is_better)
{
    g_return_if_fail(WB_IS_SCATTER(self));
    if (g_strcmp0(self->x_label, x_label) == 0 && g_strcmp0(self->y_label, y_label) == 0)
        return; /* they say which is better */
    g_free(self->x_label);
    g_free(self->y_label);
    self->x_label = g_strdup(x_label);
    self->y_label = g_strdup(y_label);
    self->x_less = x_less_is_better;
    self->y_less = y_less_is_better;
    find_line(self);
    describe(self);
    repaint(self);
}

void wb_scatter_set_points(WbScatter *self, const WbScatterPoint *points, guint n)
{
    g_return_if_fail(WB_IS_SCATTER(self));
    if (n == self->n && n > 0 && memcmp(self->points, points, n * sizeof *points) == 0)
        return;
    g_free(self->points);
    self->points = g_memdup2(points, n * sizeof *points);
    self->n = n;
    self->chosen = self->shown = self->anchor = -1;
    find_line(self);
    describe(self);
    repaint(self);
}

void wb_scatter_set_sized(WbScatter *self, gboolean sized)
{
    g_return_if_fail(WB_IS_SCATTER(self));
    if (!self->sized == !sized)
        return;
    self->sized = sized;
    repaint(self);
}

void wb_scatter_set_series(WbScatter *self, guint series, const char *name)
{
    g_return_if_fail(WB_IS_SCATTER(self) && series < WB_N_SERIES);
    if (g_strcmp0(self->series_name[series], name) == 0)
        return;
    g_free(self->series_name[series]);
    self->series_name[series] = g_strdup(name);
    repaint(self);
}

void wb_scatter_set_text(WbScatter *self, WbScatterText text, gpointer data)
{
    g_return_if_fail(WB_IS_SCATTER(self));
    self->text = text;
    self->text_data = data;
}

void wb_scatter_set_chosen(WbScatter *self, int index)
{
    g_return_if_fail(WB_IS_SCATTER(self) && index < (int)self->n);
    if (self->chosen == index)
        return;
    self->chosen = index;
    describe(self);
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

void wb_scatter_set_stale(WbScatter *self, gboolean stale)
{
    g_return_if_fail(WB_IS_SCATTER(self));
    if (!self->stale == !stale)
        return;
    self->stale = stale;
    gtk_widget_queue_draw(GTK_WIDGET(self));
}
