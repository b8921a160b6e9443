/* What the rest of the store sees of an open database. Private to the store. */
#ifndef WB_DATABASE_SQL_H
#define WB_DATABASE_SQL_H

#include "catalogue_table.h"
#include "database.h"
#include "sql.h"

const WbSql *wb_database_sql(const WbDatabase *database);
/* For reading alone; nothing beside the file is touched either. */
WbDatabase *wb_database_open_to_read(const char *path, GError **error);

/* Rows of all tables as they are now, without a transaction of its own (catalogue_load.c). */
WbCatalogueView *wb_catalogue_load(const WbSql *sql, GError **error);
/* One checked record, inside the caller's transaction (catalogue_put.c). */
gboolean wb_catalogue_put(const WbSql *sql, WbTableId id, const void *record, GError **error);

#endif
