/* Mixes of sizes against carried values, by hand-made cases, bad proofs and bad input. */
#include "mix.h"
#include "mix_cases.h"
#include "mix_why.h"
#include <math.h>
#include <string.h>

/* A proof can be told in full: what it stands on is in it. */
static int why_of(const WbRoof *roof, const WbMixItem *items, size_t n, const WbMixFit *fit)
{
    WbMixWhy why;
    g_assert_cmpint(wb_mix_why(roof, items, n, fit, &why), ==, WB_OK);
    int kind = why.kind;
    g_assert_cmpint(kind == WB_MIX_WHY_SIZE || kind == WB_MIX_WHY_ONE, ==, why.which >= 0);
    g_assert_cmpint(kind == WB_MIX_WHY_CLAUSES, <=, why.proof.n_literals > 0);
    if (kind == WB_MIX_WHY_ONE) {
        const WbMixItem *item = &why.item[why.which];
        g_assert_cmpint(why.one.n_panels, ==, item->count);
        g_assert_true(wb_roof_proof_ok(roof, item->length_mm, item->width_mm, &why.one, NULL));
    }
    wb_mix_why_free(&why);
    return kind;
}

static WbMixFit fit_of(const WbRoof *roof, const WbMixItem *items, size_t n)
{
    WbMixFit fit = {0};
    g_assert_cmpint(wb_mix_fit(roof, items, n, WB_ROOF_NODES, NULL, &fit), ==, WB_OK);
    if (fit.answer == WB_FITS)
        g_assert_true(wb_mix_layout_ok(roof, items, n, fit.layout, fit.n_layout));
    else
        g_assert_null(fit.layout);
    if (fit.answer == WB_FITS_NOT) {
        g_assert_true(wb_mix_proof_ok(roof, items, n, &fit));
        why_of(roof, items, n, &fit);
    }
    return fit;
}

static WbFitAnswer answer_of(const WbRoof *roof, const WbMixItem *items, size_t n)
{
    WbMixFit fit = fit_of(roof, items, n);
    WbFitAnswer answer = fit.answer;
    wb_mix_fit_free(&fit);
    return answer;
}

/* One test per carried row. Where the carried answer is open, any checked one will do. */
static void test_carried(gconstpointer data)
{
    const MixCase *mix_case = data;
    WbMixFit fit = {0};
    uint64_t nodes = mix_case->answer == WB_FIT_UNDECIDED ? WB_ROOF_NODES / 20 : WB_ROOF_NODES;
    g_assert_cmpint(
        wb_mix_fit(&mix_case->roof, mix_case->item, mix_case->n_items, nodes, NULL, &fit), ==,
        WB_OK);
    if (mix_case->answer != WB_FIT_UNDECIDED)
        g_assert_cmpint(fit.answer, ==, mix_case->answer);
    if (fit.answer == WB_FITS)
        g_assert_true(wb_mix_layout_ok(&mix_case->roof, mix_case->item, mix_case->n_items,
                                       fit.layout, fit.n_layout));
    if (fit.answer == WB_FITS_NOT)
        g_assert_true(wb_mix_proof_ok(&mix_case->roof, mix_case->item, mix_case->n_items, &fit));
    wb_mix_fit_free(&fit);
}

/* The squares of sides 1 .. n in no smaller box: each one that is wide enough and has their area is
 * refuted. */
static void test_smaller_boxes(gconstpointer data)
{
    const MixCase *best = data;
    int n = (int)best->n_items, least = n * (n + 1) * (2 * n + 1) / 6, refuted = 0;
    int64_t area = best->roof.length_mm * best->roof.width_mm;
    for (int64_t width = n; width * width < area; width++)
        for (int64_t length = width; length * width < area; length++) {
            if (length * width < least)
                continue;
            MixCase box;
            square_case(&box, n, length, width);
            g_assert_cmpint(answer_of(&box.roof, box.item, box.n_items), ==, WB_FITS_NOT);
            refuted++;
        }
    g_test_message("%d boxes of less than %d refuted", refuted, (int)area);
}

static void test_turns_only_where_it_may(void)
{
    WbRoof roof = {.length_mm = 500, .width_mm = 200};
    WbMixItem items[2] = {{500, 100, 1, false}, {100, 500, 1, true}};
    g_assert_cmpint(answer_of(&roof, items, 2), ==, WB_FITS);
    items[1].turns = false;
    g_assert_cmpint(answer_of(&roof, items, 2), ==, WB_FITS_NOT);
}

