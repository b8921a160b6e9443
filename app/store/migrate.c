#include "migrate.h"
#include "embedded.h"
#include "store_fail.h"

WbMigrations wb_migrations(void)
{
    static const char *const scripts[] = {
        wb_embedded_schema_0001_catalogue_sql, wb_embedded_schema_0002_energy_sql,
        wb_embedded_schema_0003_bay_sql, wb_embedded_schema_0004_wiring_sql,
        wb_embedded_schema_0005_circuits_sql};
    return (WbMigrations){scripts, G_N_ELEMENTS(scripts)};
}

gboolean wb_migrate_check(const WbSql *sql, const WbMigrations *migrations, GError **error)
{
    gint64 application, version;
    if (!wb_sql_integer(sql, "PRAGMA application_id", &application, error) ||
        !wb_sql_integer(sql, "PRAGMA user_version", &version, error))
        return FALSE;
    if (application != WB_APPLICATION_ID || version < 1) {
        wb_store_fail(
            error, WB_STORE_ERROR_FORMAT,
            "%s is a database of another program; a catalogue of this program is expected.",
            sql->name);
        return FALSE;
    }
    if (version > migrations->n) {
        wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                      "%s is of version %" G_GINT64_FORMAT
                      ", but this program reads versions up to %d; a newer one is needed.",
                      sql->name, version, migrations->n);
        return FALSE;
    }
    return TRUE;
}

/* Scripts run with foreign keys off, so that they can make a table anew without losing the rows
 * that refer to it; what they leave has to hold together all the same. */
static gboolean references_hold(const WbSql *sql, GError **error)
{
    gint64 broken;
    if (!wb_sql_integer(sql, "SELECT count(*) FROM pragma_foreign_key_check", &broken, error))
        return FALSE;
    if (broken > 0)
        wb_store_fail(error, WB_STORE_ERROR_DAMAGED,
                      "%s cannot be brought to this version: %d rows would refer to what is not "
                      "there; put back a copy of it, or import an export into a new catalogue.",
                      sql->name, (int)broken);
    return broken == 0;
}

/* The version is read again inside: another program may have migrated in between. */
static gboolean step_within(const WbSql *sql, const WbMigrations *migrations, GError **error)
{
    gint64 version;
    if (!wb_sql_integer(sql, "PRAGMA user_version", &version, error))
        return FALSE;
    if (version >= migrations->n)
        return TRUE;
    g_autofree char *mark = g_strdup_printf("PRAGMA application_id = %d; PRAGMA user_version = %d",
                                            WB_APPLICATION_ID, (int)version + 1);
    return wb_sql_run(sql, migrations->scripts[version], error) && references_hold(sql, error) &&
           wb_sql_run(sql, mark, error);
}

static gboolean run_steps(const WbSql *sql, const WbMigrations *migrations, GError **error)
{
    for (;;) {
        gint64 version;
        if (!wb_sql_integer(sql, "PRAGMA user_version", &version, error))
            return FALSE;
        if (version >= migrations->n)
            return TRUE;
        if (!wb_sql_begin(sql, error))
            return FALSE;
        if (!wb_sql_end(sql, step_within(sql, migrations, error), error))
            return FALSE;
    }
}

gboolean wb_migrate(const WbSql *sql, const WbMigrations *migrations, GError **error)
{
    gint64 before;
    if (!wb_sql_integer(sql, "PRAGMA foreign_keys", &before, error) ||
        !wb_sql_run(sql, "PRAGMA foreign_keys = OFF", error))
        return FALSE;
    gboolean done = run_steps(sql, migrations, error);
    if (before == 0)
        return done;
    return wb_sql_run(sql, "PRAGMA foreign_keys = ON", done ? error : NULL) && done;
}
