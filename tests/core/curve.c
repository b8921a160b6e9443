/* The curves against a separate brute force: every kit judged alone with its year, and each step
 * by its definition, compared with all others. */
#include "curve.h"
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

static void check_same(const WbMoreCurve *a, const WbMoreCurve *b)
{
    g_assert_cmpuint(a->n, ==, b->n);
    for (size_t i = 0; i < a->n; i++) {
        g_assert_cmpfloat(a->step[i].resource, ==, b->step[i].resource);
        g_assert_cmpfloat(a->step[i].gain, ==, b->step[i].gain);
        g_assert_cmpint(wb_kit_compare(NULL, &a->step[i].kit, &b->step[i].kit), ==, 0);
    }
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
    brief->dark_hours =
        (WbLimit){MAX(a->figures.dark_h, b->figures.dark_h), wb_random_below(random, 4) != 0};
}

typedef struct {
    guint kits, steps, beyond, balanced;
} Seen;

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
            check_same(&curve, &other);
            seen->steps += (guint)curve.n;
            seen->balanced += (guint)curve.balanced;
            for (size_t i = 0; i < curve.n; i++)
                seen->beyond += curve.step[i].resource > curve.limit;
            wb_more_curve_free(&curve);
            wb_more_curve_free(&other);
        }
    seen->kits += kits->len;
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
    g_test_message("%u kits, %u steps, %u of them beyond a limit, %u years", seen.kits, seen.steps,
                   seen.beyond, seen.balanced);
    g_assert_cmpuint(seen.steps, >, 300);
    g_assert_cmpuint(seen.beyond, >, 20);
    g_assert_cmpuint(seen.balanced, >, 300);
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
    g_test_add_func("/curve/at", test_at);
    g_test_add_func("/curve/stop-and-bad-input", test_stop_and_bad_input);
    return g_test_run();
}
