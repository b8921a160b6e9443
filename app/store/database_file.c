#include "database_file.h"
#include "store_fail.h"
#include <errno.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>

gboolean wb_database_file_stands_alone(const char *path)
{
    static const char *const logs[] = {"-wal", "-journal"};
    for (size_t i = 0; i < G_N_ELEMENTS(logs); i++) {
        g_autofree char *log = g_strconcat(path, logs[i], NULL);
        GStatBuf status;
        if (g_stat(log, &status) == 0 && status.st_size > 0)
            return FALSE;
    }
    return TRUE;
}

/* Bytes the header says there are: page size at offset 16, count of pages at 28, both big-endian
 * (SQLite file format, section 1.3); 0 when it does not say. */
static gint64 promised_size(const char *path)
{
    unsigned char head[32] = {0};
    FILE *stream = g_fopen(path, "rbe");
    if (!stream)
        return 0;
    size_t n = fread(head, 1, sizeof head, stream);
    fclose(stream);
    if (n < sizeof head || memcmp(head, "SQLite format 3", 16) != 0)
        return 0;
    gint64 page = head[16] << 8 | head[17];
    gint64 pages = (gint64)head[28] << 24 | head[29] << 16 | head[30] << 8 | head[31];
    return (page == 1 ? 65536 : page) * pages;
}

static gboolean fail(const char *path, WbStoreError code, const char *sentence, GError **error)
{
    wb_store_fail(error, code, "%s %s.", path, sentence);
    return FALSE;
}

gboolean wb_database_file_check(const char *path, GError **error)
{
    GStatBuf status;
    if (g_stat(path, &status) != 0) {
        g_autofree char *problem = g_strdup_printf("cannot be opened: %s", g_strerror(errno));
        return fail(path, WB_STORE_ERROR_FILE, problem, error);
    }
    if (!S_ISREG(status.st_mode))
        return fail(path, WB_STORE_ERROR_FILE, "cannot be opened: it is not a file", error);
    if (status.st_size == 0)
        return fail(path, WB_STORE_ERROR_FORMAT,
                    "is empty; a catalogue of this program is expected", error);
    if (wb_database_file_stands_alone(path) && status.st_size < promised_size(path))
        return fail(path, WB_STORE_ERROR_DAMAGED,
                    "is cut short; put back a copy of it, or import an export into a new catalogue",
                    error);
    return TRUE;
}
