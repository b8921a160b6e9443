/* Proofs that one panel more does not fit: made and checked for the carried roofs, and refused once
 * damaged. A damaged proof may still be a proof; what it says must then be true. */
#include "roof_proof.h"
#include "random.h"
#include "roof_gen.h"
#include <string.h>

enum { DAMAGES_EACH = 12, PANELS_MAX = 60 };

static const char *const KIND[] = {"none", "size", "area", "weights", "search"};

static bool proof_ok(const RoofCase *roof_case, const WbRoofProof *proof, const char **why)
{
    return wb_roof_proof_ok(&roof_case->roof, roof_case->panel_a_mm, roof_case->panel_b_mm, proof,
                            why);
}

static WbStatus prove(const RoofCase *roof_case, int n, WbRoofProof *proof)
{
    return wb_roof_prove(&roof_case->roof, roof_case->panel_a_mm, roof_case->panel_b_mm, n,
                         WB_ROOF_NODES, NULL, proof);
}

static void test_one_more(gconstpointer data)
{
    const RoofCase *roof_case = data;
    WbRoofProof proof = {0};
    gint64 start_us = g_get_monotonic_time();
    g_assert_cmpint(prove(roof_case, roof_case->most + 1, &proof), ==, WB_OK);
    gint64 made_us = g_get_monotonic_time();
    const char *why = "";
    if (!proof_ok(roof_case, &proof, &why))
        g_error("%s: %s", roof_case->name, why);
    gint64 checked_us = g_get_monotonic_time();
    g_test_message("%s,%s,%zu,%zu,%zu,%.3f,%.3f", roof_case->name, KIND[proof.kind], proof.n_steps,
                   proof.n_points, proof.n_places, (double)(made_us - start_us) / 1000,
                   (double)(checked_us - made_us) / 1000);
    proof.n_panels = roof_case->most; /* so many do fit */
    if (roof_case->most > 0 && proof_ok(roof_case, &proof, NULL))
        g_error("%s: a proof that what fits does not", roof_case->name);
    wb_roof_proof_free(&proof);
    if (roof_case->most > 0) {
        g_assert_cmpint(wb_roof_prove(&roof_case->roof, roof_case->panel_a_mm,
                                      roof_case->panel_b_mm, roof_case->most, 2000, NULL, &proof),
                        ==, WB_BUDGET);
    }
}

/* Large roofs, decided by the graph of places after many steps: what was searched through within
 * the budget has a proof within it too. */
static void test_searched_through(void)
{
    static const struct {
        uint64_t seed;
        int most;
    } roofs[] = {{22, 79}, {213, 69}, {372, 71}};
    for (gsize i = 0; i < G_N_ELEMENTS(roofs); i++) {
        RoofCase *roof_case = roof_gen(roofs[i].seed);
        WbRoofProof proof = {0};
        const char *why = "";
        g_assert_cmpint(prove(roof_case, roofs[i].most + 1, &proof), ==, WB_OK);
        if (!proof_ok(roof_case, &proof, &why))
            g_error("%s: %s", roof_case->name, why);
        wb_roof_proof_free(&proof);
        roof_case_free(roof_case);
    }
}

/* ---- damage ---- */

static gpointer copy_of(gconstpointer items, size_t bytes)
{
    return bytes ? g_memdup2(items, bytes) : NULL;
}

static WbRoofProof copy_proof(const WbRoofProof *proof)
{
    WbRoofProof copy = *proof;
    copy.points = copy_of(proof->points, proof->n_points * sizeof *proof->points);
    copy.places = copy_of(proof->places, proof->n_places * sizeof *proof->places);
    copy.steps = copy_of(proof->steps, proof->n_steps * sizeof *proof->steps);
    copy.strips = copy_of(proof->strips, proof->n_strips * sizeof *proof->strips);
    return copy;
}

static size_t below(WbRandom *random, size_t n)
{
    return (size_t)wb_random_below(random, n);
}

/* Takes item `at` out of n. */
static void take_out(gpointer items, size_t size, size_t n, size_t at)
{
    char *bytes = items;
    memmove(bytes + at * size, bytes + (at + 1) * size, (n - at - 1) * size);
}

static void damage_points(WbRoofProof *proof, WbRandom *random, size_t way)
{
    if (proof->n_points == 0)
        return;
    WbProofPoint *point = &proof->points[below(random, proof->n_points)];
    if (way == 0)
        point->weight = (int64_t)wb_random_below(random, (uint64_t)point->weight);
    else if (way == 1)
        point->weight = -point->weight;
    else if (way == 2)
        point->x_mm += 1 + (int64_t)below(random, 900);
    else
        point->weight = 0;
}

