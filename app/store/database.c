#include "database.h"
#include "database_file.h"
#include "database_sql.h"
#include "embedded.h"
#include "exchange.h"
#include "migrate.h"
#include "store_fail.h"
#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#define BUSY_MS 3000

struct WbDatabase {
    WbSql sql;
};

const WbSql *wb_database_sql(const WbDatabase *database)
{
    return &database->sql;
}

void wb_database_close(WbDatabase *database)
{
    sqlite3_close(database->sql.handle);
    g_free(database->sql.name);
    g_free(database);
}

char *wb_database_default_path(void)
{
    g_autofree char *folder = g_build_filename(g_get_user_data_dir(), "wattberth", NULL);
    g_mkdir_with_parents(folder, 0700);
    return g_build_filename(folder, "catalogue.db", NULL);
}

/* `name` stands in messages, `path` may be a URI. */
static WbDatabase *connect_to(const char *path, const char *name, int flags, GError **error)
{
    g_autoptr(WbDatabase) database = g_new0(WbDatabase, 1);
    database->sql.name = g_strdup(name);
    int code = sqlite3_open_v2(path, &database->sql.handle, flags | SQLITE_OPEN_EXRESCODE, NULL);
    if (code != SQLITE_OK) {
        wb_sql_fail(&database->sql, code, error);
        return NULL;
    }
    sqlite3_busy_timeout(database->sql.handle, BUSY_MS);
    sqlite3_db_config(database->sql.handle, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
    sqlite3_db_config(database->sql.handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
    if (!wb_sql_run(&database->sql, "PRAGMA foreign_keys = ON", error))
        return NULL;
    return g_steal_pointer(&database);
}

static gboolean check_page_by_page(const WbSql *sql, GError **error)
{
    sqlite3_stmt *statement = wb_sql_prepare(sql, "PRAGMA quick_check(1)", error);
    if (!statement)
        return FALSE;
    int code = sqlite3_step(statement);
    const char *answer =
        code == SQLITE_ROW ? (const char *)sqlite3_column_text(statement, 0) : NULL;
    gboolean sound = answer && strcmp(answer, "ok") == 0;
    if (code != SQLITE_ROW)
        wb_sql_fail(sql, code, error);
    else if (!sound)
        wb_store_fail(error, WB_STORE_ERROR_DAMAGED,
                      "%s is damaged (%s); put back a copy of it, or import an export into a new "
                      "catalogue.",
                      sql->name, answer ? answer : "no answer to a check");
    sqlite3_finalize(statement);
    return sound;
}

/* Sound, ours and not newer: before anything is written. */
static gboolean check_existing(const WbSql *sql, GError **error)
{
    WbMigrations migrations = wb_migrations();
    gint64 broken = -1;
    if (!wb_migrate_check(sql, &migrations, error) || !check_page_by_page(sql, error) ||
        !wb_sql_integer(sql, "SELECT count(*) FROM pragma_foreign_key_check", &broken, error))
        return FALSE;
    if (broken == 0)
        return TRUE;
    wb_store_fail(error, WB_STORE_ERROR_DAMAGED,
                  "%s is damaged (%d rows refer to what is not there); put back a copy of it, or "
                  "import an export into a new catalogue.",
                  sql->name, (int)broken);
    return FALSE;
}

static WbDatabase *open_existing(const char *path, GError **error)
{
    if (!wb_database_file_check(path, error))
        return NULL;
    g_autoptr(WbDatabase) database = connect_to(path, path, SQLITE_OPEN_READWRITE, error);
    if (!database || !check_existing(&database->sql, error))
        return NULL;
    if (sqlite3_db_readonly(database->sql.handle, "main") == 1) {
        wb_sql_fail(&database->sql, SQLITE_READONLY, error);
        return NULL;
    }
    WbMigrations migrations = wb_migrations();
    if (!wb_sql_run(&database->sql, "PRAGMA journal_mode = WAL", error) ||
        !wb_migrate(&database->sql, &migrations, error))
        return NULL;
    return g_steal_pointer(&database);
}

static gboolean fill_new(WbDatabase *database, gboolean empty, GError **error)
{
    WbMigrations migrations = wb_migrations();
    WbImportReport report;
    return wb_migrate(&database->sql, &migrations, error) &&
           (empty || wb_exchange_import(database, wb_embedded_starting_catalogue_json,
                                        (gssize)wb_embedded_starting_catalogue_json_length,
                                        "starting catalogue", FALSE, &report, error));
}

/* Only a complete file gets the name; whoever was first wins. */
static gboolean give_name(const char *temporary, const char *path, GError **error)
{
    int failed = link(temporary, path) == 0 || errno == EEXIST ? 0 : g_rename(temporary, path);
    int cause = errno;
    g_unlink(temporary);
    if (failed)
        wb_store_fail(error, WB_STORE_ERROR_FILE, "%s cannot be made: %s.", path,
                      g_strerror(cause));
    return !failed;
}

static gboolean create(const char *path, gboolean empty, GError **error)
{
    g_autofree char *temporary = g_strconcat(path, ".XXXXXX", NULL);
    int descriptor = g_mkstemp_full(temporary, O_RDWR, 0644);
    if (descriptor < 0) {
        wb_store_fail(error, WB_STORE_ERROR_FILE, "%s cannot be made: %s.", path,
                      g_strerror(errno));
        return FALSE;
    }
    close(descriptor);
    WbDatabase *database = connect_to(temporary, path, SQLITE_OPEN_READWRITE, error);
    gboolean filled = database && fill_new(database, empty, error);
    if (database)
        wb_database_close(database);
    if (filled)
        return give_name(temporary, path, error);
    g_unlink(temporary);
    return FALSE;
}

static WbDatabase *open_in_memory(gboolean empty, GError **error)
{
    g_autoptr(WbDatabase) database =
        connect_to(":memory:", "The catalogue", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, error);
    if (!database || !fill_new(database, empty, error))
        return NULL;
    return g_steal_pointer(&database);
}

WbDatabase *wb_database_open(const char *path, gboolean empty, GError **error)
{
    if (strcmp(path, ":memory:") == 0)
        return open_in_memory(empty, error);
    if (!g_file_test(path, G_FILE_TEST_EXISTS) && !create(path, empty, error))
        return NULL;
    return open_existing(path, error);
}

/* Where the file is all there is, "immutable" keeps SQLite from making others beside it. */
static char *read_uri(const char *path)
{
    g_autofree char *absolute = g_canonicalize_filename(path, NULL);
    g_autofree char *escaped = g_uri_escape_string(absolute, "/", FALSE);
    return g_strconcat("file://", escaped,
                       wb_database_file_stands_alone(path) ? "?immutable=1" : "?mode=ro", NULL);
}

/* The same in memory, brought to this version; the file stays as it is. Takes the database. */
static WbDatabase *migrated_copy(WbDatabase *old, GError **error)
{
    g_autoptr(WbDatabase) from = old;
    WbMigrations migrations = wb_migrations();
    g_autoptr(WbDatabase) copy =
        connect_to(":memory:", from->sql.name, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, error);
    if (!copy)
        return NULL;
    sqlite3_backup *backup =
        sqlite3_backup_init(copy->sql.handle, "main", from->sql.handle, "main");
    if (backup)
        sqlite3_backup_step(backup, -1);
    int code = backup ? sqlite3_backup_finish(backup) : sqlite3_errcode(copy->sql.handle);
    if (code != SQLITE_OK) {
        wb_sql_fail(&copy->sql, code, error);
        return NULL;
    }
    return wb_migrate(&copy->sql, &migrations, error) ? g_steal_pointer(&copy) : NULL;
}

WbDatabase *wb_database_open_to_read(const char *path, GError **error)
{
    if (!wb_database_file_check(path, error))
        return NULL;
    g_autofree char *uri = read_uri(path);
    g_autoptr(WbDatabase) database =
        connect_to(uri, path, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, error);
    gint64 version;
    if (!database || !check_existing(&database->sql, error) ||
        !wb_sql_integer(&database->sql, "PRAGMA user_version", &version, error))
        return NULL;
    if (version < wb_migrations().n)
        return migrated_copy(g_steal_pointer(&database), error);
    return g_steal_pointer(&database);
}
