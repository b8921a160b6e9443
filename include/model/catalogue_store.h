/* The person's catalogue database, edited on the main thread. Signal "changed": a new view is
 * there. Every failure leaves the database as it was and gives one sentence. The last edit can be
 * undone. */
#ifndef WB_CATALOGUE_STORE_H
#define WB_CATALOGUE_STORE_H

#include "part.h"
#include <glib-object.h>

typedef struct WbCatalogueView WbCatalogueView;

#define WB_TYPE_CATALOGUE_STORE (wb_catalogue_store_get_type())
G_DECLARE_FINAL_TYPE(WbCatalogueStore, wb_catalogue_store, WB, CATALOGUE_STORE, GObject)

/* path NULL: the person's own ($XDG_DATA_HOME/wattberth/catalogue.db). */
WbCatalogueStore *wb_catalogue_store_open(const char *path, GError **error);
/* Borrowed, immutable. */
WbCatalogueView *wb_catalogue_store_get_view(WbCatalogueStore *self);
const WbCatalogue *wb_catalogue_store_get_catalogue(WbCatalogueStore *self);
/* `record` is of the kind's type (WbPanel, ...). */
gboolean wb_catalogue_store_put_part(WbCatalogueStore *self, WbPartKind kind, const void *record,
                                     GError **error);
gboolean wb_catalogue_store_delete_part(WbCatalogueStore *self, const char *part_id,
                                        GError **error);
gboolean wb_catalogue_store_put_offer(WbCatalogueStore *self, const WbOffer *offer, GError **error);
gboolean wb_catalogue_store_delete_offer(WbCatalogueStore *self, const WbOffer *offer,
                                         GError **error);
gboolean wb_catalogue_store_put_shop(WbCatalogueStore *self, const WbShop *shop, GError **error);

/* What undo would take back ("Delete Maker Model"), NULL: nothing. Borrowed until the next edit. */
const char *wb_catalogue_store_get_undo_label(WbCatalogueStore *self);
/* Puts back what the last edit replaced or deleted, with the offers that went along, or takes away
 * what it added. Undone once; an undo is not undone. FALSE without error: nothing to undo. */
gboolean wb_catalogue_store_undo(WbCatalogueStore *self, GError **error);

#endif
