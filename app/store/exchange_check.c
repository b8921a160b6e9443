/* References of an export: each leads to a row of the file or of the catalogue it goes into. */
#include "exchange_read.h"
#include "store_fail.h"
#include <string.h>

/* Ids of the rows present; a part's value is the name of its kind. */
static GHashTable *index_present(const WbCatalogue *present, WbTableId from, WbTableId below)
{
    GHashTable *ids = g_hash_table_new(g_str_hash, g_str_equal);
    for (WbTableId id = from; id < below; id++) {
        WbTable table = wb_table(id);
        size_t n;
        const char *rows = wb_table_rows(&table, present, &n);
        for (size_t i = 0; i < n; i++)
            g_hash_table_insert(ids, (gpointer)wb_table_key(&table, rows + i * table.size, 0),
                                (gpointer)table.name);
    }
    return ids;
}

static bool file_holds(const WbExchange *exchange, WbTableId from, WbTableId below, const char *id)
{
    for (WbTableId t = from; t < below; t++)
        if (g_hash_table_contains(exchange->ids[t], id))
            return true;
    return false;
}

static gboolean refuse(const WbExchange *exchange, const char *list, guint index,
                       const char *member, const char *id, const char *accepted, GError **error)
{
    wb_store_fail(error, WB_STORE_ERROR_VALUE, "%s: /%s/%u/%s is \"%s\", but must be %s.",
                  exchange->name, list, index, member, id, accepted);
    return FALSE;
}

/* Every row's `member` is the id of a row of the tables from..below. */
static gboolean check_member(const WbExchange *exchange, const WbCatalogue *present,
                             WbTableId holder, const char *member, WbTableId from, WbTableId below,
                             const char *accepted, GError **error)
{
    g_autoptr(GHashTable) there = index_present(present, from, below);
    WbTable table = wb_table(holder);
    const WbField *field = wb_field_find(table.fields, table.n_fields, member);
    const GArray *rows = exchange->rows[holder];
    for (guint i = 0; i < rows->len; i++) {
        const char *id = *(const char *const *)wb_field_in(field, rows->data + i * table.size);
        if (!file_holds(exchange, from, below, id) && !g_hash_table_contains(there, id))
            return refuse(exchange, table.list, i, member, id, accepted, error);
    }
    return TRUE;
}

static gboolean check_kinds(const WbExchange *exchange, const WbCatalogue *present, GError **error)
{
    g_autoptr(GHashTable) there = index_present(present, WB_TABLE_PART, WB_TABLE_OFFER);
    for (WbTableId t = WB_TABLE_PART; t < WB_TABLE_OFFER; t++) {
        WbTable table = wb_table(t);
        for (guint i = 0; i < exchange->rows[t]->len; i++) {
            const char *id = wb_table_key(&table, exchange->rows[t]->data + i * table.size, 0);
            const char *kind = g_hash_table_lookup(there, id);
            if (!kind || strcmp(kind, table.name) == 0)
                continue;
            g_autofree char *accepted =
                g_strdup_printf("another id, because the catalogue has a %s of that id", kind);
            return refuse(exchange, table.list, i, "id", id, accepted, error);
        }
    }
    return TRUE;
}

gboolean wb_exchange_check(const WbExchange *exchange, const WbCatalogue *present, GError **error)
{
    return check_kinds(exchange, present, error) &&
           check_member(exchange, present, WB_TABLE_PART + WB_KIND_STORAGE, "chemistry",
                        WB_TABLE_CHEMISTRY, WB_TABLE_CHEMISTRY + 1,
                        "the id of a chemistry of this file or of the catalogue", error) &&
           check_member(exchange, present, WB_TABLE_OFFER, "part_id", WB_TABLE_PART, WB_TABLE_OFFER,
                        "the id of a part of this file or of the catalogue", error) &&
           check_member(exchange, present, WB_TABLE_OFFER, "shop_id", WB_TABLE_SHOP,
                        WB_TABLE_SHOP + 1, "the id of a shop of this file or of the catalogue",
                        error);
}
