#include "roof_cases.h"
#include <stdlib.h>
#include <string.h>

static void free_case(gpointer data)
{
    RoofCase *roof_case = data;
    g_free(roof_case->name);
    g_free(roof_case->source);
    g_free(roof_case);
}

static int64_t number(const char *text)
{
    char *end;
    int64_t value = g_ascii_strtoll(text, &end, 10);
    if (end == text || *end)
        g_error("roof case: '%s' is not a whole number", text);
    return value;
}

/* Rows without comments and heading; each is split into `columns` fields. */
static GPtrArray *rows_of(const char *file, int columns)
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
    for (guint i = 0; i < rows->len; i++)
        if ((int)g_strv_length(rows->pdata[i]) != columns)
            g_error("%s: row %u lacks a field", path, i + 1);
    return rows;
}

static void read_obstacles(RoofCase *roof_case, const char *text)
{
    if (*text == '\0')
        return;
    g_auto(GStrv) each = g_strsplit(text, ";", -1);
    for (int i = 0; each[i]; i++) {
        g_auto(GStrv) figure = g_strsplit(each[i], " ", -1);
        if (g_strv_length(figure) != 4 || i == ROOF_CASE_OBSTACLES)
            g_error("roof case %s: bad obstacle '%s'", roof_case->name, each[i]);
        roof_case->obstacle[i] =
            (WbObstacle){"obstacle",        number(figure[0]), number(figure[1]),
                         number(figure[2]), number(figure[3]), 0};
        roof_case->roof.n_obstacles++;
    }
    roof_case->roof.obstacles = roof_case->obstacle;
}

GPtrArray *roof_cases(void)
{
    GPtrArray *cases = g_ptr_array_new_with_free_func(free_case);
    g_autoptr(GPtrArray) rows = rows_of("roof.csv", 8);
    for (guint i = 0; i < rows->len; i++) {
        char **field = rows->pdata[i];
        RoofCase *roof_case = g_new0(RoofCase, 1);
        roof_case->name = g_strdup(field[0]);
        roof_case->source = g_strdup("independent computation, not published");
        roof_case->roof = (WbRoof){.length_mm = number(field[1]), .width_mm = number(field[2])};
        roof_case->panel_a_mm = number(field[3]);
        roof_case->panel_b_mm = number(field[4]);
        roof_case->most = (int)number(field[5]);
        roof_case->sure = number(field[6]) >= 2;
        read_obstacles(roof_case, field[7]);
        g_ptr_array_add(cases, roof_case);
    }
    return cases;
}

GPtrArray *pallet_cases(void)
{
    GPtrArray *cases = g_ptr_array_new_with_free_func(free_case);
    g_autoptr(GPtrArray) rows = rows_of("pallet.csv", 8);
    for (guint i = 0; i < rows->len; i++) {
        char **field = rows->pdata[i];
        RoofCase *roof_case = g_new0(RoofCase, 1);
        roof_case->name =
            g_strdup_printf("pallet-%s-%s-%s-%s", field[0], field[1], field[2], field[3]);
        roof_case->source = g_strdup(field[7]);
        roof_case->roof = (WbRoof){.length_mm = number(field[0]), .width_mm = number(field[1])};
        roof_case->panel_a_mm = number(field[2]);
        roof_case->panel_b_mm = number(field[3]);
        roof_case->most = (int)number(field[4]);
        roof_case->sure = strcmp(field[6], "proved") == 0;
        g_ptr_array_add(cases, roof_case);
    }
    return cases;
}
