/* A connection to SQLite: errors as sentences, statements, transactions. Private to the store. */
#ifndef WB_SQL_H
#define WB_SQL_H

#include <glib.h>
#include <sqlite3.h>

typedef struct {
    sqlite3 *handle;
    char *name; /* the file, as it stands in messages */
} WbSql;

/* One sentence for what SQLite just answered. Always FALSE. */
gboolean wb_sql_fail(const WbSql *sql, int code, GError **error);
gboolean wb_sql_run(const WbSql *sql, const char *text, GError **error);
/* NULL and error. Finish with sqlite3_finalize. */
sqlite3_stmt *wb_sql_prepare(const WbSql *sql, const char *text, GError **error);
/* Steps to the end and finalizes. */
gboolean wb_sql_finish(const WbSql *sql, sqlite3_stmt *statement, GError **error);
/* First column of the first row; -1 when there is none. */
gboolean wb_sql_integer(const WbSql *sql, const char *text, gint64 *value, GError **error);

/* BEGIN IMMEDIATE ... COMMIT, or ROLLBACK where `done` is FALSE. */
gboolean wb_sql_begin(const WbSql *sql, GError **error);
gboolean wb_sql_end(const WbSql *sql, gboolean done, GError **error);

#endif
