/* A roof plan under the pointer: choosing, dragging, resizing, zooming and panning. */
#include "roof_plan_private.h"

#include <math.h>

#define CLICK_PX 3      /* a press that moves less is a click */
#define SNAP_PX 8       /* how near a line must be */
#define DOUBLE_MS 400   /* two presses within it, and within CLICK_PX, are one double press */
#define WHEEL_ZOOM 1.15 /* a notch of the wheel */
#define WHEEL_PAN 40
#define MOST_MM 100000 /* a roof may be so long */

void wb_plan_let_go(WbRoofPlan *self)
{
    g_free(self->held.refusal);
    self->held = (WbPlanHeld){0};
    wb_plan_redraw(self);
}

static GdkModifierType state_of(gpointer controller)
{
    return gtk_event_controller_get_current_event_state(GTK_EVENT_CONTROLLER(controller));
}

/* ---- press ---- */

static gboolean is_double(WbRoofPlan *self, gpointer gesture, double x, double y)
{
    guint32 now = gtk_event_controller_get_current_event_time(GTK_EVENT_CONTROLLER(gesture));
    gboolean twice = self->last_press != 0 && now - self->last_press < DOUBLE_MS &&
                     hypot(x - self->last_x, y - self->last_y) <= CLICK_PX;
    self->last_press = twice ? 0 : now;
    self->last_x = x;
    self->last_y = y;
    return twice;
}

static gboolean add_corner_at(WbRoofPlan *self, double x, double y)
{
    WbPlanPlace place = wb_plan_place(self);
    int edge = wb_plan_hit_edge(self, x, y);
    if (edge < 0)
        return FALSE;
    WbRect at = {(gint64)round((x - place.x) / place.scale),
                 (gint64)round((y - place.y) / place.scale), 0, 0};
    at.x_mm = CLAMP(at.x_mm, 0, self->roof.length_mm);
    at.y_mm = CLAMP(at.y_mm, 0, self->roof.width_mm);
    wb_plan_ask(self, WB_PLAN_ADD, (WbPlanThing){WB_PLAN_CORNER, edge}, at);
    return TRUE;
}

static void on_drag_begin(GtkGestureDrag *drag, double x, double y, WbRoofPlan *self)
{
    WbPlanHeld hit;
    gtk_widget_grab_focus(GTK_WIDGET(self));
    wb_roof_plan_tell(self, NULL);
    gboolean twice = is_double(self, drag, x, y);
    wb_plan_hit(self, x, y, &hit);
    if (twice && hit.thing.kind != WB_PLAN_CORNER && add_corner_at(self, x, y))
        return;
    wb_plan_let_go(self);
    wb_plan_pick(self, hit.thing);
    self->held = hit;
    if (hit.grip == WB_GRIP_NONE)
        self->held.grip = WB_GRIP_VIEW; /* the ground is pushed about */
    gtk_gesture_set_state(GTK_GESTURE(drag), GTK_EVENT_SEQUENCE_CLAIMED);
}

/* ---- drag ---- */

static void drag_view(WbRoofPlan *self, double x, double y)
{
    WbViewFrame frame = wb_plan_frame(self);
    if (!self->given)
        return;
    wb_roof_view_pan(&self->view, &frame, x - self->held.x, y - self->held.y);
    self->held.x = x;
    self->held.y = y;
}

static WbRect moved(WbRoofPlan *self, double x_mm, double y_mm, gint64 reach, gint64 step)
{
    const WbPlanHeld *held = &self->held;
    WbHeld around = wb_plan_around(self, held->thing);
    WbRect rect = held->was;
    rect.x_mm = (gint64)round(x_mm - held->x_mm);
    rect.y_mm = (gint64)round(y_mm - held->y_mm);
    rect = wb_held_snap(&around, rect, reach, step);
    if (held->thing.kind == WB_PLAN_RIGHT)
        rect.y_mm = held->was.y_mm;
    if (held->thing.kind == WB_PLAN_BACK)
        rect.x_mm = held->was.x_mm;
    /* It touches the roof at least by its edge, and edges and corners stay on the paper. */
    gboolean point = held->thing.kind != WB_PLAN_OBSTACLE && held->thing.kind != WB_PLAN_PANEL;
    gboolean gland = held->thing.kind == WB_PLAN_GLAND;
    gint64 far = held->thing.kind == WB_PLAN_OBSTACLE || held->thing.kind == WB_PLAN_PANEL || gland
                     ? 0
                     : MOST_MM;
    rect.x_mm = CLAMP(rect.x_mm, point ? 0 : -rect.length_mm, MAX(far, self->roof.length_mm));
    rect.y_mm = CLAMP(rect.y_mm, point ? 0 : -rect.width_mm, MAX(far, self->roof.width_mm));
    return rect;
}

