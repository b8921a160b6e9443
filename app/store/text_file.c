#include "text_file.h"
#include "store_fail.h"
#include <errno.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>

static void set_file_error(GError **error, const char *path, const char *what)
{
    wb_store_fail(error, WB_STORE_ERROR_FILE, "%s %s: %s.", path, what, g_strerror(errno));
}

static char *read_stream(FILE *stream, const char *path, gsize most_mib, gsize *length,
                         GError **error)
{
    g_autoptr(GString) text = g_string_new(NULL);
    char block[65536];
    size_t n;
    while ((n = fread(block, 1, sizeof block, stream)) > 0) {
        g_string_append_len(text, block, (gssize)n);
        if (text->len > most_mib * 1024 * 1024) {
            wb_store_fail(error, WB_STORE_ERROR_FILE,
                          "%s is larger than %zu MiB, the most that is accepted.", path, most_mib);
            return NULL;
        }
    }
    if (ferror(stream)) {
        set_file_error(error, path, "cannot be read");
        return NULL;
    }
    *length = text->len;
    return g_string_free(g_steal_pointer(&text), FALSE);
}

char *wb_text_file_read(const char *path, gsize *length, GError **error)
{
    return wb_text_file_read_most(path, WB_TEXT_FILE_MOST / (1024 * 1024), length, error);
}

char *wb_text_file_read_most(const char *path, gsize most_mib, gsize *length, GError **error)
{
    FILE *stream = g_fopen(path, "rbe");
    if (!stream) {
        set_file_error(error, path, "cannot be opened");
        return NULL;
    }
    char *text = read_stream(stream, path, most_mib, length, error);
    fclose(stream);
    return text;
}

gboolean wb_text_file_write(const char *path, const char *text, GError **error)
{
    struct stat status;
    int mode = g_stat(path, &status) == 0 ? (int)(status.st_mode & 0777) : 0666;
    char *resolved = realpath(path, NULL);
    g_autoptr(GError) cause = NULL;
    gboolean written = g_file_set_contents_full(
        resolved ? resolved : path, text, -1,
        G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, mode, &cause);
    free(resolved);
    if (!written)
        wb_store_fail(error, WB_STORE_ERROR_FILE, "%s cannot be written: %s.", path,
                      cause->message);
    return written;
}
