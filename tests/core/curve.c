/* The curves against a separate brute force: every kit judged alone with its year, and each step
 * by its definition, compared with all others. */
#include "curve.h"
#include "bright.h"
#include "gen.h"
#include "rank.h"
#include <glib.h>
#include <math.h>

typedef struct {
    WbKit kit;
    WbFigures figures;
    uint64_t broken; /* without the dark hours */
} Judged;

static void judge_one(const WbProblem *problem, const WbKit *kit, GArray *kits)
{
    static const uint64_t eased = UINT64_C(1) << WB_RULE_MONEY | UINT64_C(1) << WB_RULE_WEIGHT;
    WbVerdict verdict;
    wb_judge_without_year(problem, kit, &verdict);
    if (verdict.broken & ~eased)
        return;
    Judged judged = {.kit = *kit, .broken = verdict.broken};
    g_assert_cmpint(wb_judge(problem, kit, &verdict), ==, WB_OK);
    judged.figures = verdict.figures;
    g_array_append_val(kits, judged);
}

static GArray *judge_all(const WbProblem *problem)
{
    const WbLargest *most = &problem->brief->largest;
    GArray *kits = g_array_new(FALSE, FALSE, sizeof(Judged));
    const int n_arrays = (int)problem->n_panels * most->series * most->parallel;
    const int n_banks = (int)problem->n_storage * most->bank_series * most->bank_parallel;
    const int n_controllers = (int)problem->n_controllers * most->controllers;
    const int n_rest = (int)(problem->n_inverters * problem->n_dcdc);
    for (int a = 0; a < n_arrays; a++)
        for (int c = 0; c < n_controllers; c++)
            for (int b = 0; b < n_banks; b++)
                for (int r = 0; r < n_rest; r++) {
                    WbKit kit = {
                        .panel = a / (most->series * most->parallel),
                        .n_series = 1 + a / most->parallel % most->series,
                        .n_parallel = 1 + a % most->parallel,
                        .controller = c / most->controllers,
                        .n_controllers = 1 + c % most->controllers,
                        .storage = b / (most->bank_series * most->bank_parallel),
                        .bank_series = 1 + b / most->bank_parallel % most->bank_series,
                        .bank_parallel = 1 + b % most->bank_parallel,
                        .inverter = r / (int)problem->n_dcdc,
                        .dcdc = r % (int)problem->n_dcdc,
                    };
                    judge_one(problem, &kit, kits);
                }
    return kits;
}

/* ---- what a curve is ---- */

static double limit_of(const WbLimit *limit)
{
    return limit->on ? limit->value : INFINITY;
}

static gboolean may_stand(const WbBrief *brief, const Judged *judged, WbCriterion resource)
{
    if (judged->figures.dark_h > limit_of(&brief->dark_hours))
        return FALSE;
    double value = wb_figure(&judged->figures, resource);
    if (judged->broken == UINT64_C(1) << WB_RULE_MONEY && resource == WB_CRITERION_COST)
        return value <= 1.5 * brief->money_minor.value;
    if (judged->broken == UINT64_C(1) << WB_RULE_WEIGHT && resource == WB_CRITERION_WEIGHT)
        return value <= 1.5 * brief->weight_kg.value;
    return judged->broken == 0;
}

static int by_tie(const Judged *a, const Judged *b)
{
    if (a->figures.cost_minor != b->figures.cost_minor)
        return a->figures.cost_minor < b->figures.cost_minor ? -1 : 1;
    if (a->figures.weight_g != b->figures.weight_g)
        return a->figures.weight_g < b->figures.weight_g ? -1 : 1;
    return wb_kit_compare(NULL, &a->kit, &b->kit);
}

/* Does a keep b off the curve? */
static gboolean keeps_off(const Judged *a, const Judged *b, WbCriterion resource, WbCriterion gain)
{
    double sign = gain == WB_CRITERION_DARK ? -1 : 1;
    double more = wb_figure(&a->figures, resource) - wb_figure(&b->figures, resource);
    double better = sign * (wb_figure(&a->figures, gain) - wb_figure(&b->figures, gain));
    if (more > 0 || better < 0)
        return FALSE;
    return more < 0 || better > 0 || by_tie(a, b) < 0;
}

