/* Times one change away on the carried roofs: name,ms,changes,proved. One run, processor's
 * time, and the middle and the worst of all at the end. */
#include "roof_change.h"
#include "cpu_time.h"
#include "roof_cases.h"
#include <stdio.h>

enum { REACH_MM = 1000 };

static double time_case(const RoofCase *row)
{
    WbRoofChange change[WB_ROOF_CHANGES];
    int n = 0, proved = 0;
    double start_ms = cpu_ms();
    if (wb_roof_changes(&row->roof, row->panel_a_mm, row->panel_b_mm, row->most + 1, REACH_MM,
                        WB_ROOF_NODES, NULL, change, &n) != WB_OK)
        g_error("%s: no answer", row->name);
    double ms = cpu_ms() - start_ms;
    for (int i = 0; i < n; i++)
        proved += change[i].proved;
    printf("%s,%.3f,%d,%d\n", row->name, ms, n, proved);
    wb_roof_changes_free(change, n);
    return ms;
}

static gint by_time(gconstpointer a, gconstpointer b)
{
    double one = *(const double *)a, other = *(const double *)b;
    return (one > other) - (one < other);
}

int main(void)
{
    g_autoptr(GPtrArray) roofs = roof_cases();
    g_autofree double *ms = g_new(double, roofs->len);
    printf("name,ms,changes,proved\n");
    for (guint i = 0; i < roofs->len; i++)
        ms[i] = time_case(roofs->pdata[i]);
    qsort(ms, roofs->len, sizeof *ms, by_time);
    printf("median,%.3f,,\nworst,%.3f,,\n", ms[roofs->len / 2], ms[roofs->len - 1]);
    return 0;
}
