/* What the store's tests share: a folder that goes away, and what every message must be. */
#ifndef WB_SCRATCH_H
#define WB_SCRATCH_H

#include "store_error.h"
#include <glib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

typedef struct {
    char *path;
} Scratch;

static inline void scratch_set_up(Scratch *scratch, gconstpointer data)
{
    g_autoptr(GError) error = NULL;
    scratch->path = g_dir_make_tmp("wattberth-test-XXXXXX", &error);
    g_assert_no_error(error);
}

static inline void scratch_tear_down(Scratch *scratch, gconstpointer data)
{
    g_autoptr(GDir) folder = g_dir_open(scratch->path, 0, NULL);
    for (const char *name; folder && (name = g_dir_read_name(folder));) {
        g_autofree char *path = g_build_filename(scratch->path, name, NULL);
        g_remove(path);
    }
    g_rmdir(scratch->path);
    g_free(scratch->path);
}

/* (transfer full) */
static inline char *scratch_file(const Scratch *scratch, const char *name)
{
    return g_build_filename(scratch->path, name, NULL);
}

static inline void scratch_write(const char *path, const char *text, gssize length)
{
    g_autoptr(GError) error = NULL;
    g_file_set_contents(path, text, length, &error);
    g_assert_no_error(error);
}

static inline GBytes *scratch_read(const char *path)
{
    char *text;
    gsize length;
    g_autoptr(GError) error = NULL;
    g_file_get_contents(path, &text, &length, &error);
    g_assert_no_error(error);
    return g_bytes_new_take(text, length);
}

/* Files in the folder, so that nothing is left lying about. */
static inline int scratch_count(const Scratch *scratch)
{
    int n = 0;
    g_autoptr(GDir) folder = g_dir_open(scratch->path, 0, NULL);
    while (g_dir_read_name(folder))
        n++;
    return n;
}

/* One sentence of bearable length that holds all the words, which stand between bars. */
static inline void assert_sentence(const GError *error, const char *words)
{
    g_assert_nonnull(error);
    g_assert_true(error->domain == WB_STORE_ERROR);
    g_test_message("%s", error->message);
    g_assert_true(g_str_has_suffix(error->message, "."));
    g_assert_null(strchr(error->message, '\n'));
    g_assert_true(g_utf8_validate(error->message, -1, NULL));
    g_assert_cmpuint(strlen(error->message), <, 600);
    g_auto(GStrv) each = g_strsplit(words, "|", -1);
    for (char **word = each; *word; word++)
        if (!strstr(error->message, *word))
            g_error("\"%s\" is not in: %s", *word, error->message);
}

#endif
