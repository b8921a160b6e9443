/* Catalogue export and import as JSON (data/FORMATS.md). */
#ifndef WB_EXCHANGE_H
#define WB_EXCHANGE_H

#include "database.h"
#include "not_read.h"

/* (transfer full) stable order and text: exporting twice gives the same bytes */
char *wb_exchange_export(const WbCatalogue *catalogue);

typedef struct {
    int added, changed, same; /* rows of all tables */
} WbImportReport;

/* All or nothing, in one transaction. `preview`: counts only, nothing is written. */
gboolean wb_exchange_import(WbDatabase *database, const char *text, gssize length, const char *name,
                            gboolean preview, WbImportReport *report, GError **error);

/* Of WbNotRead: members of an export that an import passes over, such as misspelt ones. NULL and
 * error when it is no export. (transfer full) */
GPtrArray *wb_exchange_not_read(const char *text, gssize length, const char *name, GError **error);

/* A catalogue from a path that is either a database of ours or an export; read only. */
WbCatalogueView *wb_exchange_load(const char *path, GError **error);

#endif
