#include "system_toggles.h"

#include "site_edit.h"
#include <glib/gi18n-lib.h>

#define N_SYSTEMS 3

struct _WbSystemToggles {
    GtkBox parent_instance;
    GtkWidget *toggle[N_SYSTEMS];
    GtkLabel *problem;
    WbDocument *document;
    gboolean filling;
};

G_DEFINE_FINAL_TYPE(WbSystemToggles, wb_system_toggles, GTK_TYPE_BOX)

static void tell(WbSystemToggles *self, const char *sentence)
{
    gtk_label_set_text(self->problem, sentence != NULL ? sentence : "");
    gtk_widget_set_visible(GTK_WIDGET(self->problem), sentence != NULL);
}

static void refresh(WbSystemToggles *self)
{
    guint32 bits = wb_document_get_brief(self->document)->system_v;
    self->filling = TRUE;
    for (int bit = 0; bit < N_SYSTEMS; bit++)
        gtk_toggle_button_set_active(GTK_TOGGLE_BUTTON(self->toggle[bit]), bits >> bit & 1);
    self->filling = FALSE;
}

static void on_toggled(GtkToggleButton *toggle, WbSystemToggles *self)
{
    g_autoptr(GError) error = NULL;
    if (self->filling)
        return;
    int bit = GPOINTER_TO_INT(g_object_get_data(G_OBJECT(toggle), "bit"));
    gboolean taken =
        wb_site_try_system(self->document, bit, gtk_toggle_button_get_active(toggle), &error);
    tell(self, taken ? NULL : error->message);
    if (!taken)
        refresh(self);
}

static GtkWidget *toggle_new(WbSystemToggles *self, int bit)
{
    g_autofree char *label = g_strdup_printf("%d V", 12 << bit);
    /* Translators: a voltage, 12, 24 or 48. */
    g_autofree char *hint = g_strdup_printf(_("Banks that make %d V are tried"), 12 << bit);
    GtkWidget *toggle = gtk_toggle_button_new_with_label(label);
    gtk_widget_set_tooltip_text(toggle, hint);
    g_object_set_data(G_OBJECT(toggle), "bit", GINT_TO_POINTER(bit));
    gtk_accessible_update_property(GTK_ACCESSIBLE(toggle), GTK_ACCESSIBLE_PROPERTY_LABEL, hint, -1);
    g_signal_connect(toggle, "toggled", G_CALLBACK(on_toggled), self);
    return toggle;
}

GtkWidget *wb_system_toggles_new(WbDocument *document)
{
    WbSystemToggles *self = g_object_new(WB_TYPE_SYSTEM_TOGGLES, "orientation",
                                         GTK_ORIENTATION_VERTICAL, "spacing", 3, NULL);
    self->document = g_object_ref(document);
    g_signal_connect_object(document, "changed", G_CALLBACK(refresh), self, G_CONNECT_SWAPPED);
    refresh(self);
    return GTK_WIDGET(self);
}

static void wb_system_toggles_dispose(GObject *object)
{
    g_clear_object(&WB_SYSTEM_TOGGLES(object)->document);
    G_OBJECT_CLASS(wb_system_toggles_parent_class)->dispose(object);
}

static void wb_system_toggles_class_init(WbSystemTogglesClass *klass)
{
    G_OBJECT_CLASS(klass)->dispose = wb_system_toggles_dispose;
}

static void wb_system_toggles_init(WbSystemToggles *self)
{
    GtkWidget *row = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 6);
    GtkWidget *title = gtk_label_new(_("System voltages to try"));
    gtk_label_set_xalign(GTK_LABEL(title), 0);
    gtk_label_set_wrap(GTK_LABEL(title), TRUE);
    gtk_widget_set_hexpand(title, TRUE);
    gtk_box_append(GTK_BOX(row), title);
    for (int bit = 0; bit < N_SYSTEMS; bit++) {
        self->toggle[bit] = toggle_new(self, bit);
        gtk_box_append(GTK_BOX(row), self->toggle[bit]);
    }
    gtk_box_append(GTK_BOX(self), row);
    self->problem = GTK_LABEL(gtk_label_new(NULL));
    gtk_label_set_xalign(self->problem, 0);
    gtk_label_set_wrap(self->problem, TRUE);
    gtk_widget_add_css_class(GTK_WIDGET(self->problem), "stop");
    gtk_widget_set_visible(GTK_WIDGET(self->problem), FALSE);
    gtk_box_append(GTK_BOX(self), GTK_WIDGET(self->problem));
}
