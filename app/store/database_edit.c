/* Single edits of the catalogue, each checked first and in one transaction. */
#include "database_sql.h"
#include "store_fail.h"

static gboolean refuse_field(const WbTable *table, const WbField *field, const void *record,
                             const char *accepted, GError **error)
{
    g_autofree char *value = wb_field_value_text(field, record);
    const char *key = wb_table_key(table, record, 0);
    wb_store_fail(error, WB_STORE_ERROR_VALUE, "%s of the %s \"%.64s\" is %s, but must be %s.",
                  field->key, table->name, key ? key : "", value, accepted);
    return FALSE;
}

static gboolean check_record(const WbTable *table, const void *record, GError **error)
{
    for (size_t i = 0; i < table->n_fields; i++) {
        const WbField *field = &table->fields[i];
        if (wb_field_ok(field, record))
            continue;
        g_autofree char *accepted = wb_field_accepted(field);
        return refuse_field(table, field, record, accepted, error);
    }
    g_autofree char *accepted = NULL;
    const WbField *conflict = wb_row_conflict(table, record, &accepted);
    return !conflict || refuse_field(table, conflict, record, accepted, error);
}

static gboolean row_exists(const WbSql *sql, const char *query, const char *id, GError **error)
{
    sqlite3_stmt *statement = wb_sql_prepare(sql, query, error);
    if (!statement)
        return FALSE;
    sqlite3_bind_text(statement, 1, id, -1, SQLITE_STATIC);
    gboolean exists = sqlite3_step(statement) == SQLITE_ROW;
    sqlite3_finalize(statement);
    return exists;
}

static gboolean refuse_reference(const char *field, const char *id, const char *what,
                                 GError **error)
{
    wb_store_fail(error, WB_STORE_ERROR_VALUE,
                  "%s is \"%s\", but must be the id of a %s in the catalogue.", field, id, what);
    return FALSE;
}

static gboolean check_references(const WbSql *sql, WbTableId id, const void *record, GError **error)
{
    if (id == WB_TABLE_PART + WB_KIND_STORAGE) {
        const WbStorage *storage = record;
        if (!row_exists(sql, "SELECT 1 FROM chemistry WHERE id = ?", storage->chemistry, error))
            return refuse_reference("chemistry", storage->chemistry, "chemistry", error);
    }
    if (id == WB_TABLE_OFFER) {
        const WbOffer *offer = record;
        if (!row_exists(sql, "SELECT 1 FROM part WHERE id = ?", offer->part_id, error))
            return refuse_reference("part_id", offer->part_id, "part", error);
        if (!row_exists(sql, "SELECT 1 FROM shop WHERE id = ?", offer->shop_id, error))
            return refuse_reference("shop_id", offer->shop_id, "shop", error);
    }
    return TRUE;
}

/* Inside a transaction. */
static gboolean put_row(const WbSql *sql, WbTableId id, const void *record, GError **error)
{
    WbTable table = wb_table(id);
    return check_record(&table, record, error) && check_references(sql, id, record, error) &&
           wb_catalogue_put(sql, id, record, error);
}

static gboolean put(WbDatabase *database, WbTableId id, const void *record, GError **error)
{
    const WbSql *sql = wb_database_sql(database);
    if (!wb_sql_begin(sql, error))
        return FALSE;
    return wb_sql_end(sql, put_row(sql, id, record, error), error);
}

gboolean wb_database_put_part(WbDatabase *database, WbPartKind kind, const void *record,
                              GError **error)
{
    return put(database, (WbTableId)(WB_TABLE_PART + kind), record, error);
}

gboolean wb_database_put_part_and_offers(WbDatabase *database, WbPartKind kind, const void *record,
                                         const WbOffer *offers, gsize n, GError **error)
{
    const WbSql *sql = wb_database_sql(database);
    if (!wb_sql_begin(sql, error))
        return FALSE;
    gboolean done = put_row(sql, (WbTableId)(WB_TABLE_PART + kind), record, error);
    for (gsize i = 0; i < n && done; i++)
        done = put_row(sql, WB_TABLE_OFFER, &offers[i], error);
    return wb_sql_end(sql, done, error);
}

gboolean wb_database_put_offer(WbDatabase *database, const WbOffer *offer, GError **error)
{
    return put(database, WB_TABLE_OFFER, offer, error);
}

gboolean wb_database_put_shop(WbDatabase *database, const WbShop *shop, GError **error)
{
    return put(database, WB_TABLE_SHOP, shop, error);
}

/* One statement is a transaction of its own. FALSE and error when no row was there. */
static gboolean delete_row(WbDatabase *database, const char *text, const char *const *values, int n,
                           const char *what, GError **error)
{
    const WbSql *sql = wb_database_sql(database);
    sqlite3_stmt *statement = wb_sql_prepare(sql, text, error);
    if (!statement)
        return FALSE;
    for (int i = 0; i < n; i++)
        sqlite3_bind_text(statement, i + 1, values[i], -1, SQLITE_STATIC);
    if (!wb_sql_finish(sql, statement, error))
        return FALSE;
    if (sqlite3_changes(sql->handle) > 0)
        return TRUE;
    wb_store_fail(error, WB_STORE_ERROR_VALUE, "The catalogue holds no such %s for \"%s\".", what,
                  values[0]);
    return FALSE;
}

gboolean wb_database_delete_part(WbDatabase *database, const char *part_id, GError **error)
{
    return delete_row(database, "DELETE FROM part WHERE id = ?", &part_id, 1, "part", error);
}

gboolean wb_database_delete_offer(WbDatabase *database, const WbOffer *offer, GError **error)
{
    const char *const values[] = {offer->part_id, offer->shop_id, offer->date};
    return delete_row(database, "DELETE FROM offer WHERE part_id = ? AND shop_id = ? AND date = ?",
                      values, 3, "offer", error);
}
