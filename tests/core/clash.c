/* Which limits cannot be kept at once, against every kit of small catalogues: of each what it
 * breaks, and by that the fewest limits that let one in. */
#include "clash.h"
#include "brute.h"
#include "gen.h"
#include <glib.h>

/* Limits that a kit, sound otherwise, does not keep. */
static uint32_t broken_limits(const WbBrief *brief, const WbProblem *problem, const WbVerdict *kit)
{
    static const WbRule roof_rules[] = {WB_RULE_ROOF_FIT, WB_RULE_ROOF_UNDECIDED, WB_RULE_ROOF_LOAD,
                                        WB_RULE_ROOF_HEIGHT};
    WbVerdict strict;
    uint32_t broken = 0;
    wb_judge_without_year(problem, &kit->kit, &strict);
    for (guint i = 0; i < G_N_ELEMENTS(roof_rules); i++)
        broken |= (uint32_t)(strict.broken >> roof_rules[i] & 1) << WB_CLASH_ROOF;
    broken |= (uint32_t)(strict.broken >> WB_RULE_BAY_FIT & 1) << WB_CLASH_BAY;
    broken |= (uint32_t)(strict.broken >> WB_RULE_MONEY & 1) << WB_CLASH_MONEY;
    broken |= (uint32_t)(strict.broken >> WB_RULE_WEIGHT & 1) << WB_CLASH_WEIGHT;
    if (brief->dark_hours.on && kit->figures.dark_h > brief->dark_hours.value)
        broken |= 1u << WB_CLASH_DARK;
    return broken;
}

/* Kits that work with all limits off. */
static void loosened(const Gen *gen, Brute *brute)
{
    WbBrief brief = gen->brief;
    WbProblem *problem;
    brief.money_minor.on = brief.weight_kg.on = brief.dark_hours.on = FALSE;
    brief.roof_on = brief.bay_on = FALSE;
    g_assert_cmpint(wb_problem_new(&brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
    brute_force(problem, brute);
    wb_problem_free(problem);
}

static WbClash expected(const Gen *gen, const WbProblem *problem, const Brute *brute)
{
    WbClash best = {.asked = true};
    for (int size = 1; size <= WB_N_CLASH && best.works == 0; size++)
        for (uint32_t set = 1; set < 1u << WB_N_CLASH && best.works == 0; set++) {
            if (__builtin_popcount(set) != size)
                continue;
            for (size_t i = 0; i < brute->n; i++) {
                const WbFigures *figures = &brute->kits[i].figures;
                if (broken_limits(&gen->brief, problem, &brute->kits[i]) & ~set)
                    continue;
                double kg = (double)figures->weight_g / 1000;
                bool first = best.works++ == 0;
                best.limits = set;
                best.cheapest_minor =
                    first ? figures->cost_minor : MIN(best.cheapest_minor, figures->cost_minor);
                best.lightest_kg = first ? kg : MIN(best.lightest_kg, kg);
            }
        }
    return best;
}

static void tighten(WbBrief *brief, WbRandom *random)
{
    brief->money_minor = (WbLimit){100.0 * (double)wb_random_below(random, 1200), true};
    brief->weight_kg = (WbLimit){(double)wb_random_below(random, 40), true};
    brief->dark_hours = (WbLimit){(double)wb_random_below(random, 10), true};
    brief->roof_on = brief->bay_on = true;
}

typedef struct {
    guint asked, by_size[WB_N_CLASH + 1], blameless;
} Seen;

static void check(const Gen *gen, const WbProblem *problem, const WbRanking *ranking, Seen *seen)
{
    WbClash clash;
    g_assert_cmpint(wb_clash(problem, ranking, 2, NULL, &clash), ==, WB_OK);
    bool alone = false;
    for (int r = 0; r < WB_N_RULES; r++)
        alone |= ranking->ruled_out[r].alone > 0;
    g_assert_true(clash.asked == (ranking->feasible == 0 && ranking->raw > 0 && !alone));
    if (!clash.asked)
        return;
    Brute brute;
    loosened(gen, &brute);
    WbClash wanted = expected(gen, problem, &brute);
    g_assert_cmphex(clash.limits, ==, wanted.limits);
    g_assert_cmpuint(clash.works, ==, wanted.works);
    g_assert_cmpint(clash.cheapest_minor, ==, wanted.cheapest_minor);
    g_assert_cmpfloat(clash.lightest_kg, ==, wanted.lightest_kg);
    seen->asked++;
    seen->by_size[__builtin_popcount(clash.limits)]++;
    seen->blameless += brute.n == 0;
    brute_free(&brute);
}

static void test_clash(void)
{
    WbRandom random;
    wb_random_seed(&random, 20261202);
    Gen *gen = g_new(Gen, 1);
    Seen seen = {0};
    for (int i = 0; i < 600; i++) {
        GenSize size = gen_small(&random);
        gen_fill(gen, &random, &size);
        tighten(&gen->brief, &random);
        WbProblem *problem;
        WbRanking ranking;
        WbRankOptions options = wb_rank_options_default();
        g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
        g_assert_cmpint(wb_rank(problem, &options, NULL, &ranking), ==, WB_OK);
        check(gen, problem, &ranking, &seen);
        wb_ranking_free(&ranking);
        wb_problem_free(problem);
    }
    g_test_message("asked %u times: limits not to blame %u, two %u, three %u, four %u", seen.asked,
                   seen.blameless, seen.by_size[2], seen.by_size[3], seen.by_size[4]);
    g_assert_cmpuint(seen.blameless, >, 20);
    g_assert_cmpuint(seen.by_size[2], >, 20);
    g_assert_cmpuint(seen.by_size[3], >, 5);
    g_free(gen);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/clash/brute-force", test_clash);
    return g_test_run();
}
