/* The brush of the scatter: a rectangle drawn by dragging, or by walking with Shift held. */
#include "scatter_private.h"

#include <math.h>

/* Nearer than this to where it began, px, a drag is a click. */
#define CLICK_PX 5

static void changed(WbScatter *self)
{
    gtk_widget_queue_draw(GTK_WIDGET(self));
    g_signal_emit_by_name(self, "brush-changed");
}

static double value_at(const WbAxis *axis, double px, double from, double to)
{
    double share = to - from != 0 ? (px - from) / (to - from) : 0;
    return axis->low + CLAMP(share, 0, 1) * (axis->high - axis->low);
}

static void brush_from(WbScatter *self, double x, double y)
{
    double x1 = value_at(&self->x, self->press_x, self->left, self->right);
    double x2 = value_at(&self->x, x, self->left, self->right);
    double y1 = value_at(&self->y, self->press_y, self->bottom, self->top);
    double y2 = value_at(&self->y, y, self->bottom, self->top);
    self->brush = (WbScatterBrush){fmin(x1, x2), fmax(x1, x2), fmin(y1, y2), fmax(y1, y2)};
    self->brushed = TRUE;
    self->anchor = -1;
    changed(self);
}

static gboolean is_click(double dx, double dy)
{
    return fabs(dx) < CLICK_PX && fabs(dy) < CLICK_PX;
}

static void on_begin(GtkGestureDrag *drag, double x, double y, WbScatter *self)
{
    gtk_widget_grab_focus(GTK_WIDGET(self));
    self->press_x = x;
    self->press_y = y;
}

static void on_update(GtkGestureDrag *drag, double dx, double dy, WbScatter *self)
{
    if (self->base != NULL && !is_click(dx, dy))
        brush_from(self, self->press_x + dx, self->press_y + dy);
}

static void on_end(GtkGestureDrag *drag, double dx, double dy, WbScatter *self)
{
    int point = wb_scatter_nearest(self, self->press_x, self->press_y);
    if (!is_click(dx, dy))
        return;
    if (point >= 0)
        wb_scatter_choose(self, point);
    else
        wb_scatter_brush_clear(self);
}

gboolean wb_scatter_brush_clear(WbScatter *self)
{
    if (!self->brushed)
        return FALSE;
    self->brushed = FALSE;
    self->anchor = -1;
    changed(self);
    return TRUE;
}

void wb_scatter_brush_walk(WbScatter *self, int from, gboolean extend)
{
    if (!extend) {
        self->anchor = -1;
        return;
    }
    if (self->anchor < 0)
        self->anchor = from >= 0 ? from : self->shown;
    const WbScatterPoint *a = &self->points[self->anchor], *b = &self->points[self->shown];
    if (isnan(a->x + a->y + b->x + b->y))
        return;
    self->brush =
        (WbScatterBrush){fmin(a->x, b->x), fmax(a->x, b->x), fmin(a->y, b->y), fmax(a->y, b->y)};
    self->brushed = TRUE;
    changed(self);
}

void wb_scatter_set_brush(WbScatter *self, const WbScatterBrush *brush)
{
    g_return_if_fail(WB_IS_SCATTER(self));
    self->brushed = brush != NULL;
    if (brush != NULL)
        self->brush = *brush;
    gtk_widget_queue_draw(GTK_WIDGET(self));
}

const WbScatterBrush *wb_scatter_get_brush(WbScatter *self)
{
    g_return_val_if_fail(WB_IS_SCATTER(self), NULL);
    return self->brushed ? &self->brush : NULL;
}

void wb_scatter_brush_attach(WbScatter *self)
{
    GtkGesture *drag = gtk_gesture_drag_new();
    g_signal_connect(drag, "drag-begin", G_CALLBACK(on_begin), self);
    g_signal_connect(drag, "drag-update", G_CALLBACK(on_update), self);
    g_signal_connect(drag, "drag-end", G_CALLBACK(on_end), self);
    gtk_widget_add_controller(GTK_WIDGET(self), GTK_EVENT_CONTROLLER(drag));
}