static void check_curve(const WbBrief *brief, GArray *kits, const WbMoreCurve *curve)
{
    size_t n = 0;
    for (guint i = 0; i < kits->len; i++) {
        const Judged *judged = &g_array_index(kits, Judged, i);
        gboolean stands = may_stand(brief, judged, curve->resource);
        for (guint j = 0; j < kits->len && stands; j++) {
            const Judged *other = &g_array_index(kits, Judged, j);
            stands = !may_stand(brief, other, curve->resource) ||
                     !keeps_off(other, judged, curve->resource, curve->gain);
        }
        if (!stands)
            continue;
        double resource = wb_figure(&judged->figures, curve->resource);
        ptrdiff_t at = wb_more_curve_at(curve, resource);
        g_assert_cmpint(at, >=, 0);
        g_assert_cmpfloat(curve->step[at].resource, ==, resource);
        g_assert_cmpfloat(curve->step[at].gain, ==, wb_figure(&judged->figures, curve->gain));
        g_assert_cmpint(wb_kit_compare(NULL, &curve->step[at].kit, &judged->kit), ==, 0);
        n++;
    }
    g_assert_cmpuint(n, ==, curve->n);
}

/* The first has the other's steps, which end at the limit. */
static void check_within(const WbMoreCurve *a, const WbMoreCurve *b)
{
    g_assert_cmpuint(a->n, >=, b->n);
    for (size_t i = 0; i < b->n; i++) {
        g_assert_cmpfloat(a->step[i].resource, ==, b->step[i].resource);
        g_assert_cmpfloat(a->step[i].gain, ==, b->step[i].gain);
        g_assert_cmpint(wb_kit_compare(NULL, &a->step[i].kit, &b->step[i].kit), ==, 0);
    }
    for (size_t i = b->n; i < a->n; i++)
        g_assert_cmpfloat(a->step[i].resource, >, a->limit);
}

/* ---- random problems ---- */

#define PROBLEMS 100

/* One limit that stops most kits, so that much happens beyond it, and one of dark hours. */
static void tighten(WbRandom *random, WbBrief *brief, GArray *kits)
{
    if (kits->len == 0)
        return;
    const Judged *a = &g_array_index(kits, Judged, wb_random_below(random, kits->len));
    const Judged *b = &g_array_index(kits, Judged, wb_random_below(random, kits->len));
    gboolean money = wb_random_below(random, 2) == 0;
    brief->money_minor =
        (WbLimit){(double)MIN(a->figures.cost_minor, b->figures.cost_minor), money};
    brief->weight_kg = (WbLimit){MIN(wb_figure(&a->figures, WB_CRITERION_WEIGHT),
                                     wb_figure(&b->figures, WB_CRITERION_WEIGHT)),
                                 !money};
    double low = MIN(a->figures.dark_h, b->figures.dark_h);
    double high = MAX(a->figures.dark_h, b->figures.dark_h);
    brief->dark_hours =
        (WbLimit){wb_random_below(random, 2) ? low : high, wb_random_below(random, 4) != 0};
}

typedef struct {
    guint kits, steps, beyond, balanced, refused, compared;
} Seen;

/* What is said to be never darker is not. */
static void check_brightness(const WbProblem *problem, GArray *kits, Seen *seen)
{
    WbBright bright;
    for (guint i = 0; i < kits->len && i < 40; i++) {
        const Judged *a = &g_array_index(kits, Judged, i * 7 % kits->len);
        WbBrightKit of = wb_bright_kit(problem, &a->kit);
        g_assert_true(wb_bright_init(&bright, problem));
        g_assert_true(wb_bright_keep(wb_bright_bank(&bright, &a->kit), &of));
        for (guint j = 0; j < kits->len; j++) {
            const Judged *b = &g_array_index(kits, Judged, j);
            WbBrightKit other = wb_bright_kit(problem, &b->kit);
            WbBrightBank *bank = wb_bright_bank(&bright, &b->kit);
            gboolean same = a->kit.storage == b->kit.storage &&
                            a->kit.bank_series == b->kit.bank_series &&
                            a->kit.bank_parallel == b->kit.bank_parallel;
            gboolean outshone = wb_bright_is_outshone(&bright, bank, &other);
            g_assert_true(same || !outshone);
            if (outshone)
                g_assert_cmpfloat(a->figures.dark_h, <=, b->figures.dark_h);
            seen->compared += outshone && a->figures.dark_h < b->figures.dark_h;
        }
        wb_bright_free(&bright);
    }
}