static void damage_steps(WbRoofProof *proof, WbRandom *random, size_t way)
{
    if (proof->n_steps == 0)
        return;
    size_t at = below(random, proof->n_steps);
    WbProofStep *step = &proof->steps[at];
    if (way == 0) {
        take_out(proof->steps, sizeof *proof->steps, proof->n_steps, at);
        proof->n_steps--;
    } else if (way == 1) {
        step->kind = (int)below(random, 6);
    } else if (way == 2) {
        step->n = step->n / 2;
    } else if (step->n_places > 0) {
        size_t out = step->first_place + below(random, step->n_places);
        proof->places[out] = proof->places[step->first_place + step->n_places - 1];
        step->n_places--;
    } else {
        step->first += proof->n_points;
    }
}

/* A strip wider by 1 to 300 mm, one too many, or one less. */
static void damage_strips(WbRoofProof *proof, const WbRoof *roof, WbRandom *random, size_t way)
{
    if (way == 0 || proof->n_strips == 0) {
        proof->strips = g_renew(WbProofStrip, proof->strips, proof->n_strips + 1);
        proof->strips[proof->n_strips++] =
            (WbProofStrip){{(int64_t)below(random, (size_t)roof->length_mm),
                            (int64_t)below(random, (size_t)roof->width_mm), 200, 200},
                           0};
    } else if (way == 1) {
        proof->strips[below(random, proof->n_strips)].rect.length_mm +=
            1 + (int64_t)below(random, 300);
    } else {
        take_out(proof->strips, sizeof *proof->strips, proof->n_strips,
                 below(random, proof->n_strips));
        proof->n_strips--;
    }
}

static void damage(WbRoofProof *proof, const WbRoof *roof, WbRandom *random)
{
    switch (below(random, 4)) {
    case 0:
        damage_points(proof, random, below(random, 4));
        break;
    case 1:
        damage_steps(proof, random, below(random, 4));
        break;
    case 2:
        damage_strips(proof, roof, random, below(random, 3));
        break;
    default:
        proof->kind = (WbProofKind)below(random, 6);
    }
}

static void damage_case(const RoofCase *roof_case, WbRandom *random, int *refused, int *accepted)
{
    WbRoofProof proof = {0};
    if (roof_case->most < 1 || roof_case->most > PANELS_MAX ||
        prove(roof_case, roof_case->most + 1, &proof) != WB_OK || proof.kind == WB_PROOF_SEARCH) {
        wb_roof_proof_free(&proof);
        return;
    }
    for (int k = 0; k < DAMAGES_EACH; k++) {
        WbRoofProof damaged = copy_proof(&proof);
        damage(&damaged, &roof_case->roof, random);
        if (damaged.kind == WB_PROOF_SEARCH)
            damaged.kind = WB_PROOF_NONE;
        damaged.n_panels = roof_case->most + (k % 3 > 0);
        bool ok = proof_ok(roof_case, &damaged, NULL);
        if (ok && damaged.n_panels <= roof_case->most)
            g_error("%s: a damaged proof of what is false was accepted", roof_case->name);
        *accepted += ok;
        *refused += !ok;
        wb_roof_proof_free(&damaged);
    }
    wb_roof_proof_free(&proof);
}

static void test_damaged(void)
{
    g_autoptr(GPtrArray) roofs = roof_cases();
    g_autoptr(GPtrArray) pallets = pallet_cases();
    WbRandom random;
    wb_random_seed(&random, 20261125);
    int refused = 0, accepted = 0;
    for (guint i = 0; i < roofs->len; i++)
        damage_case(roofs->pdata[i], &random, &refused, &accepted);
    for (guint i = 0; i < pallets->len; i++)
        damage_case(pallets->pdata[i], &random, &refused, &accepted);
    g_test_message("%d refused, %d are proofs all the same, of what is true", refused, accepted);
    g_assert_cmpint(refused, >, 150);
}

/* ---- by hand ---- */

/* Two of 400 x 300 on 850 x 300 with a gap of 50; the third is refuted by these weights: one whole
 * at either place. */
