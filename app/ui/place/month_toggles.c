#include "month_toggles.h"

#include "figures_text.h"
#include "format.h"
#include "month_chart.h"
#include "site_edit.h"
#include <glib/gi18n-lib.h>

struct _WbMonthToggles {
    GtkBox parent_instance;
    GtkWidget *toggle[WB_MONTHS];
    GtkLabel *problem;
    WbDocument *document;
    gboolean filling;
};

G_DEFINE_FINAL_TYPE(WbMonthToggles, wb_month_toggles, GTK_TYPE_BOX)

static void tell(WbMonthToggles *self, const char *sentence)
{
    gtk_label_set_text(self->problem, sentence != NULL ? sentence : "");
    gtk_widget_set_visible(GTK_WIDGET(self->problem), sentence != NULL);
}

static void refresh(WbMonthToggles *self)
{
    guint32 months = wb_document_get_brief(self->document)->site.months;
    self->filling = TRUE;
    for (int month = 0; month < WB_MONTHS; month++)
        gtk_toggle_button_set_active(GTK_TOGGLE_BUTTON(self->toggle[month]), months >> month & 1);
    self->filling = FALSE;
}

static void on_toggled(GtkToggleButton *toggle, WbMonthToggles *self)
{
    g_autoptr(GError) error = NULL;
    if (self->filling)
        return;
    int month = GPOINTER_TO_INT(g_object_get_data(G_OBJECT(toggle), "month"));
    gboolean taken =
        wb_site_use_month(self->document, month, gtk_toggle_button_get_active(toggle), &error);
    tell(self, taken ? NULL : error->message);
    if (!taken)
        refresh(self);
}

static GtkWidget *toggle_new(WbMonthToggles *self, int month)
{
    GtkWidget *toggle = gtk_toggle_button_new_with_label(wb_format_month_short(month));
    /* Translators: a month. */
    g_autofree char *hint = g_strdup_printf(_("In use in %s"), wb_text_month(month));
    gtk_widget_set_tooltip_text(toggle, hint);
    gtk_widget_add_css_class(toggle, "month");
    g_object_set_data(G_OBJECT(toggle), "month", GINT_TO_POINTER(month));
    gtk_accessible_update_property(GTK_ACCESSIBLE(toggle), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   wb_text_month(month), -1);
    g_signal_connect(toggle, "toggled", G_CALLBACK(on_toggled), self);
    return toggle;
}

GtkWidget *wb_month_toggles_new(WbDocument *document)
{
    WbMonthToggles *self = g_object_new(WB_TYPE_MONTH_TOGGLES, "orientation",
                                        GTK_ORIENTATION_VERTICAL, "spacing", 3, NULL);
    self->document = g_object_ref(document);
    g_signal_connect_object(document, "changed", G_CALLBACK(refresh), self, G_CONNECT_SWAPPED);
    refresh(self);
    return GTK_WIDGET(self);
}

static void wb_month_toggles_dispose(GObject *object)
{
    g_clear_object(&WB_MONTH_TOGGLES(object)->document);
    G_OBJECT_CLASS(wb_month_toggles_parent_class)->dispose(object);
}

static void wb_month_toggles_class_init(WbMonthTogglesClass *klass)
{
    G_OBJECT_CLASS(klass)->dispose = wb_month_toggles_dispose;
}

static void wb_month_toggles_init(WbMonthToggles *self)
{
    GtkWidget *row = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 0);
    gtk_box_set_homogeneous(GTK_BOX(row), TRUE);
    gtk_widget_set_margin_start(row, WB_MONTH_CHART_LEFT);
    for (int month = 0; month < WB_MONTHS; month++) {
        self->toggle[month] = toggle_new(self, month);
        gtk_box_append(GTK_BOX(row), self->toggle[month]);
    }
    gtk_box_append(GTK_BOX(self), row);
    self->problem = GTK_LABEL(gtk_label_new(NULL));
    gtk_label_set_xalign(self->problem, 0);
    gtk_label_set_wrap(self->problem, TRUE);
    gtk_widget_add_css_class(GTK_WIDGET(self->problem), "stop");
    gtk_widget_set_visible(GTK_WIDGET(self->problem), FALSE);
    gtk_box_append(GTK_BOX(self), GTK_WIDGET(self->problem));
}
