#include "offer_list.h"

#include "format.h"
#include "offer_row.h"
#include "resources.h"
#include <glib/gi18n-lib.h>
#include <math.h>

struct _WbOfferList {
    GtkBox parent_instance;
    GtkLabel *none, *problem;
    GtkBox *rows;
    GtkDropDown *shop;
    GtkEntry *price;
    WbDocument *document;
    WbCatalogueStore *store;
    char *part_id;
};

G_DEFINE_FINAL_TYPE(WbOfferList, wb_offer_list, GTK_TYPE_BOX)

static void tell(WbOfferList *self, const char *problem)
{
    gtk_label_set_text(self->problem, problem != NULL ? problem : "");
    gtk_widget_set_visible(GTK_WIDGET(self->problem), problem != NULL);
}

static void on_remove(WbOfferRow *row, WbOfferList *self)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbOfferRow) kept = g_object_ref(row);
    WbOffer offer = wb_offer_row_get_offer(kept);
    gboolean done = wb_catalogue_store_delete_offer(self->store, &offer, &error);
    tell(self, done ? NULL : error->message);
}

static void on_add(WbOfferList *self)
{
    double price;
    const WbCatalogue *catalogue = wb_catalogue_store_get_catalogue(self->store);
    guint line = gtk_drop_down_get_selected(self->shop);
    if (!wb_format_parse(gtk_editable_get_text(GTK_EDITABLE(self->price)), &price) ||
        !(price >= 0 && price < 1e9)) {
        tell(self, _("Type the price of one as a number, 0 or more."));
        return;
    }
    if (line >= catalogue->n_shops) {
        tell(self, _("Choose the shop that asks this price."));
        return;
    }
    g_autofree char *currency = g_strdup(wb_document_get_brief(self->document)->currency);
    g_autofree char *shop = g_strdup(catalogue->shops[line].id);
    g_autofree char *part = g_strdup(self->part_id);
    g_autoptr(GDateTime) now = g_date_time_new_now_local();
    g_autofree char *date = g_date_time_format(now, "%Y-%m-%d");
    double scale = wb_format_criterion_scale(WB_CRITERION_COST, currency);
    WbOffer offer = {part, shop, (int64_t)llround(price / scale), currency, date};
    g_autoptr(GError) error = NULL;
    gboolean done = wb_catalogue_store_put_offer(self->store, &offer, &error);
    tell(self, done ? NULL : error->message);
    if (done)
        gtk_editable_set_text(GTK_EDITABLE(self->price), "");
}

static void list_shops(WbOfferList *self, const WbCatalogue *catalogue)
{
    guint line = gtk_drop_down_get_selected(self->shop);
    g_autoptr(GtkStringList) names = gtk_string_list_new(NULL);
    for (size_t i = 0; i < catalogue->n_shops; i++)
        gtk_string_list_append(names, catalogue->shops[i].name);
    gtk_drop_down_set_model(self->shop, G_LIST_MODEL(names));
    if (line < catalogue->n_shops)
        gtk_drop_down_set_selected(self->shop, line);
}

void wb_offer_list_show(WbOfferList *self, const char *part_id)
{
    g_return_if_fail(WB_IS_OFFER_LIST(self));
    const WbCatalogue *catalogue = wb_catalogue_store_get_catalogue(self->store);
    GtkWidget *row;
    guint n = 0;
    if (g_strcmp0(part_id, self->part_id) != 0)
        tell(self, NULL);
    char *kept = g_strdup(part_id);
    g_free(self->part_id);
    self->part_id = kept;
    while ((row = gtk_widget_get_first_child(GTK_WIDGET(self->rows))) != NULL)
        gtk_box_remove(self->rows, row);
    for (size_t i = 0; i < catalogue->n_offers; i++) {
        if (g_strcmp0(catalogue->offers[i].part_id, kept) != 0)
            continue;
        row = wb_offer_row_new(catalogue, &catalogue->offers[i]);
        g_signal_connect_object(row, "remove", G_CALLBACK(on_remove), self, 0);
        gtk_box_append(self->rows, row);
        n++;
    }
    gtk_widget_set_visible(GTK_WIDGET(self->none), n == 0);
    gtk_widget_set_visible(GTK_WIDGET(self), kept != NULL);
    list_shops(self, catalogue);
}

static void wb_offer_list_dispose(GObject *object)
{
    WbOfferList *self = WB_OFFER_LIST(object);
    g_clear_object(&self->document);
    g_clear_object(&self->store);
    g_clear_pointer(&self->part_id, g_free);
    G_OBJECT_CLASS(wb_offer_list_parent_class)->dispose(object);
}

static void wb_offer_list_class_init(WbOfferListClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_offer_list_dispose;
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/parts/offers.ui");
    gtk_widget_class_bind_template_child(widget, WbOfferList, none);
    gtk_widget_class_bind_template_child(widget, WbOfferList, problem);
    gtk_widget_class_bind_template_child(widget, WbOfferList, rows);
    gtk_widget_class_bind_template_child(widget, WbOfferList, shop);
    gtk_widget_class_bind_template_child(widget, WbOfferList, price);
    gtk_widget_class_bind_template_callback(widget, on_add);
}

static void wb_offer_list_init(WbOfferList *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
}

void wb_offer_list_set_context(WbOfferList *self, const WbContext *context)
{
    g_return_if_fail(WB_IS_OFFER_LIST(self) && self->store == NULL);
    self->document = g_object_ref(context->document);
    self->store = g_object_ref(context->catalogue);
}
