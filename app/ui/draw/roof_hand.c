/* How a roof plan is taken in hand: choosing, dragging and nudging obstacles. */
#include "roof_plan_private.h"

#include <math.h>

enum { CHOSEN, MOVED, NUDGED, REMOVED, N_SIGNALS };
static guint signals[N_SIGNALS];

static void choose(WbRoofPlan *self, int index)
{
    if (index == self->chosen)
        return;
    wb_roof_plan_choose(self, index);
    g_signal_emit(self, signals[CHOSEN], 0, index);
}

/* ---- pointer ---- */

/* The topmost obstacle at a point; small ones are taken from up to 4 px away. */
static int obstacle_at(WbRoofPlan *self, double x, double y)
{
    WbPlanPlace place = wb_roof_plan_place(self);
    for (int i = (int)self->n_obstacles - 1; i >= 0; i--) {
        const WbRect *rect = &self->obstacles[i].rect;
        double left = place.x + place.scale * (double)rect->x_mm;
        double top = place.y + place.scale * (double)rect->y_mm;
        double right = left + place.scale * (double)rect->length_mm;
        double bottom = top + place.scale * (double)rect->width_mm;
        if (x >= left - 4 && x <= right + 4 && y >= top - 4 && y <= bottom + 4)
            return i;
    }
    return -1;
}

