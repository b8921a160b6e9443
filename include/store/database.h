/* The catalogue's SQLite database: STRICT tables with CHECK constraints and foreign keys, migrated
 * by user_version, marked by application_id, WAL. One connection belongs to one thread. */
#ifndef WB_DATABASE_H
#define WB_DATABASE_H

#include "part.h"
#include <glib.h>

typedef struct WbDatabase WbDatabase;

/* Opens or creates; a new one gets the starting catalogue unless `empty`. ":memory:" works. Errors:
 * damaged, a newer version, not ours, locked, no permission, disk full: named in the message. */
WbDatabase *wb_database_open(const char *path, gboolean empty, GError **error);
void wb_database_close(WbDatabase *database);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbDatabase, wb_database_close)

/* $XDG_DATA_HOME/wattberth/catalogue.db; the folder is made. (transfer full) */
char *wb_database_default_path(void);

/* An immutable copy of all of it, reference counted, usable from any thread. */
typedef struct WbCatalogueView WbCatalogueView;
WbCatalogueView *wb_database_load(WbDatabase *database, GError **error);
WbCatalogueView *wb_catalogue_view_ref(WbCatalogueView *view);
void wb_catalogue_view_unref(WbCatalogueView *view);
const WbCatalogue *wb_catalogue_view_get(const WbCatalogueView *view);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbCatalogueView, wb_catalogue_view_unref)

/* Insert or replace by id; the record is of the kind's type (WbPanel, ...). */
gboolean wb_database_put_part(WbDatabase *database, WbPartKind kind, const void *record,
                              GError **error);
/* Its offers go with it. An error when there is no such part; so for an offer (known by part, shop
 * and date). */
gboolean wb_database_delete_part(WbDatabase *database, const char *part_id, GError **error);
/* A part and its offers in one transaction: what a deletion took. */
gboolean wb_database_put_part_and_offers(WbDatabase *database, WbPartKind kind, const void *record,
                                         const WbOffer *offers, gsize n, GError **error);
gboolean wb_database_put_offer(WbDatabase *database, const WbOffer *offer, GError **error);
gboolean wb_database_delete_offer(WbDatabase *database, const WbOffer *offer, GError **error);
gboolean wb_database_put_shop(WbDatabase *database, const WbShop *shop, GError **error);

#endif
