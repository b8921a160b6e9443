/* Every panel of the starting catalogue on the demo brief's roof: panel,length,width,ms,most,bound,
 * and the sum. Least of five runs, processor's time. */
#include "brief_file.h"
#include "cpu_time.h"
#include "database.h"
#include "roof.h"
#include <glib.h>

enum { RUNS = 5 };

static double time_panel(const WbRoof *roof, const WbPanel *panel)
{
    WbRoofFit fit = {0};
    double least_ms = G_MAXDOUBLE;
    for (int run = 0; run < RUNS; run++) {
        wb_roof_fit_free(&fit);
        double start_ms = cpu_ms();
        if (wb_roof_most(roof, panel->length_mm, panel->width_mm, 1000, WB_ROOF_NODES, NULL,
                         &fit) != WB_OK)
            g_error("%s: no answer", panel->part.id);
        least_ms = MIN(least_ms, cpu_ms() - start_ms);
    }
    g_print("%s,%" G_GINT64_FORMAT ",%" G_GINT64_FORMAT ",%.3f,%d,%d\n", panel->part.id,
            panel->length_mm, panel->width_mm, least_ms, fit.most, fit.bound);
    wb_roof_fit_free(&fit);
    return least_ms;
}

int main(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = wb_database_open(":memory:", FALSE, &error);
    g_assert_no_error(error);
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    g_assert_no_error(error);
    g_autoptr(WbBriefFile) file = wb_brief_file_demo();
    const WbCatalogue *catalogue = wb_catalogue_view_get(view);
    double sum_ms = 0;
    g_print("panel,length,width,ms,most,bound\n");
    for (size_t i = 0; i < catalogue->n_panels; i++)
        sum_ms += time_panel(&wb_brief_file_brief(file)->roof, &catalogue->panels[i]);
    g_print("sum of %zu,,,%.3f,,\n", catalogue->n_panels, sum_ms);
    return 0;
}
