/* Benchmark: the whole ranking of the demo brief over the starting catalogue, and of random
 * catalogues of growing size. CSV; the least of five runs, one core. */
#include "rank.h"
#include "brief_file.h"
#include "database.h"
#include "gen.h"
#include <glib.h>
#include <sys/resource.h>

#define RUNS 5

static double seconds_since(gint64 start_us)
{
    return (double)(g_get_monotonic_time() - start_us) / 1e6;
}

static long peak_kib(void)
{
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    return usage.ru_maxrss;
}

static void measure(const char *name, const WbBrief *brief, const WbCatalogue *catalogue)
{
    double problem_s = 1e9, rank_s = 1e9;
    guint64 raw = 0, feasible = 0, front = 0;
    for (int run = 0; run < RUNS; run++) {
        WbProblem *problem;
        WbRanking ranking;
        WbRankOptions options = wb_rank_options_default();
        gint64 start_us = g_get_monotonic_time();
        if (wb_problem_new(brief, catalogue, NULL, &problem) != WB_OK)
            g_error("%s: no problem could be made", name);
        problem_s = MIN(problem_s, seconds_since(start_us));
        start_us = g_get_monotonic_time();
        if (wb_rank(problem, &options, NULL, &ranking) != WB_OK)
            g_error("%s: no ranking could be made", name);
        rank_s = MIN(rank_s, seconds_since(start_us));
        raw = ranking.raw;
        feasible = ranking.feasible;
        front = ranking.front_count;
        wb_ranking_free(&ranking);
        wb_problem_free(problem);
    }
    g_print("%s,%" G_GUINT64_FORMAT ",%" G_GUINT64_FORMAT ",%" G_GUINT64_FORMAT ",%.1f,%.1f,%ld\n",
            name, raw, feasible, front, 1e3 * problem_s, 1e3 * rank_s, peak_kib());
}

static void measure_demo(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDatabase) database = wb_database_open(":memory:", FALSE, &error);
    g_assert_no_error(error);
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &error);
    g_assert_no_error(error);
    g_autoptr(WbBriefFile) file = wb_brief_file_demo();
    measure("demo", wb_brief_file_brief(file), wb_catalogue_view_get(view));
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
    g_print("name,raw,feasible,front,problem_ms,rank_ms,peak_kib\n");
    measure_demo();
    for (int parts = 4; parts <= 32; parts *= 2)
        measure_random(parts);
    return 0;
}
