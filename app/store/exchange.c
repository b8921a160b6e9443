#include "exchange.h"
#include "database_sql.h"
#include "exchange_read.h"
#include "text_file.h"
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>

static void compare_rows(const WbExchange *exchange, const WbCatalogue *present,
                         WbImportReport *report)
{
    for (WbTableId id = 0; id < WB_N_TABLES; id++) {
        WbTable table = wb_table(id);
        size_t n;
        const void *rows = wb_table_rows(&table, present, &n);
        for (guint i = 0; i < exchange->rows[id]->len; i++) {
            const void *record = exchange->rows[id]->data + i * table.size;
            const void *old = wb_table_find(&table, rows, n, record);
            report->added += !old;
            report->same += old && wb_table_rows_equal(&table, old, record);
            report->changed += old && !wb_table_rows_equal(&table, old, record);
        }
    }
}

static gboolean put_rows(const WbSql *sql, const WbExchange *exchange, GError **error)
{
    for (WbTableId id = 0; id < WB_N_TABLES; id++) {
        WbTable table = wb_table(id);
        for (guint i = 0; i < exchange->rows[id]->len; i++)
            if (!wb_catalogue_put(sql, id, exchange->rows[id]->data + i * table.size, error))
                return FALSE;
    }
    return TRUE;
}

static gboolean merge(const WbSql *sql, const WbExchange *exchange, gboolean preview,
                      WbImportReport *report, GError **error)
{
    g_autoptr(WbCatalogueView) view = wb_catalogue_load(sql, error);
    if (!view || !wb_exchange_check(exchange, wb_catalogue_view_get(view), error))
        return FALSE;
    compare_rows(exchange, wb_catalogue_view_get(view), report);
    return preview || put_rows(sql, exchange, error);
}

gboolean wb_exchange_import(WbDatabase *database, const char *text, gssize length, const char *name,
                            gboolean preview, WbImportReport *report, GError **error)
{
    const WbSql *sql = wb_database_sql(database);
    WbImportReport counts = {0};
    g_autoptr(WbExchange) exchange = wb_exchange_read(text, length, name, error);
    if (!exchange || !wb_sql_run(sql, preview ? "BEGIN" : "BEGIN IMMEDIATE", error))
        return FALSE;
    if (!wb_sql_end(sql, merge(sql, exchange, preview, &counts, error), error))
        return FALSE;
    *report = counts;
    return TRUE;
}

GPtrArray *wb_exchange_not_read(const char *text, gssize length, const char *name, GError **error)
{
    g_autoptr(WbExchange) exchange = wb_exchange_read(text, length, name, error);
    return exchange ? g_steal_pointer(&exchange->not_read) : NULL;
}

static WbDatabase *open_export(const char *path, GError **error)
{
    gsize length;
    WbImportReport report;
    g_autofree char *text = wb_text_file_read(path, &length, error);
    g_autoptr(WbDatabase) database = text ? wb_database_open(":memory:", TRUE, error) : NULL;
    if (!database ||
        !wb_exchange_import(database, text, (gssize)length, path, FALSE, &report, error))
        return NULL;
    return g_steal_pointer(&database);
}

static gboolean is_database(const char *path)
{
    static const char mark[] = "SQLite format 3";
    char head[sizeof mark] = "";
    if (!g_file_test(path, G_FILE_TEST_IS_REGULAR))
        return FALSE;
    FILE *stream = g_fopen(path, "rbe");
    if (!stream)
        return FALSE;
    size_t n = fread(head, 1, sizeof head, stream);
    fclose(stream);
    return n == sizeof head && memcmp(head, mark, sizeof mark) == 0;
}

WbCatalogueView *wb_exchange_load(const char *path, GError **error)
{
    g_autoptr(WbDatabase) database =
        is_database(path) ? wb_database_open_to_read(path, error) : open_export(path, error);
    return database ? wb_database_load(database, error) : NULL;
}
