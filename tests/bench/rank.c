/* Benchmark: the whole ranking of the demo brief over the starting catalogue, as it is and with
 * large arrays on a crowded roof, with a weight on dark hours and with them in the front, and of
 * random catalogues of growing size. CSV in ms of the processor, one thread, the least of five:
 *   problem     the problem made with nothing kept; again: the same with what was kept
 *   first       the first ranking, without dark hours
 *   load, price, limit   problem and ranking without dark hours after such a change
 *   dark        the whole ranking, every row with its dark hours
 * reused: fit answers that were kept. */
#include "rank.h"
#include "brief_file.h"
#include "cpu_time.h"
#include "database.h"
#include "gen.h"
#include <glib.h>
#include <sys/resource.h>

#define RUNS 5

typedef enum { FIRST, LOAD, PRICE, LIMIT, N_ANSWERS } Answer;

typedef struct {
    double problem_ms, again_ms, answer_ms[N_ANSWERS], dark_ms;
    guint64 raw, feasible, front, reused;
} Measured;

static long peak_kib(void)
{
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    return usage.ru_maxrss;
}

static WbProblem *make_problem(const WbBrief *brief, const WbCatalogue *catalogue,
                               const WbCaches *caches)
{
    WbProblem *problem;
    if (wb_problem_new_kept(brief, catalogue, caches, NULL, &problem) != WB_OK)
        g_error("no problem could be made");
    return problem;
}

static double rank(const WbProblem *problem, bool hurried, WbRanking *ranking)
{
    double begun_ms = cpu_ms();
    WbRankOptions options = wb_rank_options_default();
    options.hurried = hurried;
    if (wb_rank(problem, &options, NULL, ranking) != WB_OK)
        g_error("no ranking could be made");
    return cpu_ms() - begun_ms;
}

/* The question changed as told is made and ranked; the numbers differ from run to run. */
static double answer_ms(const WbBrief *brief, const WbCatalogue *catalogue, const WbCaches *caches,
                        Answer what, int run)
{
    WbBrief asked = *brief;
    WbCatalogue sold = *catalogue;
    g_autofree WbLoad *loads = g_memdup2(brief->loads, brief->n_loads * sizeof *loads);
    g_autofree WbOffer *offers = g_memdup2(catalogue->offers, catalogue->n_offers * sizeof *offers);
    if (what == LOAD)
        loads[0].power_w *= 1.02 + 0.01 * run;
    else if (what == PRICE)
        offers[0].price_minor += 100 * (1 + run);
    else if (what == LIMIT)
        asked.money_minor.value *= 1.02 + 0.01 * run;
    asked.loads = loads;
    sold.offers = offers;
    double begun_ms = cpu_ms();
    WbRanking ranking;
    WbProblem *problem = make_problem(&asked, &sold, caches);
    if (what == FIRST)
        begun_ms = cpu_ms();
    rank(problem, true, &ranking);
    double ms = cpu_ms() - begun_ms;
    wb_ranking_free(&ranking);
    wb_problem_free(problem);
    return ms;
}

static void measure_run(const WbBrief *brief, const WbCatalogue *catalogue, int run,
                        Measured *least)
{
    WbCaches caches = {wb_fit_cache_new(WB_FIT_CACHE_BYTES), wb_sun_cache_new(WB_SUN_CACHE_BYTES)};
    double begun_ms = cpu_ms();
    wb_problem_free(make_problem(brief, catalogue, &caches));
    least->problem_ms = MIN(least->problem_ms, cpu_ms() - begun_ms);
    WbFitCacheCount first = wb_fit_cache_count(caches.fits);
    begun_ms = cpu_ms();
    WbProblem *problem = make_problem(brief, catalogue, &caches);
    least->again_ms = MIN(least->again_ms, cpu_ms() - begun_ms);
    least->reused = wb_fit_cache_count(caches.fits).reused - first.reused;
    for (int what = 0; what < N_ANSWERS; what++)
        least->answer_ms[what] =
            MIN(least->answer_ms[what], answer_ms(brief, catalogue, &caches, (Answer)what, run));
    WbRanking ranking;
    least->dark_ms = MIN(least->dark_ms, rank(problem, false, &ranking));
    least->raw = ranking.raw;
    least->feasible = ranking.feasible;
    least->front = ranking.front_count;
    wb_ranking_free(&ranking);
    wb_problem_free(problem);
    wb_fit_cache_unref(caches.fits);
    wb_sun_cache_unref(caches.suns);
}

static void measure(const char *name, const WbBrief *brief, const WbCatalogue *catalogue)
{
    Measured least = {.problem_ms = G_MAXDOUBLE, .again_ms = G_MAXDOUBLE, .dark_ms = G_MAXDOUBLE};
    for (int what = 0; what < N_ANSWERS; what++)
        least.answer_ms[what] = G_MAXDOUBLE;
    for (int run = 0; run < RUNS; run++)
        measure_run(brief, catalogue, run, &least);
    g_print("%s,%" G_GUINT64_FORMAT ",%" G_GUINT64_FORMAT ",%" G_GUINT64_FORMAT ",%.1f,%.1f", name,
            least.raw, least.feasible, least.front, least.problem_ms, least.again_ms);
    for (int what = 0; what < N_ANSWERS; what++)
        g_print(",%.1f", least.answer_ms[what]);
    g_print(",%.1f,%" G_GUINT64_FORMAT ",%ld\n", least.dark_ms, least.reused, peak_kib());
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
    g_print(
        "name,raw,feasible,front,problem_ms,again_ms,first_ms,load_ms,price_ms,limit_ms,dark_ms,"
        "reused,peak_kib\n");
    measure_demo();
    for (int parts = 4; parts <= 32; parts *= 2)
        measure_random(parts);
    return 0;
}
