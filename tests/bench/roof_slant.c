/* Times the roof fit on random roofs with slants and circles: case,ms,nodes,most,mm_bound,bound,
 * one run each; then the middle, the 99th of 100, the worst, and how many are not decided. */
#include "slant_cases.h"
#include <glib.h>
#include <stdio.h>
#include <stdlib.h>

enum { CASES = 400, AT_MOST = 1000, SEED = 20261128 };

typedef struct {
    double ms;
    bool decided;
} Timed;

static Timed time_case(int at, const SlantCase *drawn)
{
    WbRoofFit fit = {0};
    gint64 start_us = g_get_monotonic_time();
    if (wb_roof_most(&drawn->roof, drawn->panel_a_mm, drawn->panel_b_mm, AT_MOST, WB_ROOF_NODES,
                     NULL, &fit) != WB_OK)
        g_error("case %d: no answer", at);
    Timed timed = {(double)(g_get_monotonic_time() - start_us) / 1000, fit.most == fit.mm_bound};
    if (!wb_roof_layout_ok(&drawn->roof, drawn->panel_a_mm, drawn->panel_b_mm, fit.layout, fit.most,
                           NULL))
        g_error("case %d: a layout that does not lie", at);
    printf("%d,%.3f,%" G_GUINT64_FORMAT ",%d,%d,%d\n", at, timed.ms, fit.nodes, fit.most,
           fit.mm_bound, fit.bound);
    wb_roof_fit_free(&fit);
    return timed;
}

static int by_time(const void *a, const void *b)
{
    double one = ((const Timed *)a)->ms, other = ((const Timed *)b)->ms;
    return (one > other) - (one < other);
}

int main(void)
{
    WbRandom random;
    Timed timed[CASES];
    int open = 0;
    wb_random_seed(&random, SEED);
    printf("case,ms,nodes,most,mm_bound,bound\n");
    for (int i = 0; i < CASES; i++) {
        SlantCase drawn;
        slant_case(&drawn, &random);
        timed[i] = time_case(i, &drawn);
        open += !timed[i].decided;
        fflush(stdout);
    }
    qsort(timed, CASES, sizeof *timed, by_time);
    printf("middle,%.3f\n99 of 100,%.3f\nworst,%.3f\nnot decided,%d\n", timed[CASES / 2].ms,
           timed[CASES * 99 / 100].ms, timed[CASES - 1].ms, open);
    return 0;
}
