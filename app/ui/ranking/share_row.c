#include "share_row.h"

#include "bar_cell.h"
#include "figures_text.h"
#include "resources.h"

struct _WbShareRow {
    GtkBox parent_instance;
    GtkLabel *title, *figure, *sum;
    WbBarCell *bar;
};

G_DEFINE_FINAL_TYPE(WbShareRow, wb_share_row, GTK_TYPE_BOX)

static void wb_share_row_class_init(WbShareRowClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    g_type_ensure(WB_TYPE_BAR_CELL);
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/ranking/share_row.ui");
    gtk_widget_class_bind_template_child(widget, WbShareRow, title);
    gtk_widget_class_bind_template_child(widget, WbShareRow, figure);
    gtk_widget_class_bind_template_child(widget, WbShareRow, sum);
    gtk_widget_class_bind_template_child(widget, WbShareRow, bar);
}

static void wb_share_row_init(WbShareRow *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
}

GtkWidget *wb_share_row_new(void)
{
    return g_object_new(WB_TYPE_SHARE_ROW, NULL);
}

void wb_share_row_set(WbShareRow *self, const char *title, const char *figure, double weight,
                      double worth)
{
    g_return_if_fail(WB_IS_SHARE_ROW(self));
    g_autofree char *of_weight = wb_text_number(weight, 2);
    g_autofree char *of_worth = wb_text_number(worth, 2);
    g_autofree char *product = wb_text_number(weight * worth, 3);
    g_autofree char *sum = g_strdup_printf("%s × %s", of_weight, of_worth);
    gtk_label_set_text(self->title, title);
    gtk_label_set_text(self->figure, figure);
    gtk_label_set_text(self->sum, sum);
    wb_bar_cell_set(self->bar, product, weight * worth, FALSE);
}