static void test_gap_margin_clearance(void)
{
    WbObstacle vent = {"vent", 430, 0, 40, 300, 20};
    WbRoof roof = {.length_mm = 10 + 400 + 20 + 40 + 20 + 300 + 50 + 100 + 10,
                   .width_mm = 320,
                   .margin_mm = 10,
                   .gap_mm = 50,
                   .obstacles = &vent,
                   .n_obstacles = 1};
    WbMixItem items[3] = {{400, 300, 1, false}, {300, 300, 1, false}, {100, 300, 1, false}};
    g_assert_cmpint(answer_of(&roof, items, 3), ==, WB_FITS);
    roof.length_mm--;
    g_assert_cmpint(answer_of(&roof, items, 3), ==, WB_FITS_NOT);
    roof.length_mm++;
    vent.clearance_mm++;
    g_assert_cmpint(answer_of(&roof, items, 3), ==, WB_FITS_NOT);
}

static void test_shade_and_height(void)
{
    WbObstacle low = {.name = "low", .x_mm = 0, .y_mm = 0, .length_mm = 500, .width_mm = 200};
    WbRoof roof = {.length_mm = 500, .width_mm = 200, .obstacles = &low, .n_obstacles = 1};
    WbMixItem items[2] = {{250, 200, 1, false}, {200, 250, 1, true}};
    g_assert_cmpint(answer_of(&roof, items, 2), ==, WB_FITS_NOT);
    low.kind = WB_OBSTACLE_SHADE;
    g_assert_cmpint(answer_of(&roof, items, 2), ==, WB_FITS);
    low.kind = WB_OBSTACLE_STANDS;
    low.height_mm = 59;
    roof.standoff_mm = 60;
    roof.over_obstacles = true;
    g_assert_cmpint(answer_of(&roof, items, 2), ==, WB_FITS);
    low.height_mm = 60;
    g_assert_cmpint(answer_of(&roof, items, 2), ==, WB_FITS_NOT);
}

/* A tapered front: the second panel ends at 1800 mm or later, where the roof is 460 mm wide. */
static void test_slanted_edge(void)
{
    WbCorner corners[4] = {{0, 0}, {2000, 300}, {2000, 700}, {0, 1000}};
    WbRoof roof = {.length_mm = 2000, .width_mm = 1000, .corners = corners, .n_corners = 4};
    WbMixItem items[2] = {{900, 700, 1, false}, {900, 460, 1, false}};
    g_assert_cmpint(answer_of(&roof, items, 2), ==, WB_FITS);
    items[1].width_mm = 463;
    g_assert_cmpint(answer_of(&roof, items, 2), ==, WB_FITS_NOT);
}

static void test_round_obstacle(void)
{
    WbObstacle dome = {
        .name = "dome", .x_mm = 400, .y_mm = 400, .length_mm = 200, .width_mm = 200, .round = true};
    WbRoof roof = {.length_mm = 1000, .width_mm = 1000, .obstacles = &dome, .n_obstacles = 1};
    /* Four in the corners: one of 429 x 429 ends 100.4 mm from the middle, of 431 x 432 97 mm. */
    WbMixItem items[2] = {{429, 429, 2, true}, {428, 429, 2, true}};
    g_assert_cmpint(answer_of(&roof, items, 2), ==, WB_FITS);
    items[0] = (WbMixItem){432, 432, 2, true};
    items[1] = (WbMixItem){431, 432, 2, true};
    g_assert_cmpint(answer_of(&roof, items, 2), ==, WB_FITS_NOT);
}

static void test_nothing_asked(void)
{
    WbRoof roof = {.length_mm = 100, .width_mm = 100};
    WbMixItem none = {1000, 1000, 0, true};
    g_assert_cmpint(answer_of(&roof, &none, 1), ==, WB_FITS);
    g_assert_cmpint(answer_of(&roof, NULL, 0), ==, WB_FITS);
}

static void test_alike_items_are_parted(void)
{
    WbRoof roof = {.length_mm = 600, .width_mm = 200};
    WbMixItem items[3] = {{200, 100, 2, true}, {200, 200, 1, true}, {100, 200, 2, true}};
    WbMixFit fit = fit_of(&roof, items, 3);
    g_assert_cmpint(fit.answer, ==, WB_FITS);
    wb_mix_fit_free(&fit);
}

