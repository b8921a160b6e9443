#include "roof_cases.h"
#include "csv_rows.h"
#include <stdlib.h>
#include <string.h>

void roof_case_free(gpointer data)
{
    RoofCase *roof_case = data;
    g_free(roof_case->name);
    g_free(roof_case->source);
    g_free(roof_case);
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
            (WbObstacle){"obstacle",           csv_whole(figure[0]), csv_whole(figure[1]),
                         csv_whole(figure[2]), csv_whole(figure[3]), 0};
        roof_case->roof.n_obstacles++;
    }
    roof_case->roof.obstacles = roof_case->obstacle;
}

GPtrArray *roof_cases(void)
{
    GPtrArray *cases = g_ptr_array_new_with_free_func(roof_case_free);
    g_autoptr(GPtrArray) rows = csv_rows("roof.csv", 8);
    for (guint i = 0; i < rows->len; i++) {
        char **field = rows->pdata[i];
        RoofCase *roof_case = g_new0(RoofCase, 1);
        roof_case->name = g_strdup(field[0]);
        roof_case->source = g_strdup("independent computation, not published");
        roof_case->roof =
            (WbRoof){.length_mm = csv_whole(field[1]), .width_mm = csv_whole(field[2])};
        roof_case->panel_a_mm = csv_whole(field[3]);
        roof_case->panel_b_mm = csv_whole(field[4]);
        roof_case->most = (int)csv_whole(field[5]);
        roof_case->sure = csv_whole(field[6]) >= 2;
        read_obstacles(roof_case, field[7]);
        g_ptr_array_add(cases, roof_case);
    }
    return cases;
}

GPtrArray *pallet_cases(void)
{
    GPtrArray *cases = g_ptr_array_new_with_free_func(roof_case_free);
    g_autoptr(GPtrArray) rows = csv_rows("pallet.csv", 8);
    for (guint i = 0; i < rows->len; i++) {
        char **field = rows->pdata[i];
        RoofCase *roof_case = g_new0(RoofCase, 1);
        roof_case->name =
            g_strdup_printf("pallet-%s-%s-%s-%s", field[0], field[1], field[2], field[3]);
        roof_case->source = g_strdup(field[7]);
        roof_case->roof =
            (WbRoof){.length_mm = csv_whole(field[0]), .width_mm = csv_whole(field[1])};
        roof_case->panel_a_mm = csv_whole(field[2]);
        roof_case->panel_b_mm = csv_whole(field[3]);
        roof_case->most = (int)csv_whole(field[4]);
        roof_case->sure = strcmp(field[6], "proved") == 0;
        g_ptr_array_add(cases, roof_case);
    }
    return cases;
}
