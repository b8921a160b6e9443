#include "place_finder.h"

#include "place_list.h"
#include "resources.h"
#include <glib/gi18n-lib.h>
#include <string.h>

struct _WbPlaceFinder {
    GtkBox parent_instance;
    GtkSearchEntry *search;
    GtkLabel *none;
    GtkScrolledWindow *window;
    GtkListView *view;
    GtkFilterListModel *found;
    GtkFilter *filter;
};

G_DEFINE_FINAL_TYPE(WbPlaceFinder, wb_place_finder, GTK_TYPE_BOX)

static guint chosen_signal;

static const char *wanted(WbPlaceFinder *self)
{
    return gtk_editable_get_text(GTK_EDITABLE(self->search));
}

static gboolean matches(gpointer item, gpointer data)
{
    return wb_place_row_matches(item, wanted(data));
}

static void on_search(WbPlaceFinder *self)
{
    gboolean asked = strspn(wanted(self), " ") != strlen(wanted(self));
    gtk_filter_changed(self->filter, GTK_FILTER_CHANGE_DIFFERENT);
    gboolean any = g_list_model_get_n_items(G_LIST_MODEL(self->found)) > 0;
    gtk_widget_set_visible(GTK_WIDGET(self->window), asked && any);
    gtk_widget_set_visible(GTK_WIDGET(self->none), asked && !any);
}

static void on_stop(WbPlaceFinder *self)
{
    gtk_editable_set_text(GTK_EDITABLE(self->search), "");
    on_search(self);
}

static void on_activate(WbPlaceFinder *self, guint position)
{
    g_autoptr(WbPlaceRow) row = g_list_model_get_item(G_LIST_MODEL(self->found), position);
    if (row == NULL)
        return;
    g_signal_emit(self, chosen_signal, 0, wb_place_row_get_place(row)->id);
    gtk_widget_grab_focus(GTK_WIDGET(self->search));
    on_stop(self);
}

/* Enter takes the first match; the search may not have been told yet. */
static void on_enter(WbPlaceFinder *self)
{
    on_search(self);
    if (gtk_widget_get_visible(GTK_WIDGET(self->window)))
        on_activate(self, 0);
}

/* Down leads from the search into the list. */
static gboolean on_key(WbPlaceFinder *self, guint key)
{
    if (key != GDK_KEY_Down || !gtk_widget_get_visible(GTK_WIDGET(self->window)))
        return FALSE;
    return gtk_widget_child_focus(GTK_WIDGET(self->window), GTK_DIR_TAB_FORWARD);
}

/* ---- rows ---- */

static void setup(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_VERTICAL, 0);
    for (int i = 0; i < 2; i++) {
        GtkWidget *label = gtk_label_new(NULL);
        gtk_label_set_xalign(GTK_LABEL(label), 0);
        gtk_label_set_wrap(GTK_LABEL(label), TRUE);
        gtk_box_append(GTK_BOX(box), label);
    }
    gtk_widget_add_css_class(gtk_widget_get_last_child(box), "quiet");
    gtk_widget_add_css_class(gtk_widget_get_last_child(box), "small");
    gtk_list_item_set_child(item, box);
}

static void bind(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
    WbPlaceRow *row = gtk_list_item_get_item(item);
    const WbPlace *place = wb_place_row_get_place(row);
    GtkWidget *box = gtk_list_item_get_child(item);
    /* Translators: kind of figures, how far they can be off, whose they are, of which years. */
    g_autofree char *quality =
        g_strdup_printf(_("%s: %s. From %s, %s."), place->kind, wb_place_uncertainty(place->kind),
                        place->source, place->years);
    gtk_label_set_text(GTK_LABEL(gtk_widget_get_first_child(box)), wb_place_row_get_title(row));
    gtk_label_set_text(GTK_LABEL(gtk_widget_get_last_child(box)), quality);
}

GtkWidget *wb_place_finder_new(void)
{
    return g_object_new(WB_TYPE_PLACE_FINDER, NULL);
}

static void wb_place_finder_class_init(WbPlaceFinderClass *klass)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(klass);
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/place/finder.ui");
    gtk_widget_class_bind_template_child(widget, WbPlaceFinder, search);
    gtk_widget_class_bind_template_child(widget, WbPlaceFinder, none);
    gtk_widget_class_bind_template_child(widget, WbPlaceFinder, window);
    gtk_widget_class_bind_template_child(widget, WbPlaceFinder, view);
    gtk_widget_class_bind_template_callback(widget, on_search);
    gtk_widget_class_bind_template_callback(widget, on_enter);
    gtk_widget_class_bind_template_callback(widget, on_stop);
    gtk_widget_class_bind_template_callback(widget, on_activate);
    chosen_signal = g_signal_new("chosen", WB_TYPE_PLACE_FINDER, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void wb_place_finder_init(WbPlaceFinder *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
    self->filter = GTK_FILTER(gtk_custom_filter_new(matches, self, NULL));
    self->found = gtk_filter_list_model_new(wb_place_list_new(), self->filter);
    GtkNoSelection *selection = gtk_no_selection_new(G_LIST_MODEL(self->found));
    GtkListItemFactory *factory = gtk_signal_list_item_factory_new();
    g_signal_connect(factory, "setup", G_CALLBACK(setup), NULL);
    g_signal_connect(factory, "bind", G_CALLBACK(bind), NULL);
    gtk_list_view_set_model(self->view, GTK_SELECTION_MODEL(selection));
    gtk_list_view_set_factory(self->view, factory);
    g_object_unref(selection);
    g_object_unref(factory);
    GtkEventController *keys = gtk_event_controller_key_new();
    gtk_event_controller_set_propagation_phase(keys, GTK_PHASE_CAPTURE);
    g_signal_connect_swapped(keys, "key-pressed", G_CALLBACK(on_key), self);
    gtk_widget_add_controller(GTK_WIDGET(self->search), keys);
}
