/* Whole kits of random catalogues and briefs: tightening any limit, of the brief or of a data
 * sheet, never makes a kit work and never mends a broken rule. */
#include "gen.h"
#include "kit.h"
#include <glib.h>
#include <stddef.h>

enum { ROUNDS = 400, KITS = 60 };

/* The same figure of every part of a kind, or one of the brief. up: more is asked for; otherwise
 * less is allowed. Circuits look at ratings for their own sizes, so those of data sheets are
 * tightened with the wiring off. */
#define OF_BRIEF(member) offsetof(Gen, brief.member), 0, 1
#define OF_PARTS(kind, member) offsetof(Gen, kind[0].member), sizeof(((Gen *)0)->kind[0]), GEN_MOST

static const struct {
    const char *name;
    size_t offset, stride;
    int n;
    bool up;
} limits[] = {
    {"money", OF_BRIEF(money_minor.value), false},
    {"weight", OF_BRIEF(weight_kg.value), false},
    {"roof load", OF_BRIEF(roof.max_load_kg), false},
    {"autonomy", OF_BRIEF(autonomy_target_days), true},
    {"highest array volts", OF_PARTS(controller, max_pv_v), false},
    {"highest array amps", OF_PARTS(controller, max_pv_a), false},
    {"highest array watts", OF_PARTS(controller, max_pv_w_12v), false},
    {"headroom", OF_PARTS(controller, headroom_v), true},
    {"headroom to start", OF_PARTS(controller, start_headroom_v), true},
    {"panel's system volts", OF_PARTS(panel, max_system_v), false},
    {"charging amps", OF_PARTS(storage, max_charge_a), false},
    {"discharging amps", OF_PARTS(storage, max_discharge_a), false},
    {"depth", OF_PARTS(storage, depth_limit), false},
    {"surge watts", OF_PARTS(inverter, surge_w), false},
    {"inverter's highest volts", OF_PARTS(inverter, max_v), false},
    {"inverter's lowest volts", OF_PARTS(inverter, min_v), true},
};

static void tighten(Gen *gen, size_t limit, double share)
{
    for (int k = 0; k < limits[limit].n; k++) {
        char *at = (char *)gen + limits[limit].offset + (size_t)k * limits[limit].stride;
        double *figure = (double *)(void *)at;
        *figure = limits[limit].up ? *figure * (1 + 2 * share) + share : *figure * share;
    }
}

static WbKit any_kit(const WbProblem *problem, WbRandom *random)
{
    const WbLargest *most = &problem->brief->largest;
    return (WbKit){.panel = (int)wb_random_below(random, problem->n_panels),
                   .n_series = 1 + (int)wb_random_below(random, (uint64_t)most->series),
                   .n_parallel = 1 + (int)wb_random_below(random, (uint64_t)most->parallel),
                   .controller = (int)wb_random_below(random, problem->n_controllers),
                   .n_controllers = 1 + (int)wb_random_below(random, (uint64_t)most->controllers),
                   .storage = (int)wb_random_below(random, problem->n_storage),
                   .bank_series = 1 + (int)wb_random_below(random, (uint64_t)most->bank_series),
                   .bank_parallel = 1 + (int)wb_random_below(random, (uint64_t)most->bank_parallel),
                   .inverter = (int)wb_random_below(random, problem->n_inverters),
                   .dcdc = (int)wb_random_below(random, problem->n_dcdc)};
}

/* Figures the generator leaves open are given here, so that all limits decide. */
static void fill(Gen *gen, WbRandom *random, bool wired)
{
    GenSize size = gen_small(random);
    gen_fill(gen, random, &size);
    gen->brief.wiring.on &= wired;
    for (int k = 0; k < GEN_MOST; k++) {
        gen->controller[k].start_headroom_v = 4;
        gen->inverter[k].min_v = 0.85 * (double)gen->inverter[k].bus_v;
        gen->storage[k].depth_limit = 0.6;
    }
}

static WbProblem *problem_of(const Gen *gen)
{
    WbProblem *problem;
    g_assert_cmpint(wb_problem_new(&gen->brief, &gen->catalogue, NULL, &problem), ==, WB_OK);
    return problem;
}

/* Kits of one catalogue before and after; how many broke by it. */
static unsigned compare(const WbProblem *loose, const WbProblem *tight, WbRandom *random)
{
    unsigned broke = 0;
    g_autofree WbVerdict *before = g_new(WbVerdict, 1), *after = g_new(WbVerdict, 1);
    for (int k = 0; k < KITS; k++) {
        WbKit kit = any_kit(loose, random);
        wb_judge_without_year(loose, &kit, before);
        wb_judge_without_year(tight, &kit, after);
        g_assert_cmpuint(before->broken & ~after->broken, ==, 0);
        g_assert_true(before->feasible || !after->feasible);
        broke += after->broken != before->broken;
    }
    return broke;
}

static void test_tightening(void)
{
    WbRandom random;
    wb_random_seed(&random, 20261129);
    g_autofree Gen *gens = g_new(Gen, 2); /* alike but for the limit */
    unsigned broke[G_N_ELEMENTS(limits)] = {0};
    for (int round = 0; round < ROUNDS; round++) {
        size_t i = (size_t)round % G_N_ELEMENTS(limits);
        WbRandom again = random;
        fill(&gens[0], &random, limits[i].stride == 0);
        fill(&gens[1], &again, limits[i].stride == 0);
        tighten(&gens[1], i, wb_random_unit(&random) * wb_random_unit(&random));
        WbProblem *loose = problem_of(&gens[0]), *tight = problem_of(&gens[1]);
        broke[i] += compare(loose, tight, &random);
        wb_problem_free(loose);
        wb_problem_free(tight);
    }
    /* Each limit did decide something, or the test would prove nothing. */
    for (size_t i = 0; i < G_N_ELEMENTS(limits); i++)
        g_test_message("%s: %u kits broke", limits[i].name, broke[i]);
    for (size_t i = 0; i < G_N_ELEMENTS(limits); i++)
        g_assert_cmpuint(broke[i], >, 0);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/tighten/no-kit-is-mended", test_tightening);
    return g_test_run();
}
