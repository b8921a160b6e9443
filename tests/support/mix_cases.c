#include "mix_cases.h"
#include "csv_rows.h"
#include <stdlib.h>
#include <string.h>

static void free_case(gpointer data)
{
    MixCase *mix_case = data;
    g_free(mix_case->name);
    g_free(mix_case);
}

/* Splits "a b c;d e f" and takes each group of n numbers. */
typedef void (*TakeGroup)(MixCase *mix_case, const int64_t *figure, int64_t unit_mm);

static void take_groups(MixCase *mix_case, const char *text, int n, int64_t unit_mm, TakeGroup take)
{
    if (*text == '\0')
        return;
    g_auto(GStrv) each = g_strsplit(text, ";", -1);
    for (int i = 0; each[i]; i++) {
        g_auto(GStrv) words = g_strsplit(each[i], " ", -1);
        int64_t figure[4];
        if ((int)g_strv_length(words) != n)
            g_error("mix case %s: bad group '%s'", mix_case->name, each[i]);
        for (int k = 0; k < n; k++)
            figure[k] = csv_whole(words[k]);
        take(mix_case, figure, unit_mm);
    }
}

static void take_size(MixCase *mix_case, const int64_t *figure, int64_t unit_mm)
{
    g_assert_cmpuint(mix_case->n_items, <, MIX_CASE_SIZES);
    mix_case->item[mix_case->n_items++] =
        (WbMixItem){figure[0] * unit_mm, figure[1] * unit_mm, (int)figure[2], false};
}

static void take_obstacle(MixCase *mix_case, const int64_t *figure, int64_t unit_mm)
{
    g_assert_cmpuint(mix_case->roof.n_obstacles, <, MIX_CASE_OBSTACLES);
    mix_case->obstacle[mix_case->roof.n_obstacles++] =
        (WbObstacle){"obstacle",          figure[0] * unit_mm, figure[1] * unit_mm,
                     figure[2] * unit_mm, figure[3] * unit_mm, 0};
}

static WbFitAnswer answer_of(const char *word)
{
    if (strcmp(word, "fits") == 0)
        return WB_FITS;
    if (strcmp(word, "fits not") == 0)
        return WB_FITS_NOT;
    if (strcmp(word, "open") != 0)
        g_error("mix case: '%s' is no answer", word);
    return WB_FIT_UNDECIDED;
}

GPtrArray *mix_cases(const char *file, int64_t unit_mm)
{
    GPtrArray *cases = g_ptr_array_new_with_free_func(free_case);
    g_autoptr(GPtrArray) rows = csv_rows(file, 7);
    for (guint i = 0; i < rows->len; i++) {
        char **field = rows->pdata[i];
        MixCase *mix_case = g_new0(MixCase, 1);
        mix_case->name = g_strdup(field[0]);
        mix_case->roof.length_mm = csv_whole(field[1]) * unit_mm;
        mix_case->roof.width_mm = csv_whole(field[2]) * unit_mm;
        mix_case->roof.obstacles = mix_case->obstacle;
        mix_case->answer = answer_of(field[4]);
        take_groups(mix_case, field[5], 3, unit_mm, take_size);
        take_groups(mix_case, field[6], 4, unit_mm, take_obstacle);
        for (size_t k = 0; k < mix_case->n_items; k++)
            mix_case->item[k].turns = csv_whole(field[3]) == 1;
        g_ptr_array_add(cases, mix_case);
    }
    return cases;
}

void square_case(MixCase *mix_case, int n, int64_t length_mm, int64_t width_mm)
{
    *mix_case = (MixCase){.roof = {.length_mm = length_mm, .width_mm = width_mm}, .n_items = n};
    g_assert_cmpint(n, <=, MIX_CASE_SIZES);
    for (int side = 1; side <= n; side++)
        mix_case->item[n - side] = (WbMixItem){side, side, 1, false};
}

GPtrArray *square_cases(void)
{
    GPtrArray *cases = g_ptr_array_new_with_free_func(free_case);
    g_autoptr(GPtrArray) rows = csv_rows("squares.csv", 3);
    for (guint i = 0; i < rows->len; i++) {
        char **field = rows->pdata[i];
        g_auto(GStrv) boxes = g_strsplit(field[2], ";", -1);
        for (int k = 0; boxes[k]; k++) {
            g_auto(GStrv) side = g_strsplit(boxes[k], "x", 2);
            MixCase *mix_case = g_new0(MixCase, 1);
            square_case(mix_case, (int)csv_whole(field[0]), csv_whole(side[0]), csv_whole(side[1]));
            g_assert_cmpint(mix_case->roof.length_mm * mix_case->roof.width_mm, ==,
                            csv_whole(field[1]));
            mix_case->name = g_strdup_printf("squares-%s-%s", field[0], boxes[k]);
            mix_case->answer = WB_FITS;
            g_ptr_array_add(cases, mix_case);
        }
    }
    return cases;
}