static void let_go(WbRoofPlan *self)
{
    self->held = -1;
    self->off = FALSE;
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

static void on_drag_begin(GtkGestureDrag *drag, double x, double y, WbRoofPlan *self)
{
    WbPlanPlace place = wb_roof_plan_place(self);
    int index = obstacle_at(self, x, y);
    gtk_widget_grab_focus(GTK_WIDGET(self));
    choose(self, index);
    if (index < 0)
        return;
    const WbRect *rect = &self->obstacles[index].rect;
    self->held = index;
    self->held_x_mm = rect->x_mm;
    self->held_y_mm = rect->y_mm;
    self->grip_x_mm = (x - place.x) / place.scale - (double)rect->x_mm;
    self->grip_y_mm = (y - place.y) / place.scale - (double)rect->y_mm;
    gtk_gesture_set_state(GTK_GESTURE(drag), GTK_EVENT_SEQUENCE_CLAIMED);
}

/* To whole steps, touching the roof at least by its edge. */
static gint64 snap(double mm, gint64 step, gint64 size, gint64 roof)
{
    gint64 snapped = (gint64)round(mm / (double)step) * step;
    return CLAMP(snapped, -size, roof);
}

static void on_drag_update(GtkGestureDrag *drag, double dx, double dy, WbRoofPlan *self)
{
    double x, y;
    if (self->held < 0 || !gtk_gesture_drag_get_start_point(drag, &x, &y))
        return;
    WbPlanPlace place = wb_roof_plan_place(self);
    GdkModifierType state =
        gtk_event_controller_get_current_event_state(GTK_EVENT_CONTROLLER(drag));
    gint64 step = state & GDK_SHIFT_MASK ? 1 : 10;
    const WbRect *rect = &self->obstacles[self->held].rect;
    if (!self->off && hypot(dx, dy) < 3)
        return; /* a click, not a drag */
    self->off = TRUE;
    self->held_x_mm = snap((x + dx - place.x) / place.scale - self->grip_x_mm, step,
                           rect->length_mm, self->length_mm);
    self->held_y_mm = snap((y + dy - place.y) / place.scale - self->grip_y_mm, step, rect->width_mm,
                           self->width_mm);
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

static void on_drag_end(GtkGestureDrag *drag, double dx, double dy, WbRoofPlan *self)
{
    int held = self->held;
    gint64 x_mm = self->held_x_mm, y_mm = self->held_y_mm;
    gboolean moved = self->off && held >= 0 && held < (int)self->n_obstacles;
    if (moved)
        moved = x_mm != self->obstacles[held].rect.x_mm || y_mm != self->obstacles[held].rect.y_mm;
    let_go(self);
    if (moved)
        g_signal_emit(self, signals[MOVED], 0, held, x_mm, y_mm);
}

static void on_drag_cancel(GtkGesture *gesture, GdkEventSequence *sequence, WbRoofPlan *self)
{
    let_go(self);
}

static void on_motion(GtkEventControllerMotion *motion, double x, double y, WbRoofPlan *self)
{
    gboolean over = self->length_mm > 0 && obstacle_at(self, x, y) >= 0;
    gtk_widget_set_cursor_from_name(GTK_WIDGET(self), over ? "move" : NULL);
}

/* ---- keys ---- */

static gboolean nudge(WbRoofPlan *self, gint64 dx, gint64 dy, GdkModifierType state)
{
    gint64 step = state & GDK_CONTROL_MASK ? 100 : state & GDK_SHIFT_MASK ? 10 : 1;
    if (self->chosen < 0)
        return FALSE; /* the arrow moves the keyboard on */
    g_signal_emit(self, signals[NUDGED], 0, self->chosen, dx * step, dy * step);
    return TRUE;
}

static gboolean choose_next(WbRoofPlan *self, int by)
{
    int n = (int)self->n_obstacles;
    if (n == 0)
        return FALSE;
    if (self->chosen < 0)
        choose(self, by > 0 ? 0 : n - 1);
    else
        choose(self, (self->chosen + by + n) % n);
    return TRUE;
}

/* Escape first lets go of a drag, then of the choice. */
static gboolean escape(WbRoofPlan *self)
{
    if (self->held >= 0) {
        let_go(self);
        return TRUE;
    }
    gboolean any = self->chosen >= 0;
    choose(self, -1);
    return any;
}

static gboolean on_key(GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
                       WbRoofPlan *self)
{
    if (state & GDK_ALT_MASK)
        return FALSE;
    switch (key) {
    case GDK_KEY_Left:
        return nudge(self, -1, 0, state);
    case GDK_KEY_Right:
        return nudge(self, 1, 0, state);
    case GDK_KEY_Up:
        return nudge(self, 0, -1, state);
    case GDK_KEY_Down:
        return nudge(self, 0, 1, state);
    case GDK_KEY_space:
        return choose_next(self, 1);
    case GDK_KEY_BackSpace:
        return choose_next(self, -1);
    case GDK_KEY_Escape:
        return escape(self);
    case GDK_KEY_Delete:
        if (self->chosen < 0)
            return FALSE;
        g_signal_emit(self, signals[REMOVED], 0, self->chosen);
        return TRUE;
    default:
        return FALSE;
    }
}

void wb_roof_hand_attach(WbRoofPlan *self)
{
    GtkGesture *drag = gtk_gesture_drag_new();
    GtkEventController *motion = gtk_event_controller_motion_new();
    GtkEventController *keys = gtk_event_controller_key_new();
    gtk_widget_set_focusable(GTK_WIDGET(self), TRUE);
    gtk_widget_set_focus_on_click(GTK_WIDGET(self), TRUE);
    g_signal_connect(drag, "drag-begin", G_CALLBACK(on_drag_begin), self);
    g_signal_connect(drag, "drag-update", G_CALLBACK(on_drag_update), self);
    g_signal_connect(drag, "drag-end", G_CALLBACK(on_drag_end), self);
    g_signal_connect(drag, "cancel", G_CALLBACK(on_drag_cancel), self);
    g_signal_connect(motion, "motion", G_CALLBACK(on_motion), self);
    g_signal_connect(keys, "key-pressed", G_CALLBACK(on_key), self);
    gtk_widget_add_controller(GTK_WIDGET(self), GTK_EVENT_CONTROLLER(drag));
    gtk_widget_add_controller(GTK_WIDGET(self), motion);
    gtk_widget_add_controller(GTK_WIDGET(self), keys);
}

void wb_roof_hand_class_init(WbRoofPlanClass *klass)
{
    GType type = G_TYPE_FROM_CLASS(klass);
    signals[CHOSEN] = g_signal_new("chosen", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 1, G_TYPE_INT);
    signals[MOVED] = g_signal_new("moved", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 3, G_TYPE_INT, G_TYPE_INT64, G_TYPE_INT64);
    signals[NUDGED] = g_signal_new("nudged", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 3, G_TYPE_INT, G_TYPE_INT64, G_TYPE_INT64);
    signals[REMOVED] = g_signal_new("removed", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                    G_TYPE_NONE, 1, G_TYPE_INT);
}
