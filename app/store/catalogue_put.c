/* Writing rows. Column names come from the field tables alone; every value is bound. */
#include "database_sql.h"
#include "store_fail.h"
#include <string.h>

static bool is_key(const WbTable *table, const char *column)
{
    for (size_t i = 0; i < table->n_keys; i++)
        if (strcmp(table->keys[i], column) == 0)
            return true;
    return false;
}

/* An upsert, not a replace: offers that refer to the part stay. */
static char *upsert_text(const WbTable *table)
{
    g_autoptr(GString) columns = g_string_new(NULL);
    g_autoptr(GString) marks = g_string_new(NULL);
    g_autoptr(GString) updates = g_string_new(NULL);
    g_autoptr(GString) keys = g_string_new(NULL);
    for (size_t i = 0; i < table->n_fields; i++) {
        const char *key = table->fields[i].key;
        if (table->fields[i].type == WB_FIELD_CURVE)
            continue;
        g_string_append_printf(columns, "%s%s", columns->len ? ", " : "", key);
        g_string_append(marks, marks->len ? ", ?" : "?");
        if (!is_key(table, key))
            g_string_append_printf(updates, "%s%s = excluded.%s", updates->len ? ", " : "", key,
                                   key);
    }
    for (size_t i = 0; i < table->n_keys; i++)
        g_string_append_printf(keys, "%s%s", i == 0 ? "" : ", ", table->keys[i]);
    return g_strdup_printf("INSERT INTO %s (%s) VALUES (%s) ON CONFLICT (%s) DO UPDATE SET %s",
                           table->name, columns->str, marks->str, keys->str, updates->str);
}

static void bind_value(sqlite3_stmt *statement, int position, const WbField *field,
                       const void *record)
{
    const void *at = wb_field_in(field, record);
    switch (field->type) {
    case WB_FIELD_NUMBER:
        if (isnan(*(const double *)at))
            sqlite3_bind_null(statement, position);
        else
            sqlite3_bind_double(statement, position, *(const double *)at);
        break;
    case WB_FIELD_INTEGER:
        sqlite3_bind_int64(statement, position, *(const int64_t *)at);
        break;
    case WB_FIELD_FLAG:
        sqlite3_bind_int(statement, position, *(const bool *)at);
        break;
    case WB_FIELD_CHOICE:
        sqlite3_bind_text(statement, position, field->choices[*(const int64_t *)at], -1,
                          SQLITE_STATIC);
        break;
    case WB_FIELD_TEXT:
    case WB_FIELD_WORDS:
        sqlite3_bind_text(statement, position, *(const char *const *)at, -1, SQLITE_STATIC);
        break;
    case WB_FIELD_CURVE:
        break;
    }
}

static gboolean put_row(const WbSql *sql, const WbTable *table, const void *record, GError **error)
{
    g_autofree char *text = upsert_text(table);
    sqlite3_stmt *statement = wb_sql_prepare(sql, text, error);
    if (!statement)
        return FALSE;
    int position = 1;
    for (size_t i = 0; i < table->n_fields; i++)
        if (table->fields[i].type != WB_FIELD_CURVE)
            bind_value(statement, position++, &table->fields[i], record);
    return wb_sql_finish(sql, statement, error);
}

static gboolean put_point(const WbSql *sql, const char *insert, const char *owner,
                          const char *curve, int position, WbPoint point, GError **error)
{
    sqlite3_stmt *statement = wb_sql_prepare(sql, insert, error);
    if (!statement)
        return FALSE;
    sqlite3_bind_text(statement, 1, owner, -1, SQLITE_STATIC);
    sqlite3_bind_text(statement, 2, curve, -1, SQLITE_STATIC);
    sqlite3_bind_int(statement, 3, position);
    sqlite3_bind_double(statement, 4, point.x);
    sqlite3_bind_double(statement, 5, point.y);
    return wb_sql_finish(sql, statement, error);
}

static gboolean clear_curves(const WbSql *sql, WbTableId id, const char *owner, GError **error)
{
    sqlite3_stmt *statement =
        wb_sql_prepare(sql,
                       id == WB_TABLE_CHEMISTRY ? "DELETE FROM curve_point WHERE chemistry_id = ?"
                                                : "DELETE FROM curve_point WHERE part_id = ?",
                       error);
    if (!statement)
        return FALSE;
    sqlite3_bind_text(statement, 1, owner, -1, SQLITE_STATIC);
    return wb_sql_finish(sql, statement, error);
}

static gboolean put_curves(const WbSql *sql, WbTableId id, const WbTable *table, const void *record,
                           GError **error)
{
    const char *insert =
        id == WB_TABLE_CHEMISTRY
            ? "INSERT INTO curve_point (chemistry_id, curve, position, x, y) VALUES (?, ?, ?, ?, ?)"
            : "INSERT INTO curve_point (part_id, curve, position, x, y) VALUES (?, ?, ?, ?, ?)";
    const char *owner = wb_table_key(table, record, 0);
    if (!clear_curves(sql, id, owner, error))
        return FALSE;
    for (size_t i = 0; i < table->n_fields; i++) {
        if (table->fields[i].type != WB_FIELD_CURVE)
            continue;
        const WbCurve *curve = wb_field_in(&table->fields[i], record);
        for (int j = 0; j < curve->n; j++)
            if (!put_point(sql, insert, owner, table->fields[i].key, j, curve->point[j], error))
                return FALSE;
    }
    return TRUE;
}

/* The row every part has in the table of all ids. */
static gboolean claim_id(const WbSql *sql, const char *part_id, const char *kind, GError **error)
{
    sqlite3_stmt *statement = wb_sql_prepare(
        sql, "INSERT INTO part (id, kind) VALUES (?, ?) ON CONFLICT DO NOTHING", error);
    if (!statement)
        return FALSE;
    sqlite3_bind_text(statement, 1, part_id, -1, SQLITE_STATIC);
    sqlite3_bind_text(statement, 2, kind, -1, SQLITE_STATIC);
    return wb_sql_finish(sql, statement, error);
}

static gboolean check_kind(const WbSql *sql, const char *part_id, const char *kind, GError **error)
{
    sqlite3_stmt *statement = wb_sql_prepare(sql, "SELECT kind FROM part WHERE id = ?", error);
    if (!statement)
        return FALSE;
    sqlite3_bind_text(statement, 1, part_id, -1, SQLITE_STATIC);
    gboolean same = TRUE;
    if (sqlite3_step(statement) == SQLITE_ROW) {
        const char *found = (const char *)sqlite3_column_text(statement, 0);
        same = strcmp(found, kind) == 0;
        if (!same)
            wb_store_fail(error, WB_STORE_ERROR_VALUE,
                          "The id \"%s\" belongs to a %s in the catalogue; the %s needs another.",
                          part_id, found, kind);
    }
    sqlite3_finalize(statement);
    return same;
}

gboolean wb_catalogue_put(const WbSql *sql, WbTableId id, const void *record, GError **error)
{
    WbTable table = wb_table(id);
    if (wb_table_is_part(id)) {
        const char *part_id = wb_table_key(&table, record, 0);
        if (!check_kind(sql, part_id, table.name, error) ||
            !claim_id(sql, part_id, table.name, error))
            return FALSE;
    }
    if (!put_row(sql, &table, record, error))
        return FALSE;
    return !(wb_table_is_part(id) || id == WB_TABLE_CHEMISTRY) ||
           put_curves(sql, id, &table, record, error);
}