/* A step beyond the limit leaves the curve where its dark hours do not hold. */
static void check_refused(const WbProblem *problem, WbPool *pool, const WbMoreCurve *before,
                          Seen *seen)
{
    WbMoreCurve after;
    const WbLimit *limit = &problem->brief->dark_hours;
    if (!limit->on || before->n == 0 || before->step[before->n - 1].resource <= before->limit)
        return;
    size_t at = before->step[before->n - 1].at;
    double kept = pool->figure[WB_CRITERION_DARK][at];
    pool->figure[WB_CRITERION_DARK][at] = limit->value + 1;
    g_assert_cmpint(
        wb_more_curve(problem, pool, true, before->resource, before->gain, NULL, &after), ==,
        WB_OK);
    pool->figure[WB_CRITERION_DARK][at] = kept;
    for (size_t i = 0; i < after.n; i++)
        g_assert_cmpuint(after.step[i].at, !=, at);
    wb_more_curve_free(&after);
    seen->refused++;
}

static void check_problem(const WbProblem *problem, GArray *kits, Seen *seen)
{
    WbRankOptions options = wb_rank_options_default();
    WbRanking ranking, hurried;
    options.pool = TRUE;
    g_assert_cmpint(wb_rank(problem, &options, NULL, &ranking), ==, WB_OK);
    options.hurried = TRUE;
    options.workers = 3;
    g_assert_cmpint(wb_rank(problem, &options, NULL, &hurried), ==, WB_OK);
    for (int r = 0; r < WB_CURVE_RESOURCES; r++)
        for (int g = 0; g < WB_CURVE_GAINS; g++) {
            WbMoreCurve curve, other;
            g_assert_cmpint(wb_more_curve(problem, ranking.pool, ranking.proved,
                                          wb_curve_resource[r], wb_curve_gain[g], NULL, &curve),
                            ==, WB_OK);
            g_assert_cmpint(wb_more_curve(problem, hurried.pool, hurried.proved,
                                          wb_curve_resource[r], wb_curve_gain[g], NULL, &other),
                            ==, WB_OK);
            check_curve(problem->brief, kits, &curve);
            check_within(&curve, &other);
            check_refused(problem, ranking.pool, &curve, seen);
            seen->steps += (guint)curve.n;
            seen->balanced += (guint)curve.balanced;
            for (size_t i = 0; i < curve.n; i++)
                seen->beyond += curve.step[i].resource > curve.limit;
            wb_more_curve_free(&curve);
            wb_more_curve_free(&other);
        }
    seen->kits += kits->len;
    check_brightness(problem, kits, seen);
    wb_ranking_free(&ranking);
    wb_ranking_free(&hurried);
}

static void test_random(void)
{
    g_autofree Gen *gen = g_new0(Gen, 1);
    WbRandom random;
    Seen seen = {0};
    wb_random_seed(&random, 606);
    for (int i = 0; i < PROBLEMS; i++) {
        GenSize size = gen_small(&random);
        size.panels = size.controllers = size.storage = 3;
        size.inverters = 2;
        size.series = size.parallel = size.bank_parallel = 3;
        gen_fill(gen, &random, &size);
        gen->brief.roof_on = gen->brief.bay_on = false;
        gen->brief.front = (uint32_t)(i % 3 ? 0x0f : 0xff);
        WbProblem *problem;
        g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
        g_autoptr(GArray) free_kits = judge_all(problem);
        tighten(&random, &gen->brief, free_kits);
        wb_problem_free(problem);
        g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
        g_autoptr(GArray) kits = judge_all(problem);
        check_problem(problem, kits, &seen);
        wb_problem_free(problem);
    }
    g_test_message("%u kits, %u steps, %u of them beyond a limit, %u years, %u refused, %u darker",
                   seen.kits, seen.steps, seen.beyond, seen.balanced, seen.refused, seen.compared);
    g_assert_cmpuint(seen.refused, >, 5);
    g_assert_cmpuint(seen.compared, >, 300);
    g_assert_cmpuint(seen.steps, >, 300);
    g_assert_cmpuint(seen.beyond, >, 20);
    g_assert_cmpuint(seen.balanced, >, 300);
}

/* ---- by hand ---- */

