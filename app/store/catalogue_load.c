#include "database_sql.h"
#include "store_fail.h"
#include <string.h>

struct WbCatalogueView {
    gatomicrefcount references;
    WbCatalogue catalogue;
    GStringChunk *texts; /* every text of it */
};

typedef struct {
    const WbSql *sql;
    GStringChunk *texts;
    GError **error;
} Loading;

WbCatalogueView *wb_catalogue_view_ref(WbCatalogueView *view)
{
    g_atomic_ref_count_inc(&view->references);
    return view;
}

void wb_catalogue_view_unref(WbCatalogueView *view)
{
    if (!g_atomic_ref_count_dec(&view->references))
        return;
    for (WbTableId id = 0; id < WB_N_TABLES; id++) {
        WbTable table = wb_table(id);
        size_t n;
        g_free((gpointer)wb_table_rows(&table, &view->catalogue, &n));
    }
    g_string_chunk_free(view->texts);
    g_free(view);
}

const WbCatalogue *wb_catalogue_view_get(const WbCatalogueView *view)
{
    return &view->catalogue;
}

static char *select_text(const WbTable *table)
{
    GString *text = g_string_new("SELECT ");
    for (size_t i = 0; i < table->n_fields; i++)
        if (table->fields[i].type != WB_FIELD_CURVE)
            g_string_append_printf(text, "%s%s", i == 0 ? "" : ", ", table->fields[i].key);
    g_string_append_printf(text, " FROM %s ORDER BY ", table->name);
    for (size_t i = 0; i < table->n_keys; i++)
        g_string_append_printf(text, "%s%s", i == 0 ? "" : ", ", table->keys[i]);
    return g_string_free(text, FALSE);
}

static int64_t choice_index(const WbField *field, const char *word)
{
    for (int i = 0; field->choices[i]; i++)
        if (strcmp(field->choices[i], word) == 0)
            return i;
    return -1;
}

static const char *column_text(sqlite3_stmt *statement, int column)
{
    const char *text = (const char *)sqlite3_column_text(statement, column);
    return text ? text : "";
}

static void load_value(Loading *loading, sqlite3_stmt *statement, int column, const WbField *field,
                       void *record)
{
    void *at = wb_field_at(field, record);
    switch (field->type) {
    case WB_FIELD_NUMBER:
        *(double *)at = sqlite3_column_type(statement, column) == SQLITE_NULL
                            ? WB_MISSING
                            : sqlite3_column_double(statement, column);
        break;
    case WB_FIELD_INTEGER:
        *(int64_t *)at = sqlite3_column_int64(statement, column);
        break;
    case WB_FIELD_FLAG:
        *(bool *)at = sqlite3_column_int(statement, column) != 0;
        break;
    case WB_FIELD_CHOICE:
        *(int64_t *)at = choice_index(field, column_text(statement, column));
        break;
    case WB_FIELD_TEXT:
    case WB_FIELD_WORDS:
        *(const char **)at =
            g_string_chunk_insert_const(loading->texts, column_text(statement, column));
        break;
    case WB_FIELD_CURVE:
        break;
    }
}

static gboolean load_curve(Loading *loading, WbTableId id, const WbField *field, const char *owner,
                           WbCurve *curve)
{
    sqlite3_stmt *statement = wb_sql_prepare(
        loading->sql,
        id == WB_TABLE_CHEMISTRY
            ? "SELECT x, y FROM curve_point WHERE chemistry_id = ? AND curve = ? ORDER BY position"
            : "SELECT x, y FROM curve_point WHERE part_id = ? AND curve = ? ORDER BY position",
        loading->error);
    if (!statement)
        return FALSE;
    sqlite3_bind_text(statement, 1, owner, -1, SQLITE_STATIC);
    sqlite3_bind_text(statement, 2, field->key, -1, SQLITE_STATIC);
    int code;
    for (curve->n = 0; (code = sqlite3_step(statement)) == SQLITE_ROW && curve->n < WB_MAX_POINTS;
         curve->n++)
        curve->point[curve->n] =
            (WbPoint){sqlite3_column_double(statement, 0), sqlite3_column_double(statement, 1)};
    gboolean done = code == SQLITE_ROW || code == SQLITE_DONE ||
                    wb_sql_fail(loading->sql, code, loading->error);
    sqlite3_finalize(statement);
    return done;
}

