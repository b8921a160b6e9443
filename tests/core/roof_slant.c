/* Roofs of vans with rounded and tapered ends, of true size: what must hold between the answers for
 * a roof and for the same one mirrored, doubled, or with less room; and proofs of one panel more.
 */
#include "roof_proof.h"
#include "slant_cases.h"
#include <glib.h>

enum { CASES = 60, AT_MOST = 1000, NODES = 20000 };

static WbRoofFit fit_of(const SlantCase *drawn)
{
    WbRoofFit fit = {0};
    g_assert_cmpint(wb_roof_most(&drawn->roof, drawn->panel_a_mm, drawn->panel_b_mm, AT_MOST, NODES,
                                 NULL, &fit),
                    ==, WB_OK);
    g_assert_true(wb_roof_layout_ok(&drawn->roof, drawn->panel_a_mm, drawn->panel_b_mm, fit.layout,
                                    fit.most, NULL));
    g_assert_cmpint(fit.most, <=, fit.mm_bound);
    g_assert_cmpint(fit.mm_bound, <=, fit.bound);
    return fit;
}

/* Two answers for whole millimetres can both be true of one number. */
static void assert_agree(const WbRoofFit *fit, const WbRoofFit *other)
{
    g_assert_cmpint(fit->most, <=, other->mm_bound);
    g_assert_cmpint(other->most, <=, fit->mm_bound);
}

static int compare_mirrored(const SlantCase *drawn, const WbRoofFit *fit)
{
    SlantCase mirror = *drawn;
    slant_mirror(&mirror);
    WbRoofFit other = fit_of(&mirror);
    assert_agree(fit, &other);
    int decided = fit->most == fit->mm_bound && other.most == other.mm_bound;
    wb_roof_fit_free(&other);
    return decided;
}

/* All that fits on whole millimetres fits on half ones; neither beats what is proved for both. */
static void compare_doubled(const SlantCase *drawn, const WbRoofFit *fit)
{
    SlantCase doubled = *drawn;
    slant_scale(&doubled, 2);
    WbRoofFit other = fit_of(&doubled);
    g_assert_cmpint(fit->most, <=, other.mm_bound);
    g_assert_cmpint(other.most, <=, fit->bound);
    wb_roof_fit_free(&other);
}

static void compare_tighter(const SlantCase *drawn, const WbRoofFit *fit, int way)
{
    SlantCase tighter = *drawn;
    tighter.roof.corners = tighter.corner;
    tighter.roof.obstacles = tighter.obstacle;
    if (way == 0)
        tighter.roof.margin_mm += 7;
    else if (way == 1)
        tighter.roof.gap_mm += 5;
    else
        tighter.panel_a_mm += 11;
    WbRoofFit other = fit_of(&tighter);
    g_assert_cmpint(other.most, <=, fit->mm_bound);
    wb_roof_fit_free(&other);
}

static void test_alike(void)
{
    WbRandom random;
    int decided = 0, several = 0;
    wb_random_seed(&random, 31);
    for (int i = 0; i < CASES; i++) {
        SlantCase drawn;
        slant_case(&drawn, &random);
        WbRoofFit fit = fit_of(&drawn);
        decided += compare_mirrored(&drawn, &fit);
        compare_doubled(&drawn, &fit);
        compare_tighter(&drawn, &fit, i % 3);
        several += fit.most > 1;
        wb_roof_fit_free(&fit);
    }
    g_test_message("%d of %d decided both ways, %d with several panels", decided, CASES, several);
    g_assert_cmpint(decided, >, CASES * 3 / 4);
    g_assert_cmpint(several, >, CASES / 2);
}

/* A proof of one panel more than the bound, by its checker; the same proof of one less than what
 * was laid out is none. */
static void test_proofs(void)
{
    WbRandom random;
    int proved = 0;
    wb_random_seed(&random, 32);
    for (int i = 0; i < CASES / 2; i++) {
        SlantCase drawn;
        slant_case(&drawn, &random);
        WbRoofFit fit = fit_of(&drawn);
        WbRoofProof proof = {0};
        if (wb_roof_prove(&drawn.roof, drawn.panel_a_mm, drawn.panel_b_mm, fit.bound + 1, NODES,
                          NULL, &proof) == WB_OK) {
            const char *why = "";
            if (!wb_roof_proof_ok(&drawn.roof, drawn.panel_a_mm, drawn.panel_b_mm, &proof, &why))
                g_error("case %d: %s", i, why);
            proof.n_panels = fit.most;
            g_assert_false(
                wb_roof_proof_ok(&drawn.roof, drawn.panel_a_mm, drawn.panel_b_mm, &proof, NULL));
            proved++;
        }
        wb_roof_proof_free(&proof);
        wb_roof_fit_free(&fit);
    }
    g_test_message("%d of %d proved", proved, CASES / 2);
    g_assert_cmpint(proved, >, CASES / 4);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/roof_slant/alike", test_alike);
    g_test_add_func("/roof_slant/proofs", test_proofs);
    return g_test_run();
}
