#include "offer_row.h"

#include "resources.h"
#include "words.h"

struct _WbOfferRow {
    GtkBox parent_instance;
    GtkLabel *shop, *price, *date;
    char *part_id, *shop_id, *currency, *day;
    int64_t price_minor;
};

enum { REMOVE, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE(WbOfferRow, wb_offer_row, GTK_TYPE_BOX)

static void on_remove(WbOfferRow *self)
{
    g_signal_emit(self, signals[REMOVE], 0);
}

static void wb_offer_row_finalize(GObject *object)
{
    WbOfferRow *self = WB_OFFER_ROW(object);
    g_free(self->part_id);
    g_free(self->shop_id);
    g_free(self->currency);
    g_free(self->day);
    G_OBJECT_CLASS(wb_offer_row_parent_class)->finalize(object);
}

static void wb_offer_row_class_init(WbOfferRowClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->finalize = wb_offer_row_finalize;
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/parts/offer_row.ui");
    gtk_widget_class_bind_template_child(widget, WbOfferRow, shop);
    gtk_widget_class_bind_template_child(widget, WbOfferRow, price);
    gtk_widget_class_bind_template_child(widget, WbOfferRow, date);
    gtk_widget_class_bind_template_callback(widget, on_remove);
    signals[REMOVE] = g_signal_new("remove", WB_TYPE_OFFER_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void wb_offer_row_init(WbOfferRow *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
}

static const char *shop_name(const WbCatalogue *catalogue, const char *id)
{
    for (size_t i = 0; i < catalogue->n_shops; i++)
        if (g_str_equal(catalogue->shops[i].id, id))
            return catalogue->shops[i].name;
    return id;
}

GtkWidget *wb_offer_row_new(const WbCatalogue *catalogue, const WbOffer *offer)
{
    WbOfferRow *self = g_object_new(WB_TYPE_OFFER_ROW, NULL);
    self->part_id = g_strdup(offer->part_id);
    self->shop_id = g_strdup(offer->shop_id);
    self->currency = g_strdup(offer->currency);
    self->day = g_strdup(offer->date);
    self->price_minor = offer->price_minor;
    g_autofree char *price = wb_words_money(offer->price_minor, offer->currency);
    gtk_label_set_text(self->shop, shop_name(catalogue, offer->shop_id));
    gtk_label_set_text(self->price, price);
    gtk_label_set_text(self->date, offer->date);
    return GTK_WIDGET(self);
}

WbOffer wb_offer_row_get_offer(WbOfferRow *self)
{
    return (WbOffer){self->part_id, self->shop_id, self->price_minor, self->currency, self->day};
}