/* The constraints keep bad values out; a damaged file may hold them all the same. */
static gboolean check_record(Loading *loading, const WbTable *table, const void *record)
{
    for (size_t i = 0; i < table->n_fields; i++) {
        const WbField *field = &table->fields[i];
        if (wb_field_ok(field, record))
            continue;
        g_autofree char *value = wb_field_value_text(field, record);
        g_autofree char *accepted = wb_field_accepted(field);
        wb_store_fail(loading->error, WB_STORE_ERROR_DAMAGED,
                      "%s is damaged: %s of %s \"%s\" is %s, but must be %s.", loading->sql->name,
                      field->key, table->name, wb_table_key(table, record, 0), value, accepted);
        return FALSE;
    }
    return TRUE;
}

static gboolean load_record(Loading *loading, WbTableId id, const WbTable *table,
                            sqlite3_stmt *statement, void *record)
{
    int column = 0;
    for (size_t i = 0; i < table->n_fields; i++)
        if (table->fields[i].type != WB_FIELD_CURVE)
            load_value(loading, statement, column++, &table->fields[i], record);
    for (size_t i = 0; i < table->n_fields; i++) {
        const WbField *field = &table->fields[i];
        if (field->type == WB_FIELD_CURVE &&
            !load_curve(loading, id, field, wb_table_key(table, record, 0),
                        wb_field_at(field, record)))
            return FALSE;
    }
    return check_record(loading, table, record);
}

/* NULL and error. */
static GArray *load_rows(Loading *loading, WbTableId id, const WbTable *table)
{
    g_autofree char *text = select_text(table);
    sqlite3_stmt *statement = wb_sql_prepare(loading->sql, text, loading->error);
    if (!statement)
        return NULL;
    GArray *rows = g_array_new(FALSE, TRUE, (guint)table->size);
    gboolean good = TRUE;
    int code = SQLITE_DONE;
    while (good && (code = sqlite3_step(statement)) == SQLITE_ROW) {
        g_array_set_size(rows, rows->len + 1);
        good =
            load_record(loading, id, table, statement, rows->data + (rows->len - 1) * table->size);
    }
    if (good && code != SQLITE_DONE)
        good = wb_sql_fail(loading->sql, code, loading->error);
    sqlite3_finalize(statement);
    if (good)
        return rows;
    g_array_unref(rows);
    return NULL;
}

WbCatalogueView *wb_catalogue_load(const WbSql *sql, GError **error)
{
    g_autoptr(WbCatalogueView) view = g_new0(WbCatalogueView, 1);
    g_atomic_ref_count_init(&view->references);
    view->texts = g_string_chunk_new(4096);
    Loading loading = {sql, view->texts, error};
    for (WbTableId id = 0; id < WB_N_TABLES; id++) {
        WbTable table = wb_table(id);
        GArray *rows = load_rows(&loading, id, &table);
        if (!rows)
            return NULL;
        size_t n = rows->len;
        wb_table_set_rows(&table, &view->catalogue, g_array_free(rows, FALSE), n);
    }
    return g_steal_pointer(&view);
}

WbCatalogueView *wb_database_load(WbDatabase *database, GError **error)
{
    const WbSql *sql = wb_database_sql(database);
    if (!wb_sql_run(sql, "BEGIN", error))
        return NULL;
    g_autoptr(WbCatalogueView) view = wb_catalogue_load(sql, error);
    if (!wb_sql_end(sql, view != NULL, error))
        return NULL;
    return g_steal_pointer(&view);
}
