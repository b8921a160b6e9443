#include "brute.h"
#include "second_order.h"
#include <math.h>
#include <string.h>

static void brute_one(const WbProblem *problem, const WbKit *kit, GArray *kits, Brute *brute)
{
    WbVerdict verdict;
    /* Whatever else fails, the hourly year is looked at last: no need to run it for those. */
    wb_judge_without_year(problem, kit, &verdict);
    if (verdict.feasible)
        g_assert_cmpint(wb_judge(problem, kit, &verdict), ==, WB_OK);
    brute->raw++;
    brute->undecided += verdict.undecided;
    if (verdict.feasible) {
        g_array_append_val(kits, verdict);
        return;
    }
    int first = 0, broken = 0;
    for (int r = WB_N_RULES - 1; r >= 0; r--)
        if (verdict.broken >> r & 1) {
            first = r;
            broken++;
        }
    WbRuledOut *out = &brute->ruled_out[first];
    out->first++;
    if (broken != 1)
        return;
    const WbFinding *finding = &verdict.finding[first];
    if ((first == WB_RULE_MONEY || first == WB_RULE_WEIGHT) &&
        finding->value <= WB_POOL_BEYOND * finding->limit)
        g_array_append_val(brute->beyond, verdict);
    bool told = first != WB_RULE_DARK_HOURS;
    double miss = told ? fabs(finding->value - finding->limit) : INFINITY;
    double least = told ? fabs(out->value - out->limit) : INFINITY;
    if (out->alone++ == 0 || miss < least ||
        (miss == least && wb_kit_compare(problem, kit, &out->nearest) < 0)) {
        out->nearest = *kit;
        out->value = finding->value;
        out->limit = finding->limit;
    }
}

static int by_figures(const WbProblem *problem, const WbVerdict *a, const WbVerdict *b)
{
    double of_a[WB_N_CRITERIA], of_b[WB_N_CRITERIA];
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        of_a[c] = wb_figure(&a->figures, (WbCriterion)c);
        of_b[c] = wb_figure(&b->figures, (WbCriterion)c);
    }
    return second_order(problem, of_a, of_b);
}

/* By the brief's way, then by the ids themselves, not by the order of indices. */
static int by_way_and_id(gconstpointer left, gconstpointer right, gpointer data)
{
    const WbProblem *problem = data;
    const WbVerdict *a = left, *b = right;
    int way = by_figures(problem, a, b);
    if (way != 0)
        return way;
    const char *ids[2][5];
    for (int i = 0; i < 2; i++) {
        const WbKit *kit = i ? &b->kit : &a->kit;
        ids[i][0] = problem->panels[kit->panel].panel->part.id;
        ids[i][1] = problem->controllers[kit->controller].controller->part.id;
        ids[i][2] = problem->storage[kit->storage].storage->part.id;
        ids[i][3] = kit->inverter ? problem->inverters[kit->inverter].inverter->part.id : "";
        ids[i][4] = kit->dcdc ? problem->dcdc[kit->dcdc].dcdc->part.id : "";
    }
    const int counts[2][5] = {{a->kit.n_series, a->kit.n_parallel, a->kit.n_controllers,
                               a->kit.bank_series, a->kit.bank_parallel},
                              {b->kit.n_series, b->kit.n_parallel, b->kit.n_controllers,
                               b->kit.bank_series, b->kit.bank_parallel}};
    int order = strcmp(ids[0][0], ids[1][0]);
    for (int i = 0; i < 2 && !order; i++)
        order = counts[0][i] - counts[1][i];
    if (!order)
        order = strcmp(ids[0][1], ids[1][1]);
    if (!order)
        order = counts[0][2] - counts[1][2];
    if (!order)
        order = strcmp(ids[0][2], ids[1][2]);
    for (int i = 3; i < 5 && !order; i++)
        order = counts[0][i] - counts[1][i];
    for (int i = 3; i < 5 && !order; i++)
        order = strcmp(ids[0][i], ids[1][i]);
    return order;
}

static gboolean beats(const WbBrief *brief, const WbFigures *a, const WbFigures *b)
{
    gboolean better = FALSE;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        if (!(brief->front >> c & 1))
            continue;
        double sign = c == WB_CRITERION_COST || c == WB_CRITERION_WEIGHT ||
                              c == WB_CRITERION_ROOF || c == WB_CRITERION_DARK
                          ? 1.0
                          : -1.0;
        double x = sign * wb_figure(a, c), y = sign * wb_figure(b, c);
        if (x > y)
            return FALSE;
        if (x < y)
            better = TRUE;
    }
    return better;
}

static void brute_front(const WbProblem *problem, Brute *brute)
{
    brute->on_front = g_new0(gboolean, brute->n + 1);
    for (size_t i = 0; i < brute->n; i++) {
        gboolean beaten = FALSE;
        for (size_t j = 0; j < brute->n && !beaten; j++)
            beaten = beats(problem->brief, &brute->kits[j].figures, &brute->kits[i].figures);
        brute->on_front[i] = !beaten;
        brute->front += !beaten;
    }
}

