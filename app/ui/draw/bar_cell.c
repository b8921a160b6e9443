#include "bar_cell.h"

#include "pen.h"
#include <math.h>

struct _WbBarCell {
    GtkWidget parent_instance;
    GtkWidget *text;
    double share;
    gboolean over;
};

G_DEFINE_FINAL_TYPE(WbBarCell, wb_bar_cell, GTK_TYPE_WIDGET)

static void wb_bar_cell_snapshot(GtkWidget *widget, GtkSnapshot *snapshot)
{
    WbBarCell *self = WB_BAR_CELL(widget);
    int width = gtk_widget_get_width(widget), height = gtk_widget_get_height(widget);
    if (!isnan(self->share)) {
        WbPalette palette;
        wb_palette_read(widget, &palette);
        double length = round(width * CLAMP(self->share, 0, 1));
        gtk_snapshot_append_color(snapshot, &palette.grid,
                                  &GRAPHENE_RECT_INIT(0, (float)height - 3, (float)width, 3));
        gtk_snapshot_append_color(snapshot, self->over ? &palette.over : &palette.accent,
                                  &GRAPHENE_RECT_INIT(0, (float)height - 3, (float)length, 3));
    }
    gtk_widget_snapshot_child(widget, self->text, snapshot);
}

static void wb_bar_cell_dispose(GObject *object)
{
    WbBarCell *self = WB_BAR_CELL(object);
    g_clear_pointer(&self->text, gtk_widget_unparent);
    G_OBJECT_CLASS(wb_bar_cell_parent_class)->dispose(object);
}

static void wb_bar_cell_class_init(WbBarCellClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_bar_cell_dispose;
    widget->snapshot = wb_bar_cell_snapshot;
    gtk_widget_class_set_css_name(widget, "barcell");
    gtk_widget_class_set_layout_manager_type(widget, GTK_TYPE_BIN_LAYOUT);
}

static void wb_bar_cell_init(WbBarCell *self)
{
    self->share = NAN;
    self->text = gtk_inscription_new(NULL);
    gtk_inscription_set_xalign(GTK_INSCRIPTION(self->text), 1);
    gtk_inscription_set_min_chars(GTK_INSCRIPTION(self->text), 6);
    gtk_widget_set_margin_bottom(self->text, 4);
    gtk_widget_add_css_class(self->text, "numeric");
    gtk_widget_set_parent(self->text, GTK_WIDGET(self));
}

GtkWidget *wb_bar_cell_new(void)
{
    return g_object_new(WB_TYPE_BAR_CELL, NULL);
}

void wb_bar_cell_set(WbBarCell *self, const char *text, double share, gboolean over)
{
    g_return_if_fail(WB_IS_BAR_CELL(self));
    gtk_inscription_set_text(GTK_INSCRIPTION(self->text), text);
    self->share = share;
    self->over = over;
    gtk_widget_queue_draw(GTK_WIDGET(self));
}
