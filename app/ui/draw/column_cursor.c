#include "column_cursor.h"

static void move_to(WbColumnCursor *self, int column)
{
    if (column == self->shown)
        return;
    self->shown = column;
    self->moved(self->widget);
    gtk_widget_queue_draw(self->widget);
}

static void on_motion(GtkEventControllerMotion *motion, double x, double y, WbColumnCursor *self)
{
    double width = (self->right - self->left) / self->n;
    gboolean inside = width > 0 && x >= self->left && x < self->right;
    move_to(self, inside ? (int)((x - self->left) / width) : -1);
}

static void on_leave(GtkEventController *controller, WbColumnCursor *self)
{
    move_to(self, -1);
}

/* Pictures without a stride leave the keys to the page. */
static gboolean stride_to(WbColumnCursor *self, int by)
{
    if (self->stride == 0)
        return FALSE;
    int from = self->shown < 0 ? self->n : self->shown;
    move_to(self, CLAMP(from + by, 0, self->n - 1));
    return TRUE;
}

static gboolean on_key(GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
                       WbColumnCursor *self)
{
    int last = self->n - 1;
    switch (key) {
    case GDK_KEY_Left:
        move_to(self, self->shown < 0 ? last : MAX(self->shown - 1, 0));
        return TRUE;
    case GDK_KEY_Right:
        move_to(self, MIN(self->shown + 1, last));
        return TRUE;
    case GDK_KEY_Home:
        move_to(self, 0);
        return TRUE;
    case GDK_KEY_End:
        move_to(self, last);
        return TRUE;
    case GDK_KEY_Page_Up:
        return stride_to(self, -self->stride);
    case GDK_KEY_Page_Down:
        return stride_to(self, self->stride);
    default:
        return FALSE;
    }
}

void wb_column_cursor_attach(WbColumnCursor *self, GtkWidget *widget, int n,
                             void (*moved)(GtkWidget *widget))
{
    *self = (WbColumnCursor){.widget = widget, .n = n, .shown = -1, .moved = moved};
    gtk_widget_set_focusable(widget, TRUE);
    GtkEventController *motion = gtk_event_controller_motion_new();
    g_signal_connect(motion, "motion", G_CALLBACK(on_motion), self);
    g_signal_connect(motion, "leave", G_CALLBACK(on_leave), self);
    gtk_widget_add_controller(widget, motion);
    GtkEventController *keys = gtk_event_controller_key_new();
    g_signal_connect(keys, "key-pressed", G_CALLBACK(on_key), self);
    gtk_widget_add_controller(widget, keys);
    GtkEventController *focus = gtk_event_controller_focus_new();
    g_signal_connect(focus, "leave", G_CALLBACK(on_leave), self);
    gtk_widget_add_controller(widget, focus);
}
