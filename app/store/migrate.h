/* Forward-only migrations by user_version, each in one transaction. Private to the store. */
#ifndef WB_MIGRATE_H
#define WB_MIGRATE_H

#include "sql.h"

/* "WBth", in the header of every catalogue. */
#define WB_APPLICATION_ID 0x57427468

typedef struct {
    const char *const *scripts; /* [v] leads from version v to v + 1 */
    int n;
} WbMigrations;

/* Those of data/schema, compiled in. */
WbMigrations wb_migrations(void);

/* Ours, and of a version this program knows? Changes nothing. */
gboolean wb_migrate_check(const WbSql *sql, const WbMigrations *migrations, GError **error);
/* From the database's version to the newest. One that fails leaves the version before it. */
gboolean wb_migrate(const WbSql *sql, const WbMigrations *migrations, GError **error);

#endif