static void test_by_hand(void)
{
    WbRoof roof = {.length_mm = 850, .width_mm = 300, .gap_mm = 50};
    WbProofPoint points[] = {{0, 0, WB_PROOF_ONE}, {450, 0, WB_PROOF_ONE}};
    WbProofStep step = {.kind = WB_STEP_REFUTE, .n = 2};
    WbRoofProof proof = {.kind = WB_PROOF_WEIGHTS,
                         .n_panels = 3,
                         .points = points,
                         .n_points = 2,
                         .steps = &step,
                         .n_steps = 1};
    const char *why = "";
    g_assert_true(wb_roof_proof_ok(&roof, 400, 300, &proof, &why));
    proof.n_panels = 2;
    g_assert_false(wb_roof_proof_ok(&roof, 400, 300, &proof, &why));
    g_assert_cmpstr(why, ==, "The weights leave room for as many panels as are wanted.");
    proof.n_panels = 3;
    points[1].weight--;
    g_assert_true(wb_roof_proof_ok(&roof, 400, 300, &proof, &why)); /* bound still 2 */
    points[1].weight = 2 * WB_PROOF_ONE;
    g_assert_false(wb_roof_proof_ok(&roof, 400, 300, &proof, &why));
    points[1].weight = WB_PROOF_ONE;
    step.n = 3;
    g_assert_false(wb_roof_proof_ok(&roof, 400, 300, &proof, &why));
    step.n = 2;
    proof.n_steps = 0;
    g_assert_false(wb_roof_proof_ok(&roof, 400, 300, &proof, &why));
    g_assert_cmpstr(why, ==, "The proof ends before every case is closed.");
}

/* A triangle and a circle: the proof is made on strips, and each is checked to be forbidden. */
static void test_slants(void)
{
    const WbCorner corners[] = {{0, 0}, {3000, 0}, {3000, 1800}, {900, 1800}};
    WbObstacle mast = {"mast", 1500, 700, 300, 300, 20, .round = true};
    WbRoof roof = {.length_mm = 3000,
                   .width_mm = 1800,
                   .margin_mm = 20,
                   .gap_mm = 10,
                   .obstacles = &mast,
                   .n_obstacles = 1,
                   .corners = corners,
                   .n_corners = G_N_ELEMENTS(corners)};
    WbRoofFit fit = {0};
    g_assert_cmpint(wb_roof_most(&roof, 700, 500, 100, WB_ROOF_NODES, NULL, &fit), ==, WB_OK);
    g_assert_cmpint(fit.most, <=, fit.bound);
    WbRoofProof proof = {0};
    g_assert_cmpint(wb_roof_prove(&roof, 700, 500, fit.bound + 1, WB_ROOF_NODES, NULL, &proof), ==,
                    WB_OK);
    const char *why = "";
    if (!wb_roof_proof_ok(&roof, 700, 500, &proof, &why))
        g_error("slants: %s", why);
    g_test_message("%d to %d panels, step %d mm, %zu strips", fit.most, fit.bound,
                   (int)proof.step_mm, proof.n_strips);
    g_assert_cmpuint(proof.n_strips, >, 2);
    proof.strips[0].rect.length_mm += 400;
    g_assert_false(wb_roof_proof_ok(&roof, 700, 500, &proof, &why));
    g_assert_cmpstr(why, ==, "A strip is not wholly forbidden.");
    wb_roof_proof_free(&proof);
    wb_roof_fit_free(&fit);
}

static void test_bad_input(void)
{
    WbRoof roof = {.length_mm = 850, .width_mm = 300};
    WbRoofProof proof = {.n_panels = 77};
    g_assert_cmpint(wb_roof_prove(&roof, 400, 300, 0, 100, NULL, &proof), ==, WB_BAD_INPUT);
    g_assert_cmpint(wb_roof_prove(&roof, 0, 300, 3, 100, NULL, &proof), ==, WB_BAD_INPUT);
    roof.width_mm = 0;
    g_assert_cmpint(wb_roof_prove(&roof, 400, 300, 3, 100, NULL, &proof), ==, WB_BAD_INPUT);
    g_assert_cmpint(proof.n_panels, ==, 77);
}

static void add_cases(GPtrArray *cases, const char *folder)
{
    for (guint i = 0; i < cases->len; i++) {
        RoofCase *roof_case = cases->pdata[i];
        g_autofree char *path = g_strdup_printf("/roof-proof/%s/%s", folder, roof_case->name);
        if (roof_case->most <= PANELS_MAX)
            g_test_add_data_func(path, roof_case, test_one_more);
    }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_autoptr(GPtrArray) roofs = roof_cases();
    g_autoptr(GPtrArray) pallets = pallet_cases();
    add_cases(roofs, "carried");
    add_cases(pallets, "pallet");
    g_test_add_func("/roof-proof/searched-through", test_searched_through);
    g_test_add_func("/roof-proof/damaged", test_damaged);
    g_test_add_func("/roof-proof/by-hand", test_by_hand);
    g_test_add_func("/roof-proof/slants", test_slants);
    g_test_add_func("/roof-proof/bad-input", test_bad_input);
    return g_test_run();
}