/* Of kits equal in both, the cheapest, then the lightest, then the first stands on the curve. */
static void test_ties(void)
{
    static const struct {
        int panel, cost, weight;
        double usable;
    } kits[] = {
        {0, 500, 900, 1000}, {1, 400, 990, 1000}, {4, 400, 950, 1000},
        {3, 400, 950, 1000}, {2, 300, 100, 999},  {5, 700, 900, 1000},
    };
    const WbBrief brief = {.largest = {1, 1, 1, 1, 1}};
    const WbCatalogue catalogue = {0};
    const WbProblem problem = {.brief = &brief, .catalogue = &catalogue};
    WbPool *pool = wb_pool_new(NULL);
    for (size_t i = 0; i < G_N_ELEMENTS(kits); i++) {
        WbKit kit = {.panel = kits[i].panel};
        WbFigures figures = {.cost_minor = kits[i].cost,
                             .weight_g = kits[i].weight,
                             .usable_wh = kits[i].usable,
                             .roof_area_mm2 = 2000000};
        g_assert_true(wb_pool_add(pool, &kit, WB_N_RULES, &figures));
    }
    WbMoreCurve curve;
    g_assert_cmpint(
        wb_more_curve(&problem, pool, true, WB_CRITERION_ROOF, WB_CRITERION_USABLE, NULL, &curve),
        ==, WB_OK);
    g_assert_cmpuint(curve.n, ==, 1);
    g_assert_cmpuint(curve.step[0].at, ==, 3);
    g_assert_cmpfloat(curve.step[0].resource, ==, 2);
    g_assert_cmpfloat(curve.step[0].gain, ==, 1000);
    wb_more_curve_free(&curve);
    wb_pool_unref(pool);
}

/* ---- the rest ---- */

static void test_at(void)
{
    WbCurveStep steps[] = {{.resource = 2}, {.resource = 5}, {.resource = 9}};
    const WbMoreCurve curve = {.step = steps, .n = 3};
    static const double asked[] = {1, 2, 4.5, 5, 8, 9, 100};
    static const int told[] = {-1, 0, 0, 1, 1, 2, 2};
    for (guint i = 0; i < G_N_ELEMENTS(asked); i++)
        g_assert_cmpint(wb_more_curve_at(&curve, asked[i]), ==, told[i]);
    const WbMoreCurve empty = {0};
    g_assert_cmpint(wb_more_curve_at(&empty, 3), ==, -1);
}

static void test_stop_and_bad_input(void)
{
    g_autofree Gen *gen = g_new0(Gen, 1);
    WbRandom random;
    WbProblem *problem;
    WbRanking ranking;
    WbRankOptions options = wb_rank_options_default();
    options.pool = TRUE;
    wb_random_seed(&random, 4);
    GenSize size = gen_small(&random);
    gen_fill(gen, &random, &size);
    g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
    g_assert_cmpint(wb_rank(problem, &options, NULL, &ranking), ==, WB_OK);
    WbControl control;
    WbMoreCurve curve = {.n = 77};
    wb_control_init(&control);
    wb_control_stop(&control);
    g_assert_cmpint(wb_more_curve(problem, ranking.pool, true, WB_CRITERION_COST, WB_CRITERION_DARK,
                                  &control, &curve),
                    ==, WB_STOPPED);
    g_assert_cmpint(wb_more_curve(problem, ranking.pool, true, WB_CRITERION_COST,
                                  WB_CRITERION_USABLE, &control, &curve),
                    ==, WB_STOPPED);
    g_assert_cmpint(wb_more_curve(problem, ranking.pool, true, WB_CRITERION_SPARE,
                                  WB_CRITERION_DARK, NULL, &curve),
                    ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_more_curve(problem, ranking.pool, true, WB_CRITERION_COST, WB_CRITERION_ROOF,
                                  NULL, &curve),
                    ==, WB_BAD_INPUT);
    g_assert_cmpint(
        wb_more_curve(problem, NULL, true, WB_CRITERION_COST, WB_CRITERION_DARK, NULL, &curve), ==,
        WB_BAD_INPUT);
    WbPool broken = {.whole = false};
    g_assert_cmpint(
        wb_more_curve(problem, &broken, true, WB_CRITERION_COST, WB_CRITERION_DARK, NULL, &curve),
        ==, WB_BAD_INPUT);
    g_assert_cmpuint(curve.n, ==, 77); /* nothing is written */
    wb_ranking_free(&ranking);
    wb_problem_free(problem);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/curve/random", test_random);
    g_test_add_func("/curve/ties", test_ties);
    g_test_add_func("/curve/at", test_at);
    g_test_add_func("/curve/stop-and-bad-input", test_stop_and_bad_input);
    return g_test_run();
}
