/* Benchmark: the six curves of what more buys, over the pool of the demo brief, of the same with
 * limits that stop more and less, and of random catalogues. kits: in the pool; years: kits whose
 * year was worked out. CSV; the least of three runs, one core. */
#include "curve.h"
#include "brief_file.h"
#include "database.h"
#include "gen.h"
#include "rank.h"
#include <glib.h>

#define RUNS 3

static void measure_curve(const char *name, const WbProblem *problem, const WbRanking *ranking,
                          WbCriterion resource, WbCriterion gain)
{
    static const char *const words[WB_N_CRITERIA] = {"cost",     "weight", "usable", "roof",
                                                     "autonomy", "spare",  "dark",   "margin"};
    double least_s = 1e9;
    WbMoreCurve curve = {0};
    for (int run = 0; run < RUNS; run++) {
        gint64 start_us = g_get_monotonic_time();
        wb_more_curve_free(&curve);
        if (wb_more_curve(problem, ranking->pool, ranking->proved, resource, gain, NULL, &curve) !=
            WB_OK)
            g_error("%s: no curve could be made", name);
        least_s = MIN(least_s, (double)(g_get_monotonic_time() - start_us) / 1e6);
    }
    g_print("%s,%zu,%s,%s,%zu,%zu,%.1f\n", name, ranking->pool->n, words[resource], words[gain],
            curve.n, curve.balanced, 1e3 * least_s);
    wb_more_curve_free(&curve);
}

static void measure(const char *name, const WbBrief *brief, const WbCatalogue *catalogue)
{
    WbProblem *problem;
    WbRanking ranking;
    WbRankOptions options = wb_rank_options_default();
    options.pool = TRUE;
    if (wb_problem_new(brief, catalogue, NULL, &problem) != WB_OK ||
        wb_rank(problem, &options, NULL, &ranking) != WB_OK)
        g_error("%s: no ranking could be made", name);
    for (int g = 0; g < WB_CURVE_GAINS && ranking.pool->whole; g++)
        for (int r = 0; r < WB_CURVE_RESOURCES; r++)
            measure_curve(name, problem, &ranking, wb_curve_resource[r], wb_curve_gain[g]);
    wb_ranking_free(&ranking);
    wb_problem_free(problem);
}

static void measure_demo(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = wb_database_open(":memory:", FALSE, &error);
    g_assert_no_error(error);
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    g_assert_no_error(error);
    g_autoptr(WbBriefFile) file = wb_brief_file_demo();
    WbBrief brief = *wb_brief_file_brief(file);
    measure("demo", &brief, wb_catalogue_view_get(view));
    brief.dark_hours = (WbLimit){5, true};
    brief.money_minor.value *= 0.9;
    measure("demo-tight", &brief, wb_catalogue_view_get(view));
    brief.money_minor = (WbLimit){520000, true};
    brief.weight_kg.on = brief.dark_hours.on = false;
    measure("demo-wide", &brief, wb_catalogue_view_get(view));
}

static void measure_random(int parts)
{
    WbRandom random;
    wb_random_seed(&random, 1);
    g_autofree Gen *gen = g_new(Gen, 1);
    GenSize size = {parts, parts, parts, parts, MIN(parts, 4), 6, 6, 1, 4, 4};
    gen_fill(gen, &random, &size);
    g_autofree char *name = g_strdup_printf("random-%d", parts);
    measure(name, &gen->brief, &gen->catalogue);
}

int main(void)
{
    g_print("name,kits,resource,gain,steps,years,ms\n");
    measure_demo();
    for (int parts = 4; parts <= 16; parts *= 2)
        measure_random(parts);
    return 0;
}