static const MixCase *case_named(GPtrArray *cases, const char *name)
{
    for (guint i = 0; i < cases->len; i++) {
        MixCase *mix_case = cases->pdata[i];
        if (strcmp(mix_case->name, name) == 0)
            return mix_case;
    }
    g_error("no case %s", name);
}

/* A proof cut short, a clause that does not follow, a literal out of range, another question's. */
static void test_bad_proofs(void)
{
    g_autoptr(GPtrArray) cases = mix_cases("packing.csv", 1);
    const MixCase *asked = case_named(cases, "E03N16"), *other = case_named(cases, "E04F17");
    WbMixFit fit = fit_of(&asked->roof, asked->item, asked->n_items);
    size_t n = fit.proof.n_literals;
    int32_t first = fit.proof.literals[0];
    g_assert_cmpuint(n, >, 100);
    g_assert_false(wb_mix_proof_ok(&other->roof, other->item, other->n_items, &fit));
    fit.proof.n_literals = n - 1;
    g_assert_false(wb_mix_proof_ok(&asked->roof, asked->item, asked->n_items, &fit));
    fit.proof.n_literals = n;
    fit.proof.literals[0] = 1 << 30;
    g_assert_false(wb_mix_proof_ok(&asked->roof, asked->item, asked->n_items, &fit));
    fit.proof.literals[0] = first;
    fit.answer = WB_FITS;
    g_assert_false(wb_mix_proof_ok(&asked->roof, asked->item, asked->n_items, &fit));
    fit.answer = WB_FITS_NOT;
    g_assert_true(wb_mix_proof_ok(&asked->roof, asked->item, asked->n_items, &fit));
    memset(fit.proof.literals, 0, sizeof(int32_t));
    fit.proof.n_literals = 1;
    g_assert_false(wb_mix_proof_ok(&asked->roof, asked->item, asked->n_items, &fit));
    fit.proof.n_literals = 0;
    g_assert_false(wb_mix_proof_ok(&asked->roof, asked->item, asked->n_items, &fit));
    wb_mix_fit_free(&fit);
}

static void test_bad_layouts(void)
{
    WbRoof roof = {.length_mm = 600, .width_mm = 300, .gap_mm = 10};
    WbMixItem items[2] = {{200, 100, 1, false}, {300, 150, 1, true}};
    WbMixPlace good[2] = {{{0, 0, 200, 100}, 0}, {{210, 0, 150, 300}, 1}}, bad[2];
    g_assert_true(wb_mix_layout_ok(&roof, items, 2, good, 2));
    static const struct {
        int which, item;
        WbRect rect;
    } SPOILT[] = {
        {1, 1, {209, 0, 150, 300}},  {1, 1, {210, 1, 150, 300}}, {1, 1, {210, -1, 150, 300}},
        {1, 1, {451, 0, 150, 300}},  {1, 1, {210, 0, 150, 299}}, {0, 0, {0, 0, 100, 200}},
        {1, 0, {210, 0, 150, 300}},  {0, 1, {0, 0, 200, 100}},   {1, 2, {210, 0, 150, 300}},
        {1, -1, {210, 0, 150, 300}},
    };
    for (size_t k = 0; k < G_N_ELEMENTS(SPOILT); k++) {
        memcpy(bad, good, sizeof bad);
        bad[SPOILT[k].which] = (WbMixPlace){SPOILT[k].rect, SPOILT[k].item};
        g_assert_false(wb_mix_layout_ok(&roof, items, 2, bad, 2));
    }
    g_assert_false(wb_mix_layout_ok(&roof, items, 2, good, 1));
}

