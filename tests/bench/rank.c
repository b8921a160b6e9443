/* Benchmark: the whole ranking of the demo brief over the starting catalogue, as it is and with
 * large arrays on a crowded roof, with a weight on dark hours and with them in the front, and of
 * random catalogues of growing size. again_ms: the problem made once more with the fit answers of
 * the run before, as after a change of weights; reused: how many of them. CSV; the least of five
 * runs, one core. */
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

static double make_problem(const char *name, const WbBrief *brief, const WbCatalogue *catalogue,
                           const WbCaches *caches, WbProblem **problem)
{
    gint64 start_us = g_get_monotonic_time();
    if (wb_problem_new_kept(brief, catalogue, caches, NULL, problem) != WB_OK)
        g_error("%s: no problem could be made", name);
    return seconds_since(start_us);
}

static void measure(const char *name, const WbBrief *brief, const WbCatalogue *catalogue)
{
    double problem_s = 1e9, again_s = 1e9, rank_s = 1e9;
    WbFitCacheCount first = {0}, last = {0};
    guint64 raw = 0, feasible = 0, front = 0;
    for (int run = 0; run < RUNS; run++) {
        WbProblem *problem;
        WbRanking ranking;
        WbRankOptions options = wb_rank_options_default();
        WbCaches caches = {wb_fit_cache_new(WB_FIT_CACHE_BYTES),
                           wb_sun_cache_new(WB_SUN_CACHE_BYTES)};
        double made_s = make_problem(name, brief, catalogue, &caches, &problem);
        problem_s = MIN(problem_s, made_s);
        wb_problem_free(problem);
        first = wb_fit_cache_count(caches.fits);
        made_s = make_problem(name, brief, catalogue, &caches, &problem);
        again_s = MIN(again_s, made_s);
        last = wb_fit_cache_count(caches.fits);
        wb_fit_cache_unref(caches.fits);
        wb_sun_cache_unref(caches.suns);
        gint64 start_us = g_get_monotonic_time();
        if (wb_rank(problem, &options, NULL, &ranking) != WB_OK)
            g_error("%s: no ranking could be made", name);
        rank_s = MIN(rank_s, seconds_since(start_us));
        raw = ranking.raw;
        feasible = ranking.feasible;
        front = ranking.front_count;
        wb_ranking_free(&ranking);
        wb_problem_free(problem);
    }
    g_print("%s,%" G_GUINT64_FORMAT ",%" G_GUINT64_FORMAT ",%" G_GUINT64_FORMAT
            ",%.1f,%.1f,%" G_GUINT64_FORMAT ",%.1f,%ld\n",
            name, raw, feasible, front, 1e3 * problem_s, 1e3 * again_s, last.reused - first.reused,
            1e3 * rank_s, peak_kib());
}

/* A boat's deckhouse: tapered front, round hatches, small panels by the dozen. */
static void fill_roof(WbRoof *roof)
{
    static const WbCorner corners[] = {{900, 0},    {7000, 0}, {7000, 3000},
                                       {900, 3000}, {0, 2300}, {0, 700}};
    static const WbObstacle things[] = {
        {"hatch", 1300, 1200, 600, 600, 50, 0, WB_OBSTACLE_STANDS, true},
        {"vent", 2950, 350, 260, 260, 40, 0, WB_OBSTACLE_STANDS, true},
        {"vent", 3050, 2410, 260, 260, 40, 0, WB_OBSTACLE_STANDS, true},
        {"mast", 4410, 1390, 220, 220, 80, 0, WB_OBSTACLE_STANDS, true},
        {"rail", 5210, 90, 1310, 170, 20, 0, WB_OBSTACLE_STANDS},
        {"box", 5870, 1930, 430, 710, 30, 0, WB_OBSTACLE_STANDS}};
    roof->length_mm = 7000;
    roof->width_mm = 3000;
    roof->margin_mm = 40;
    roof->gap_mm = 15;
    roof->corners = corners;
    roof->n_corners = G_N_ELEMENTS(corners);
    roof->obstacles = things;
    roof->n_obstacles = G_N_ELEMENTS(things);
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
    WbBrief dark = *wb_brief_file_brief(file);
    dark.weight[WB_CRITERION_DARK] = 1;
    measure("demo-dark-weighs", &dark, wb_catalogue_view_get(view));
    dark.weight[WB_CRITERION_DARK] = 0;
    dark.front |= 1u << WB_CRITERION_DARK;
    measure("demo-dark-in-front", &dark, wb_catalogue_view_get(view));
    dark.dark_hours.on = false;
    dark.weight[WB_CRITERION_DARK] = 1;
    measure("demo-dark-both-no-limit", &dark, wb_catalogue_view_get(view));
    WbBrief crowded = *wb_brief_file_brief(file);
    fill_roof(&crowded.roof);
    crowded.largest = (WbLargest){6, 6, 1, 1, 2}; /* large arrays, so that the roof is asked hard */
    measure("demo-crowded", &crowded, wb_catalogue_view_get(view));
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
    g_print("name,raw,feasible,front,problem_ms,again_ms,reused,rank_ms,peak_kib\n");
    measure_demo();
    for (int parts = 4; parts <= 32; parts *= 2)
        measure_random(parts);
    return 0;
}
