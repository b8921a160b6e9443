#include "sql.h"
#include "store_fail.h"

static gboolean set(const WbSql *sql, WbStoreError code, GError **error, const char *sentence)
{
    wb_store_fail(error, code, "%s %s.", sql->name, sentence);
    return FALSE;
}

gboolean wb_sql_fail(const WbSql *sql, int code, GError **error)
{
    g_autofree char *why = g_strdup(sql->handle ? sqlite3_errmsg(sql->handle) : "out of memory");
    g_autofree char *sentence = NULL;
    switch (code & 0xff) {
    case SQLITE_NOTADB:
        return set(sql, WB_STORE_ERROR_FORMAT, error,
                   "is not a database; a catalogue of this program is expected");
    case SQLITE_CORRUPT:
        sentence = g_strdup_printf("is damaged (%s); put back a copy of it, or import an export "
                                   "into a new catalogue",
                                   why);
        return set(sql, WB_STORE_ERROR_DAMAGED, error, sentence);
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return set(sql, WB_STORE_ERROR_BUSY, error,
                   "is in use by another program; try again when that has finished");
    case SQLITE_READONLY:
    case SQLITE_PERM:
        return set(sql, WB_STORE_ERROR_FILE, error,
                   "may only be read; a file that can be written is needed");
    case SQLITE_FULL:
        return set(sql, WB_STORE_ERROR_FILE, error, "cannot grow: the disk is full");
    case SQLITE_CONSTRAINT:
        sentence = g_strdup_printf("refuses the change (%s)", why);
        return set(sql, WB_STORE_ERROR_VALUE, error, sentence);
    default:
        sentence = g_strdup_printf("cannot be read or written (%s)", why);
        return set(sql, WB_STORE_ERROR_FILE, error, sentence);
    }
}

gboolean wb_sql_run(const WbSql *sql, const char *text, GError **error)
{
    int code = sqlite3_exec(sql->handle, text, NULL, NULL, NULL);
    return code == SQLITE_OK || wb_sql_fail(sql, code, error);
}

sqlite3_stmt *wb_sql_prepare(const WbSql *sql, const char *text, GError **error)
{
    sqlite3_stmt *statement = NULL;
    int code = sqlite3_prepare_v2(sql->handle, text, -1, &statement, NULL);
    if (code != SQLITE_OK)
        wb_sql_fail(sql, code, error);
    return statement;
}

gboolean wb_sql_finish(const WbSql *sql, sqlite3_stmt *statement, GError **error)
{
    int code;
    while ((code = sqlite3_step(statement)) == SQLITE_ROW)
        ;
    gboolean done = code == SQLITE_DONE || wb_sql_fail(sql, code, error);
    sqlite3_finalize(statement);
    return done;
}

gboolean wb_sql_integer(const WbSql *sql, const char *text, gint64 *value, GError **error)
{
    sqlite3_stmt *statement = wb_sql_prepare(sql, text, error);
    if (!statement)
        return FALSE;
    int code = sqlite3_step(statement);
    *value = code == SQLITE_ROW ? sqlite3_column_int64(statement, 0) : -1;
    gboolean done = code == SQLITE_ROW || code == SQLITE_DONE || wb_sql_fail(sql, code, error);
    sqlite3_finalize(statement);
    return done;
}

gboolean wb_sql_begin(const WbSql *sql, GError **error)
{
    return wb_sql_run(sql, "BEGIN IMMEDIATE", error);
}

gboolean wb_sql_end(const WbSql *sql, gboolean done, GError **error)
{
    if (done && wb_sql_run(sql, "COMMIT", error))
        return TRUE;
    /* SQLite may have rolled back by itself already. */
    if (!sqlite3_get_autocommit(sql->handle))
        sqlite3_exec(sql->handle, "ROLLBACK", NULL, NULL, NULL);
    return FALSE;
}
