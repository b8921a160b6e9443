/* Times the roof fit on the carried roofs: name,ms,nodes,most,bound. Least of five runs. */
#include "roof_cases.h"
#include <stdio.h>

enum { RUNS = 5 };

static void time_case(const RoofCase *roof_case)
{
    WbRoofFit fit = {0};
    gint64 least_us = G_MAXINT64;
    for (int run = 0; run < RUNS; run++) {
        wb_roof_fit_free(&fit);
        gint64 start_us = g_get_monotonic_time();
        if (wb_roof_most(&roof_case->roof, roof_case->panel_a_mm, roof_case->panel_b_mm, 1000,
                         WB_ROOF_NODES, NULL, &fit) != WB_OK)
            g_error("%s: no answer", roof_case->name);
        least_us = MIN(least_us, g_get_monotonic_time() - start_us);
    }
    printf("%s,%.3f,%" G_GUINT64_FORMAT ",%d,%d\n", roof_case->name, (double)least_us / 1000,
           fit.nodes, fit.most, fit.bound);
    wb_roof_fit_free(&fit);
}

int main(void)
{
    g_autoptr(GPtrArray) roofs = roof_cases();
    g_autoptr(GPtrArray) pallets = pallet_cases();
    printf("name,ms,nodes,most,bound\n");
    for (guint i = 0; i < roofs->len; i++)
        time_case(roofs->pdata[i]);
    for (guint i = 0; i < pallets->len; i++)
        time_case(pallets->pdata[i]);
    return 0;
}
