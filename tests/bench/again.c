/* Benchmark: how long a person waits after an edit of the demo over the starting catalogue: the
 * answer soon (rank, front, why not) and the whole one (all dark hours, firmness). Weights over the
 * pool, a load and a limit by a search. CSV in ms of the processor, both workers: the
 * middle and the 95th of a hundred. */
#include "brief_file.h"
#include "cpu_time.h"
#include "database.h"
#include "fit_cache.h"
#include "result.h"

#define EDITS 20

typedef struct {
    const char *name, *pointer;
    double from, step;
} Edit;

static int by_size(gconstpointer a, gconstpointer b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void print(const char *name, const char *what, double *ms)
{
    qsort(ms, EDITS, sizeof *ms, by_size);
    g_print("%s,%s,%.1f,%.1f\n", name, what, ms[EDITS / 2], ms[EDITS * 95 / 100]);
}

static WbBriefFile *edited(WbBriefFile *file, const Edit *edit, int i)
{
    g_autoptr(GError) error = NULL;
    char number[G_ASCII_DTOSTR_BUF_SIZE];
    g_ascii_dtostr(number, sizeof number, edit->from + i * edit->step);
    WbBriefFile *made = wb_brief_file_set(file, edit->pointer, number, &error);
    g_assert_no_error(error);
    return made;
}

static void measure(const Edit *edit, WbBriefFile *file, WbCatalogueView *view)
{
    double soon_ms[EDITS], whole_ms[EDITS];
    WbCaches caches = {.fits = wb_fit_cache_new(WB_FIT_CACHE_BYTES),
                       .suns = wb_sun_cache_new(WB_SUN_CACHE_BYTES)};
    g_autoptr(WbResult) last = wb_result_make_soon(file, view, 0, NULL, &caches, NULL, NULL);
    for (int i = 0; i < EDITS; i++) {
        g_autoptr(WbBriefFile) other = edited(file, edit, i);
        double begun_ms = cpu_ms();
        WbResult *soon = wb_result_make_soon(other, view, 0, last, &caches, NULL, NULL);
        soon_ms[i] = cpu_ms() - begun_ms;
        begun_ms = cpu_ms();
        WbResult *whole = wb_result_make_whole(soon, 0, NULL, NULL);
        whole_ms[i] = cpu_ms() - begun_ms;
        wb_result_unref(soon);
        wb_result_unref(last);
        last = whole;
    }
    wb_fit_cache_unref(caches.fits);
    wb_sun_cache_unref(caches.suns);
    print(edit->name, "soon", soon_ms);
    print(edit->name, "whole", whole_ms);
}

/* Arguments: names of the edits to measure; none: all. */
int main(int argc, char **argv)
{
    static const Edit edits[] = {{"weight", "/weights/cost", 1, 0.1},
                                 {"weight-of-roof", "/weights/roof_area", 1, 0.1},
                                 {"load", "/loads/0/watts", 45, 0.1},
                                 {"money", "/limits/money_minor/value", 220000, 1000}};
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = wb_database_open(":memory:", FALSE, &error);
    g_assert_no_error(error);
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    g_assert_no_error(error);
    g_autoptr(WbBriefFile) file = wb_brief_file_demo();
    g_print("edit,answer,middle_ms,of_95_ms\n");
    for (gsize i = 0; i < G_N_ELEMENTS(edits); i++)
        if (argc < 2 || g_strv_contains((const char *const *)argv + 1, edits[i].name))
            measure(&edits[i], file, view);
    return 0;
}