static void test_bad_input(void)
{
    WbRoof roof = {.length_mm = 600, .width_mm = 300};
    WbMixItem many[WB_MIX_SIZES + 1];
    for (int i = 0; i <= WB_MIX_SIZES; i++)
        many[i] = (WbMixItem){100 + i, 50, 1, true};
    WbMixFit fit = {.n_layout = 77};
    static const WbMixItem BAD[] = {{0, 50, 1, true},
                                    {50, -1, 1, true},
                                    {100001, 50, 1, true},
                                    {50, 50, -1, true},
                                    {50, 50, WB_MIX_PANELS + 1, true}};
    for (size_t k = 0; k < G_N_ELEMENTS(BAD); k++)
        g_assert_cmpint(wb_mix_fit(&roof, &BAD[k], 1, 100, NULL, &fit), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_mix_fit(&roof, many, WB_MIX_SIZES + 1, 100, NULL, &fit), ==, WB_BAD_INPUT);
    roof.gap_mm = -1;
    g_assert_cmpint(wb_mix_fit(&roof, many, 1, 100, NULL, &fit), ==, WB_BAD_INPUT);
    g_assert_cmpint(fit.n_layout, ==, 77);
}

static void test_stop_and_budget(void)
{
    g_autoptr(GPtrArray) cases = mix_cases("packing.csv", 1);
    const MixCase *asked = case_named(cases, "E00N23");
    WbMixFit fit = {.n_layout = 77};
    WbControl control;
    wb_control_init(&control);
    wb_control_stop(&control);
    g_assert_cmpint(wb_mix_fit(&asked->roof, asked->item, asked->n_items, 100, &control, &fit), ==,
                    WB_STOPPED);
    g_assert_cmpint(fit.n_layout, ==, 77);
    g_assert_cmpint(wb_mix_fit(&asked->roof, asked->item, asked->n_items, 100, NULL, &fit), ==,
                    WB_OK);
    g_assert_cmpint(fit.answer, ==, WB_FIT_UNDECIDED);
    g_assert_cmpuint(fit.nodes, <=, 120);
    wb_mix_fit_free(&fit);
    g_assert_cmpint(wb_mix_fit(&asked->roof, asked->item, asked->n_items, 0, NULL, &fit), ==,
                    WB_OK);
    g_assert_cmpint(fit.answer, ==, WB_FIT_UNDECIDED);
    wb_mix_fit_free(&fit);
}

/* ---- the best of mixes ---- */

static const WbObstacle VAN_OBSTACLES[] = {{"vent", 1200, 500, 400, 400, 30},
                                           {"hatch", 2600, 700, 500, 500, 30},
                                           {"rack", 0, 1600, 900, 100, 20},
                                           {"aerial", 3800, 200, 80, 80, 50}};
static const WbRoof VAN = {.length_mm = 4100,
                           .width_mm = 1800,
                           .margin_mm = 30,
                           .gap_mm = 10,
                           .obstacles = VAN_OBSTACLES,
                           .n_obstacles = 4,
                           .max_load_kg = NAN};
static const WbMixModel MODELS[] = {
    {1200, 540, 100, 9000, 8}, {1480, 670, 175, 15900, 12}, {1005, 545, 90, 6900, 7}};

static void assert_front(const WbRoof *roof, const WbMixModel *models, size_t n_models,
                         const WbMixBest *best, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        WbMixItem items[WB_MIX_MODELS];
        for (size_t k = 0; k < n_models; k++)
            items[k] = (WbMixItem){models[k].length_mm, models[k].width_mm, best[i].count[k], true};
        g_assert_true(wb_mix_layout_ok(roof, items, n_models, best[i].layout, best[i].n_layout));
        g_assert_true(!(best[i].load_kg > roof->max_load_kg));
        if (i > 0) {
            g_assert_cmpfloat(best[i].power_w, <, best[i - 1].power_w);
            g_assert_cmpint(best[i].price_minor, <, best[i - 1].price_minor);
        }
    }
}

/* Whether something on the front is as strong and as cheap. */
static bool reached(const WbMixBest *best, size_t n, double power_w, int64_t price_minor)
{
    for (size_t i = 0; i < n; i++)
        if (best[i].power_w >= power_w && best[i].price_minor <= price_minor)
            return true;
    return false;
}