void brute_force(const WbProblem *problem, Brute *brute)
{
    const WbLargest *most = &problem->brief->largest;
    GArray *kits = g_array_new(FALSE, FALSE, sizeof(WbVerdict));
    memset(brute, 0, sizeof *brute);
    brute->beyond = g_array_new(FALSE, FALSE, sizeof(WbVerdict));
    WbKit k;
    for (k.panel = 0; k.panel < (int)problem->n_panels; k.panel++)
        for (k.n_series = 1; k.n_series <= most->series; k.n_series++)
            for (k.n_parallel = 1; k.n_parallel <= most->parallel; k.n_parallel++)
                for (k.controller = 0; k.controller < (int)problem->n_controllers; k.controller++)
                    for (k.n_controllers = 1; k.n_controllers <= most->controllers;
                         k.n_controllers++)
                        for (k.storage = 0; k.storage < (int)problem->n_storage; k.storage++)
                            for (k.bank_series = 1; k.bank_series <= most->bank_series;
                                 k.bank_series++)
                                for (k.bank_parallel = 1; k.bank_parallel <= most->bank_parallel;
                                     k.bank_parallel++)
                                    for (k.inverter = 0; k.inverter < (int)problem->n_inverters;
                                         k.inverter++)
                                        for (k.dcdc = 0; k.dcdc < (int)problem->n_dcdc; k.dcdc++)
                                            brute_one(problem, &k, kits, brute);
    g_array_sort_with_data(kits, by_way_and_id, (gpointer)problem);
    brute->n = kits->len;
    brute->kits = (WbVerdict *)(void *)g_array_free(kits, FALSE);
    brute_front(problem, brute);
}

void brute_free(Brute *brute)
{
    g_free(brute->kits);
    g_free(brute->on_front);
    g_array_unref(brute->beyond);
}

static void compare_chemistries(const WbProblem *problem, const WbRanking *ranking,
                                const Brute *brute)
{
    g_assert_cmpuint(ranking->n_chemistries, ==, problem->catalogue->n_chemistries);
    for (size_t c = 0; c < ranking->n_chemistries; c++) {
        const WbChemistryRank *of = &ranking->chemistries[c];
        guint64 works = 0;
        for (size_t i = 0; i < brute->n; i++) {
            if (problem->storage[brute->kits[i].kit.storage].chemistry != of->chemistry)
                continue;
            if (works++ == 0) {
                g_assert_cmpint(wb_kit_compare(problem, &of->best.kit, &brute->kits[i].kit), ==, 0);
                g_assert_cmpint(of->best.on_front, ==, brute->on_front[i]);
            }
        }
        g_assert_cmpuint(of->feasible, ==, works);
    }
}

static void compare_nearest(const WbProblem *problem, WbRule rule, const WbRuledOut *a,
                            const WbRuledOut *b)
{
    if (a->alone == 0 || rule == WB_RULE_DARK_HOURS)
        return;
    g_assert_cmpint(wb_kit_compare(problem, &a->nearest, &b->nearest), ==, 0);
    g_assert_true(a->value == b->value);
    g_assert_true(a->limit == b->limit);
}

void brute_compare(const WbProblem *problem, const WbRanking *ranking, const Brute *brute,
                   size_t top)
{
    g_assert_cmpuint(ranking->raw, ==, brute->raw);
    g_assert_cmpuint(ranking->feasible, ==, brute->n);
    g_assert_cmpuint(ranking->undecided, ==, brute->undecided);
    g_assert_cmpuint(ranking->front_count, ==, brute->front);
    g_assert_cmpuint(ranking->n_top, ==, MIN(top, brute->n));
    for (int r = 0; r < WB_N_RULES; r++) {
        g_assert_cmpuint(ranking->ruled_out[r].first, ==, brute->ruled_out[r].first);
        g_assert_cmpuint(ranking->ruled_out[r].alone, ==, brute->ruled_out[r].alone);
        compare_nearest(problem, (WbRule)r, &ranking->ruled_out[r], &brute->ruled_out[r]);
    }
    for (size_t i = 0; i < ranking->n_top; i++) {
        g_assert_cmpint(wb_kit_compare(problem, &ranking->top[i].kit, &brute->kits[i].kit), ==, 0);
        g_assert_true(ranking->top[i].score == brute->kits[i].score);
        g_assert_true(ranking->top[i].figures.dark_h == brute->kits[i].figures.dark_h);
        g_assert_cmpint(ranking->top[i].on_front, ==, brute->on_front[i]);
    }
    compare_chemistries(problem, ranking, brute);
    size_t f = 0;
    for (size_t i = 0; i < brute->n; i++)
        if (brute->on_front[i])
            g_assert_cmpint(wb_kit_compare(problem, &ranking->front[f++].kit, &brute->kits[i].kit),
                            ==, 0);
    g_assert_cmpuint(f, ==, ranking->n_front);
}