/* A round one stays round: the side that moved more leads, and what was opposite stays. */
static WbRect made_round(const WbRect *was, WbRect rect, guint sides)
{
    gint64 by_x = ABS(rect.length_mm - was->length_mm), by_y = ABS(rect.width_mm - was->width_mm);
    gint64 size = by_x >= by_y ? rect.length_mm : rect.width_mm;
    if (sides & 1u << WB_SIDE_LEFT)
        rect.x_mm = was->x_mm + was->length_mm - size;
    if (sides & 1u << WB_SIDE_FRONT)
        rect.y_mm = was->y_mm + was->width_mm - size;
    rect.length_mm = rect.width_mm = size;
    return rect;
}

static WbRect resized(WbRoofPlan *self, double x_mm, double y_mm, gint64 reach, gint64 step)
{
    const WbPlanHeld *held = &self->held;
    WbHeld around = wb_plan_around(self, held->thing);
    WbRect rect = held->was;
    for (int side = 0; side < WB_N_SIDES; side++) {
        gboolean upright = side == WB_SIDE_LEFT || side == WB_SIDE_RIGHT;
        double to = upright ? x_mm : y_mm;
        if (held->sides & 1u << side)
            rect = wb_held_snap_side(&around, rect, (WbSide)side, (gint64)round(to), reach, step);
    }
    return self->roof.obstacles[held->thing.index].round ? made_round(&held->was, rect, held->sides)
                                                         : rect;
}

static void on_drag_update(GtkGestureDrag *drag, double dx, double dy, WbRoofPlan *self)
{
    double x, y;
    WbPlanHeld *held = &self->held;
    if (held->grip == WB_GRIP_NONE || !gtk_gesture_drag_get_start_point(drag, &x, &y))
        return;
    if (held->grip == WB_GRIP_VIEW) {
        drag_view(self, x + dx, y + dy);
    } else {
        if (!self->editable || (!held->off && hypot(dx, dy) < CLICK_PX))
            return;
        WbPlanPlace place = wb_plan_place(self);
        gboolean by_one = (state_of(drag) & GDK_SHIFT_MASK) != 0;
        gint64 reach = by_one ? 0 : (gint64)ceil(SNAP_PX / place.scale), step = by_one ? 1 : 10;
        double x_mm = (x + dx - place.x) / place.scale, y_mm = (y + dy - place.y) / place.scale;
        held->off = TRUE;
        held->now = held->grip == WB_GRIP_MOVE ? moved(self, x_mm, y_mm, reach, step)
                                               : resized(self, x_mm, y_mm, reach, step);
        g_clear_pointer(&held->refusal, g_free);
        if (held->thing.kind == WB_PLAN_PANEL)
            held->refusal = wb_roof_plan_not_free(self, held->thing.index, &held->now);
    }
    wb_plan_redraw(self);
}

static gboolean same_rect(const WbRect *a, const WbRect *b)
{
    return a->x_mm == b->x_mm && a->y_mm == b->y_mm && a->length_mm == b->length_mm &&
           a->width_mm == b->width_mm;
}

static void on_drag_end(GtkGestureDrag *drag, double dx, double dy, WbRoofPlan *self)
{
    WbPlanHeld held = self->held;
    g_autofree char *refusal = g_steal_pointer(&self->held.refusal);
    wb_plan_let_go(self);
    if (!held.off || !wb_plan_has(self, held.thing) || same_rect(&held.was, &held.now))
        return;
    if (refusal != NULL)
        wb_roof_plan_tell(self, refusal); /* it goes back */
    else
        wb_plan_ask(self, held.grip == WB_GRIP_RESIZE ? WB_PLAN_RESIZE : WB_PLAN_MOVE, held.thing,
                    held.now);
}

static void on_drag_cancel(GtkGesture *gesture, GdkEventSequence *sequence, WbRoofPlan *self)
{
    wb_plan_let_go(self);
}

