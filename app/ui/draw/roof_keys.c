/* A roof plan under the keyboard. */
#include "roof_plan_private.h"

#define KEY_ZOOM 1.25

static gboolean nudge(WbRoofPlan *self, gint64 dx, gint64 dy, GdkModifierType state)
{
    gint64 step = state & GDK_CONTROL_MASK ? 100 : state & GDK_SHIFT_MASK ? 10 : 1;
    WbPlanThing thing = self->chosen;
    gboolean grows = (state & GDK_ALT_MASK) != 0;
    if (!self->editable || !wb_plan_has(self, thing))
        return FALSE; /* the arrow moves the keyboard on */
    if (grows && thing.kind != WB_PLAN_OBSTACLE)
        return FALSE;
    if ((thing.kind == WB_PLAN_RIGHT && dx == 0) || (thing.kind == WB_PLAN_BACK && dy == 0))
        return TRUE; /* an edge has one way to go */
    wb_plan_ask(self, grows ? WB_PLAN_GROW : WB_PLAN_NUDGE, thing,
                (WbRect){dx * step, dy * step, 0, 0});
    return TRUE;
}

static gboolean choose_next(WbRoofPlan *self, int by)
{
    guint n = wb_plan_count(self);
    if (n == 0)
        return FALSE;
    guint next = !wb_plan_has(self, self->chosen)
                     ? (by > 0 ? 0 : n - 1)
                     : (wb_plan_position(self, self->chosen) + n + (guint)by) % n;
    wb_plan_pick(self, wb_plan_nth(self, next));
    return TRUE;
}

/* Escape first lets go of a drag, then of the choice. */
static gboolean escape(WbRoofPlan *self)
{
    gboolean told = self->told != NULL;
    if (self->held.grip != WB_GRIP_NONE) {
        wb_plan_let_go(self);
        return TRUE;
    }
    wb_roof_plan_tell(self, NULL);
    if (self->chosen.kind == WB_PLAN_NONE)
        return told;
    wb_plan_pick(self, (WbPlanThing){WB_PLAN_NONE, 0});
    return TRUE;
}

static gboolean zoom(WbRoofPlan *self, double factor)
{
    WbViewFrame frame = wb_plan_frame(self);
    if (!self->given)
        return FALSE;
    double x = frame.width / 2.0, y = frame.height / 2.0;
    if (wb_plan_has(self, self->chosen)) { /* what is chosen stays where it is in sight */
        WbPlanPlace place = wb_plan_place(self);
        WbRect rect = wb_plan_rect(self, self->chosen);
        double at_x = place.x + place.scale * ((double)rect.x_mm + (double)rect.length_mm / 2);
        double at_y = place.y + place.scale * ((double)rect.y_mm + (double)rect.width_mm / 2);
        x = CLAMP(at_x, 0, frame.width);
        y = CLAMP(at_y, 0, frame.height);
    }
    if (factor == 0)
        wb_roof_view_fit(&self->view);
    else
        wb_roof_view_zoom(&self->view, &frame, factor, x, y);
    wb_plan_redraw(self);
    return TRUE;
}

/* A panel is pinned or turned where it lies; a new corner comes into the middle of the next edge.
 */
static gboolean act(WbRoofPlan *self, WbPlanAction action)
{
    WbPlanThing thing = self->chosen;
    WbPlanKind kind = action == WB_PLAN_ADD ? WB_PLAN_CORNER : WB_PLAN_PANEL;
    WbRect rect = wb_plan_rect(self, thing);
    if (!self->editable || !wb_plan_has(self, thing) || thing.kind != kind)
        return FALSE;
    if (action == WB_PLAN_TURN)
        rect = (WbRect){rect.x_mm, rect.y_mm, rect.width_mm, rect.length_mm};
    if (action == WB_PLAN_ADD) {
        gsize next = ((gsize)thing.index + 1) % self->roof.n_corners;
        rect.x_mm = (rect.x_mm + self->roof.corners[next].x_mm) / 2;
        rect.y_mm = (rect.y_mm + self->roof.corners[next].y_mm) / 2;
    }
    wb_plan_ask(self, action, thing, rect);
    return TRUE;
}

static gboolean removes(WbRoofPlan *self)
{
    WbPlanKind kind = self->chosen.kind;
    if (!self->editable || !wb_plan_has(self, self->chosen) || kind == WB_PLAN_RIGHT ||
        kind == WB_PLAN_BACK)
        return FALSE;
    if (kind == WB_PLAN_PANEL && self->panels[self->chosen.index].pin < 0)
        return FALSE;
    wb_plan_ask(self, WB_PLAN_REMOVE, self->chosen, wb_plan_rect(self, self->chosen));
    return TRUE;
}

static gboolean arrow(WbRoofPlan *self, guint key, GdkModifierType state, gboolean *handled)
{
    switch (key) {
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
        *handled = nudge(self, -1, 0, state);
        return TRUE;
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
        *handled = nudge(self, 1, 0, state);
        return TRUE;
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
        *handled = nudge(self, 0, -1, state);
        return TRUE;
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
        *handled = nudge(self, 0, 1, state);
        return TRUE;
    default:
        return FALSE;
    }
}

static gboolean zoom_key(WbRoofPlan *self, guint key)
{
    switch (key) {
    case GDK_KEY_plus:
    case GDK_KEY_equal:
    case GDK_KEY_KP_Add:
        return zoom(self, KEY_ZOOM);
    case GDK_KEY_minus:
    case GDK_KEY_KP_Subtract:
        return zoom(self, 1 / KEY_ZOOM);
    case GDK_KEY_0:
    case GDK_KEY_KP_0:
        return zoom(self, 0);
    default:
        return FALSE;
    }
}

static gboolean on_key(GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
                       WbRoofPlan *self)
{
    gboolean handled = FALSE;
    if (arrow(self, key, state, &handled))
        return handled;
    if (state & (GDK_ALT_MASK | GDK_CONTROL_MASK))
        return FALSE;
    switch (key) {
    case GDK_KEY_space:
        return choose_next(self, 1);
    case GDK_KEY_BackSpace:
        return choose_next(self, -1);
    case GDK_KEY_Escape:
        return escape(self);
    case GDK_KEY_Delete:
    case GDK_KEY_KP_Delete:
        return removes(self);
    case GDK_KEY_Insert:
        return act(self, WB_PLAN_ADD);
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
        return act(self, WB_PLAN_PIN);
    case GDK_KEY_t:
    case GDK_KEY_T:
        return act(self, WB_PLAN_TURN);
    default:
        return zoom_key(self, key);
    }
}

void wb_plan_attach_keys(WbRoofPlan *self)
{
    GtkEventController *keys = gtk_event_controller_key_new();
    gtk_widget_set_focusable(GTK_WIDGET(self), TRUE);
    gtk_widget_set_focus_on_click(GTK_WIDGET(self), TRUE);
    g_signal_connect(keys, "key-pressed", G_CALLBACK(on_key), self);
    gtk_widget_add_controller(GTK_WIDGET(self), keys);
}