static void test_best_holds_singles(void)
{
    WbMixBest *best;
    size_t n;
    int undecided;
    g_assert_cmpint(
        wb_mix_best(&VAN, MODELS, 3, 36, 20 * (uint64_t)WB_ROOF_NODES, NULL, &best, &n, &undecided),
        ==, WB_OK);
    g_assert_cmpint(undecided, ==, 0);
    g_assert_cmpuint(n, >, 0);
    g_assert_true(best[0].proved);
    assert_front(&VAN, MODELS, 3, best, n);
    for (int k = 0; k < 3; k++) {
        WbRoofFit fit;
        g_assert_cmpint(wb_roof_most(&VAN, MODELS[k].length_mm, MODELS[k].width_mm, 36,
                                     WB_ROOF_NODES, NULL, &fit),
                        ==, WB_OK);
        for (int count = 1; count <= fit.most; count++)
            g_assert_true(
                reached(best, n, count * MODELS[k].power_w, count * MODELS[k].price_minor));
        wb_roof_fit_free(&fit);
    }
    wb_mix_best_free(best, n);
}

/* Against asking every vector of counts. */
static void test_best_against_all(void)
{
    WbMixBest *best;
    size_t n;
    int undecided;
    WbRoof roof = VAN;
    roof.max_load_kg = 40;
    g_assert_cmpint(
        wb_mix_best(&roof, MODELS, 2, 4, 20 * (uint64_t)WB_ROOF_NODES, NULL, &best, &n, &undecided),
        ==, WB_OK);
    assert_front(&roof, MODELS, 2, best, n);
    size_t met = 0;
    for (int a = 0; a <= 4; a++)
        for (int b = a ? 0 : 1; a + b <= 4; b++) {
            WbMixItem items[2] = {{1200, 540, a, true}, {1480, 670, b, true}};
            double power_w = a * MODELS[0].power_w + b * MODELS[1].power_w;
            int64_t price = a * MODELS[0].price_minor + b * MODELS[1].price_minor;
            if (a * 8 + b * 12 > 40 || answer_of(&roof, items, 2) != WB_FITS)
                continue;
            g_assert_true(reached(best, n, power_w, price));
            for (size_t i = 0; i < n; i++)
                met += best[i].count[0] == a && best[i].count[1] == b;
        }
    g_assert_cmpuint(met, ==, n);
    wb_mix_best_free(best, n);
}

static void test_best_without_price(void)
{
    WbMixModel models[2] = {MODELS[0], MODELS[1]};
    models[1].price_minor = -1;
    WbMixBest *best;
    size_t n;
    int undecided;
    g_assert_cmpint(
        wb_mix_best(&VAN, models, 2, 36, 20 * (uint64_t)WB_ROOF_NODES, NULL, &best, &n, &undecided),
        ==, WB_OK);
    g_assert_cmpuint(n, >, 1);
    for (size_t i = 0; i < n; i++)
        g_assert_cmpint(best[i].price_minor, ==, best[i].count[1] ? -1 : best[i].count[0] * 9000);
    wb_mix_best_free(best, n);
}

static void test_best_nothing_fits(void)
{
    WbRoof roof = {.length_mm = 500, .width_mm = 500, .max_load_kg = NAN};
    WbMixBest *best = NULL;
    size_t n = 1;
    int undecided = 1;
    g_assert_cmpint(wb_mix_best(&roof, MODELS, 3, 36, WB_ROOF_NODES, NULL, &best, &n, &undecided),
                    ==, WB_OK);
    g_assert_cmpuint(n, ==, 0);
    g_assert_cmpint(undecided, ==, 0);
    wb_mix_best_free(best, n);
}

static void test_best_bad_input(void)
{
    WbMixModel models[2] = {MODELS[0], MODELS[1]};
    WbMixBest *best;
    size_t n;
    int undecided;
    g_assert_cmpint(wb_mix_best(&VAN, models, 4, 36, 1, NULL, &best, &n, &undecided), ==,
                    WB_BAD_INPUT);
    g_assert_cmpint(wb_mix_best(&VAN, models, 2, -1, 1, NULL, &best, &n, &undecided), ==,
                    WB_BAD_INPUT);
    models[0].power_w = NAN;
    g_assert_cmpint(wb_mix_best(&VAN, models, 2, 36, 1, NULL, &best, &n, &undecided), ==,
                    WB_BAD_INPUT);
}

static void add_carried(GPtrArray *cases, const char *folder)
{
    for (guint i = 0; i < cases->len; i++) {
        MixCase *mix_case = cases->pdata[i];
        g_autofree char *path = g_strconcat(folder, mix_case->name, NULL);
        g_test_add_data_func(path, mix_case, test_carried);
    }
}

