#include "weight_row.h"

#include "format.h"
#include "kit_list.h"
#include "resources.h"
#include <glib/gi18n-lib.h>

struct _WbWeightRow {
    GtkBox parent_instance;
    GtkLabel *title, *share, *anchors;
    GtkScale *scale;
    GtkAdjustment *adjustment;
    WbDocument *document;
    WbCriterion criterion;
    gboolean updating;
};

G_DEFINE_FINAL_TYPE(WbWeightRow, wb_weight_row, GTK_TYPE_BOX)

void wb_weight_row_refresh(WbWeightRow *self)
{
    g_return_if_fail(WB_IS_WEIGHT_ROW(self));
    const WbBrief *brief = wb_document_get_brief(self->document);
    double sum = 0, weight = brief->weight[self->criterion];
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        sum += brief->weight[c];
    g_autofree char *share = wb_format_percent(sum > 0 ? weight / sum : 0);
    gtk_label_set_text(self->share, share);
    self->updating = TRUE;
    if (weight > gtk_adjustment_get_upper(self->adjustment))
        gtk_adjustment_set_upper(self->adjustment, weight);
    gtk_adjustment_set_value(self->adjustment, weight);
    self->updating = FALSE;
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->scale), GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT,
                                   share, -1);
}

static void on_value(WbWeightRow *self)
{
    g_autoptr(GError) error = NULL;
    if (self->updating || self->document == NULL)
        return;
    g_autofree char *pointer = g_strdup_printf("/weights/%s", wb_criterion_name(self->criterion));
    double value = gtk_adjustment_get_value(self->adjustment);
    /* Two decimals are more than a hand can set, and keep the file readable. */
    value = (double)(gint64)(value * 100 + 0.5) / 100;
    if (!wb_document_set_number(self->document, _("Change weights"), pointer, value, &error)) {
        wb_show_message(GTK_WIDGET(self), error->message);
        wb_weight_row_refresh(self);
    }
}

void wb_weight_row_set_anchor(WbWeightRow *self, const WbAnchor *anchor)
{
    g_return_if_fail(WB_IS_WEIGHT_ROW(self));
    const char *currency = wb_document_get_brief(self->document)->currency;
    g_autofree char *full = wb_format_figure(self->criterion, anchor->full, currency);
    g_autofree char *none = wb_format_figure(self->criterion, anchor->none, currency);
    g_autofree char *text = g_strdup_printf(_("full worth at %s, none at %s"), full, none);
    gtk_label_set_text(self->anchors, text);
}

static void wb_weight_row_dispose(GObject *object)
{
    g_clear_object(&WB_WEIGHT_ROW(object)->document);
    G_OBJECT_CLASS(wb_weight_row_parent_class)->dispose(object);
}

static void wb_weight_row_class_init(WbWeightRowClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_weight_row_dispose;
    gtk_widget_class_set_template_from_resource(widget,
                                                WB_RESOURCE_PREFIX "/ranking/weight_row.ui");
    gtk_widget_class_bind_template_child(widget, WbWeightRow, title);
    gtk_widget_class_bind_template_child(widget, WbWeightRow, share);
    gtk_widget_class_bind_template_child(widget, WbWeightRow, anchors);
    gtk_widget_class_bind_template_child(widget, WbWeightRow, scale);
    gtk_widget_class_bind_template_child(widget, WbWeightRow, adjustment);
    gtk_widget_class_bind_template_callback(widget, on_value);
}

static void wb_weight_row_init(WbWeightRow *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
}

GtkWidget *wb_weight_row_new(WbDocument *document, WbCriterion criterion)
{
    WbWeightRow *self = g_object_new(WB_TYPE_WEIGHT_ROW, NULL);
    self->document = g_object_ref(document);
    self->criterion = criterion;
    gtk_label_set_text(self->title, wb_criterion_title(criterion));
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->scale), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   wb_criterion_title(criterion), -1);
    wb_weight_row_refresh(self);
    return GTK_WIDGET(self);
}
