/* The rows of a catalogue export, checked, before anything is written. Private to the store. */
#ifndef WB_EXCHANGE_READ_H
#define WB_EXCHANGE_READ_H

#include "catalogue_table.h"
#include "json_read.h"

#define WB_CATALOGUE_FORMAT "wattberth-catalogue"
#define WB_CATALOGUE_VERSION 1

typedef struct {
    char *name;                   /* of the file, in messages */
    cJSON *tree;                  /* owns most texts */
    GStringChunk *texts;          /* the others */
    GPtrArray *not_read;          /* of WbNotRead */
    GArray *rows[WB_N_TABLES];    /* records in the order of the file */
    GHashTable *ids[WB_N_TABLES]; /* keys of the rows: id, or part, shop and date with a space */
} WbExchange;

/* NULL and error: types, ranges, duplicates; references are wb_exchange_check's. */
WbExchange *wb_exchange_read(const char *text, gssize length, const char *name, GError **error);
void wb_exchange_free(WbExchange *exchange);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbExchange, wb_exchange_free)

/* Do chemistry, part_id and shop_id lead to rows of the file or of what is there, and no part id to
 * another kind? */
gboolean wb_exchange_check(const WbExchange *exchange, const WbCatalogue *present, GError **error);

#endif
