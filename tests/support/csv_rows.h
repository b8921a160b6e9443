/* Tables of tests/published. A file that cannot be read or a damaged row ends the program. */
#ifndef WB_TEST_CSV_ROWS_H
#define WB_TEST_CSV_ROWS_H

#include <glib.h>
#include <stdint.h>

/* Rows (GStrv) without comments and heading, each of `columns` fields. */
GPtrArray *csv_rows(const char *file, int columns);
int64_t csv_whole(const char *text);

#endif
