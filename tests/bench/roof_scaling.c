/* How the time of the roof fit grows with the panels: roofs on which about N panels fit, some for
 * each N. panels,roofs,median_ms,worst_ms,not_decided; one run each, processor's time. */
#include "cpu_time.h"
#include "roof_gen.h"
#include <stdlib.h>

enum { FIRST = 5, LAST = 60, STEP = 5, ROOFS = 15 };

static double time_roof(uint64_t seed, int n_panels, int *undecided)
{
    RoofCase *row = roof_gen_for(seed, n_panels);
    WbRoofFit fit = {0};
    double start_ms = cpu_ms();
    if (wb_roof_most(&row->roof, row->panel_a_mm, row->panel_b_mm, 1000, WB_ROOF_NODES, NULL,
                     &fit) != WB_OK)
        g_error("%s: no answer", row->name);
    double ms = cpu_ms() - start_ms;
    *undecided += fit.most < fit.bound;
    wb_roof_fit_free(&fit);
    roof_case_free(row);
    return ms;
}

static int by_size(const void *a, const void *b)
{
    double one = *(const double *)a, other = *(const double *)b;
    return (one > other) - (one < other);
}

int main(void)
{
    printf("panels,roofs,median_ms,worst_ms,not_decided\n");
    for (int n = FIRST; n <= LAST; n += STEP) {
        double ms[ROOFS];
        int undecided = 0;
        for (int i = 0; i < ROOFS; i++)
            ms[i] = time_roof((uint64_t)(1000 * n + i), n, &undecided);
        qsort(ms, ROOFS, sizeof *ms, by_size);
        printf("%d,%d,%.3f,%.3f,%d\n", n, ROOFS, ms[ROOFS / 2], ms[ROOFS - 1], undecided);
        fflush(stdout);
    }
    return 0;
}