/* ---- the middle button and the wheel ---- */

static void on_push_begin(GtkGestureDrag *drag, double x, double y, WbRoofPlan *self)
{
    wb_plan_let_go(self);
    self->held = (WbPlanHeld){.grip = WB_GRIP_VIEW, .x = x, .y = y};
    gtk_gesture_set_state(GTK_GESTURE(drag), GTK_EVENT_SEQUENCE_CLAIMED);
}

static gboolean on_scroll(GtkEventControllerScroll *scroll, double dx, double dy, WbRoofPlan *self)
{
    WbViewFrame frame = wb_plan_frame(self);
    if (!self->given)
        return FALSE;
    if (state_of(scroll) & GDK_CONTROL_MASK)
        wb_roof_view_zoom(&self->view, &frame, pow(WHEEL_ZOOM, -dy), self->last_x, self->last_y);
    else if (self->view.zoom > 1)
        wb_roof_view_pan(&self->view, &frame, -dx * WHEEL_PAN, -dy * WHEEL_PAN);
    else
        return FALSE;
    wb_plan_redraw(self);
    return TRUE;
}

/* ---- the pointer's shape ---- */

static const char *cursor_for(const WbPlanHeld *hit)
{
    static const char *const along[] = {"w-resize", "e-resize", "n-resize", "s-resize"};
    if (hit->grip == WB_GRIP_NONE)
        return NULL;
    if (hit->thing.kind == WB_PLAN_RIGHT)
        return "e-resize";
    if (hit->thing.kind == WB_PLAN_BACK)
        return "s-resize";
    if (hit->grip == WB_GRIP_MOVE)
        return "move";
    for (int side = 0; side < WB_N_SIDES; side++)
        if (hit->sides == 1u << side)
            return along[side];
    gboolean left = (hit->sides & 1u << WB_SIDE_LEFT) != 0;
    gboolean front = (hit->sides & 1u << WB_SIDE_FRONT) != 0;
    return left == front ? "nwse-resize" : "nesw-resize";
}

static void on_motion(GtkEventControllerMotion *motion, double x, double y, WbRoofPlan *self)
{
    WbPlanHeld hit;
    if (self->last_press != 0 && hypot(x - self->last_x, y - self->last_y) > CLICK_PX)
        self->last_press = 0;
    self->last_x = x; /* where a wheel zooms */
    self->last_y = y;
    if (self->held.grip != WB_GRIP_NONE)
        return;
    wb_plan_hit(self, x, y, &hit);
    gtk_widget_set_cursor_from_name(GTK_WIDGET(self), cursor_for(&hit));
}

static void add(WbRoofPlan *self, gpointer controller)
{
    gtk_widget_add_controller(GTK_WIDGET(self), GTK_EVENT_CONTROLLER(controller));
}

void wb_plan_attach_hand(WbRoofPlan *self)
{
    GtkGesture *drag = gtk_gesture_drag_new(), *push = gtk_gesture_drag_new();
    GtkEventController *motion = gtk_event_controller_motion_new();
    GtkEventController *scroll =
        gtk_event_controller_scroll_new(GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
    gtk_gesture_single_set_button(GTK_GESTURE_SINGLE(push), GDK_BUTTON_MIDDLE);
    g_signal_connect(drag, "drag-begin", G_CALLBACK(on_drag_begin), self);
    g_signal_connect(drag, "drag-update", G_CALLBACK(on_drag_update), self);
    g_signal_connect(drag, "drag-end", G_CALLBACK(on_drag_end), self);
    g_signal_connect(drag, "cancel", G_CALLBACK(on_drag_cancel), self);
    g_signal_connect(push, "drag-begin", G_CALLBACK(on_push_begin), self);
    g_signal_connect(push, "drag-update", G_CALLBACK(on_drag_update), self);
    g_signal_connect(push, "drag-end", G_CALLBACK(on_drag_end), self);
    g_signal_connect(push, "cancel", G_CALLBACK(on_drag_cancel), self);
    g_signal_connect(motion, "motion", G_CALLBACK(on_motion), self);
    g_signal_connect(scroll, "scroll", G_CALLBACK(on_scroll), self);
    add(self, drag);
    add(self, push);
    add(self, motion);
    add(self, scroll);
}
