#include "csv_rows.h"
#include <stdbool.h>

int64_t csv_whole(const char *text)
{
    char *end;
    int64_t value = g_ascii_strtoll(text, &end, 10);
    if (end == text || *end)
        g_error("'%s' is not a whole number", text);
    return value;
}

GPtrArray *csv_rows(const char *file, int columns)
{
    const char *folder = g_getenv("WB_TEST_DATA");
    if (!folder)
        g_error("WB_TEST_DATA names no folder");
    g_autofree char *path = g_build_filename(folder, file, NULL);
    g_autofree char *text = NULL;
    if (!g_file_get_contents(path, &text, NULL, NULL))
        g_error("%s cannot be read", path);
    g_auto(GStrv) lines = g_strsplit(text, "\n", -1);
    GPtrArray *rows = g_ptr_array_new_with_free_func((GDestroyNotify)g_strfreev);
    bool heading = true;
    for (int i = 0; lines[i]; i++) {
        if (lines[i][0] == '#' || lines[i][0] == '\0')
            continue;
        if (!heading)
            g_ptr_array_add(rows, g_strsplit(lines[i], ",", columns));
        heading = false;
    }
    if (rows->len == 0)
        g_error("%s has no rows", path);
    for (guint i = 0; i < rows->len; i++)
        if ((int)g_strv_length(rows->pdata[i]) != columns)
            g_error("%s: row %u lacks a field", path, i + 1);
    return rows;
}
