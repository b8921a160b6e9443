/* The file of a database, looked at before SQLite does. Private to the store. */
#ifndef WB_DATABASE_FILE_H
#define WB_DATABASE_FILE_H

#include <glib.h>

/* No log of SQLite with changes in it lies beside the file. */
gboolean wb_database_file_stands_alone(const char *path);
/* A file, not empty (SQLite would take that as a new one), not cut short. */
gboolean wb_database_file_check(const char *path, GError **error);

#endif