/* Each kind of reason, and none for what is no proof. */
static void test_why(void)
{
    WbObstacle vent = {.name = "", .x_mm = 40, .y_mm = 40, .length_mm = 30, .width_mm = 30};
    WbObstacle disc = vent;
    disc.round = true;
    WbRoof open = {.length_mm = 110, .width_mm = 110}, round = open, blocked = open;
    blocked.obstacles = &vent;
    round.obstacles = &disc;
    blocked.n_obstacles = round.n_obstacles = 1;
    const struct {
        const WbRoof *roof;
        WbMixItem item[2];
        int kind;
    } asked[] = {
        {&open, {{120, 5, 1, true}, {5, 5, 1, true}}, WB_MIX_WHY_SIZE},
        {&open, {{100, 60, 1, true}, {70, 100, 1, true}}, WB_MIX_WHY_AREA},
        {&blocked, {{60, 50, 2, true}, {60, 50, 1, true}}, WB_MIX_WHY_ONE},
        {&round, {{60, 50, 2, true}, {60, 50, 1, true}}, WB_MIX_WHY_ONE},
        {&blocked, {{60, 60, 1, true}, {80, 20, 1, true}}, WB_MIX_WHY_CLAUSES},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(asked); i++) {
        WbMixFit fit = {0};
        g_assert_cmpint(wb_mix_fit(asked[i].roof, asked[i].item, 2, WB_ROOF_NODES, NULL, &fit), ==,
                        WB_OK);
        g_assert_cmpint(fit.answer, ==, WB_FITS_NOT);
        g_assert_cmpint(why_of(asked[i].roof, asked[i].item, 2, &fit), ==, asked[i].kind);
        WbMixWhy why;
        g_assert_cmpint(wb_mix_why(&open, asked[0].item + 1, 1, &fit, &why), ==, WB_BUDGET);
        fit.answer = WB_FITS;
        g_assert_cmpint(wb_mix_why(asked[i].roof, asked[i].item, 2, &fit, &why), ==, WB_BAD_INPUT);
        wb_mix_fit_free(&fit);
    }
}

int main(int argc, char **argv)
{
    enum { SMALLER_UP_TO = 12 };
    g_test_init(&argc, &argv, NULL);
    g_autoptr(GPtrArray) cm = mix_cases("roof_mixed.csv", 1);
    g_autoptr(GPtrArray) mm = mix_cases("roof_mixed.csv", 10);
    g_autoptr(GPtrArray) packing = mix_cases("packing.csv", 1);
    g_autoptr(GPtrArray) squares = square_cases();
    add_carried(cm, "/mix/cm/");
    add_carried(mm, "/mix/mm/");
    add_carried(packing, "/mix/packing/");
    add_carried(squares, "/mix/");
    for (guint i = 0; i < squares->len; i++) {
        MixCase *best = squares->pdata[i];
        g_autofree char *path = g_strconcat("/mix/smaller/", best->name, NULL);
        if (best->n_items > 3 && best->n_items <= SMALLER_UP_TO)
            g_test_add_data_func(path, best, test_smaller_boxes);
    }
    g_test_add_func("/mix/turns", test_turns_only_where_it_may);
    g_test_add_func("/mix/gap-margin-clearance", test_gap_margin_clearance);
    g_test_add_func("/mix/shade-and-height", test_shade_and_height);
    g_test_add_func("/mix/slanted-edge", test_slanted_edge);
    g_test_add_func("/mix/round-obstacle", test_round_obstacle);
    g_test_add_func("/mix/nothing-asked", test_nothing_asked);
    g_test_add_func("/mix/alike-items", test_alike_items_are_parted);
    g_test_add_func("/mix/why", test_why);
    g_test_add_func("/mix/bad-proofs", test_bad_proofs);
    g_test_add_func("/mix/bad-layouts", test_bad_layouts);
    g_test_add_func("/mix/bad-input", test_bad_input);
    g_test_add_func("/mix/stop-and-budget", test_stop_and_budget);
    g_test_add_func("/mix/best/singles", test_best_holds_singles);
    g_test_add_func("/mix/best/all", test_best_against_all);
    g_test_add_func("/mix/best/no-price", test_best_without_price);
    g_test_add_func("/mix/best/nothing", test_best_nothing_fits);
    g_test_add_func("/mix/best/bad-input", test_best_bad_input);
    return g_test_run();
}
