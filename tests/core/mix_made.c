/* Made mixes of the kind people ask (mix_gen.h): every answer goes through its checker, and none
 * contradicts the layout a mix was cut from. */
#include "mix_gen.h"

enum { CUT = 120, DRAWN = 80 };

static WbMixFit fit_of(const MixCase *mix_case, uint64_t nodes)
{
    WbMixFit fit = {0};
    g_assert_cmpint(
        wb_mix_fit(&mix_case->roof, mix_case->item, mix_case->n_items, nodes, NULL, &fit), ==,
        WB_OK);
    return fit;
}

static void assert_layout(const MixCase *mix_case, const WbMixFit *fit)
{
    MixCase part = *mix_case;
    part.roof.obstacles = part.obstacle;
    for (size_t k = 0; k < part.n_items && fit->answer != WB_FITS; k++)
        part.item[k].count = 0;
    for (int i = 0; i < fit->n_layout && fit->answer != WB_FITS; i++)
        part.item[fit->layout[i].item].count++;
    g_assert_true(
        wb_mix_layout_ok(&part.roof, part.item, part.n_items, fit->layout, fit->n_layout));
}

/* However full, the layout is known: all are found. */
static void test_cut(void)
{
    WbRandom random;
    wb_random_seed(&random, 20260502);
    double fullest = 0;
    for (int i = 0; i < CUT; i++) {
        MixCase mix_case;
        MixGenLayout layout;
        mix_gen_cut(&mix_case, &random, &layout);
        g_assert_true(wb_mix_layout_ok(&mix_case.roof, mix_case.item, mix_case.n_items,
                                       layout.place, layout.n));
        WbMixFit fit = fit_of(&mix_case, WB_ROOF_NODES);
        g_assert_cmpint(fit.answer, ==, WB_FITS);
        assert_layout(&mix_case, &fit);
        fullest = MAX(fullest, mix_gen_fullness(&mix_case));
        wb_mix_fit_free(&fit);
    }
    g_assert_cmpfloat(fullest, >, 0.95);
}

static void test_drawn(void)
{
    WbRandom random;
    wb_random_seed(&random, 20260503);
    int of[4] = {0};
    for (int i = 0; i < DRAWN; i++) {
        MixCase mix_case;
        mix_gen_drawn(&mix_case, &random);
        WbMixFit fit = fit_of(&mix_case, WB_ROOF_NODES);
        if (fit.layout)
            assert_layout(&mix_case, &fit);
        if (fit.answer == WB_FITS_NOT) {
            g_assert_null(fit.layout);
            g_assert_true(wb_mix_proof_ok(&mix_case.roof, mix_case.item, mix_case.n_items, &fit));
        }
        of[fit.answer]++;
        wb_mix_fit_free(&fit);
    }
    g_assert_cmpint(of[WB_FITS], >, DRAWN / 3);
    g_assert_cmpint(of[WB_FITS_NOT], >, DRAWN / 10);
    g_assert_cmpint(of[WB_FIT_UNDECIDED], <, DRAWN / 10);
}

/* A budget that is too small tells what was laid, never all of it. */
static void test_part(void)
{
    WbRandom random;
    wb_random_seed(&random, 20260504);
    int parts = 0;
    for (int i = 0; i < DRAWN; i++) {
        MixCase mix_case;
        mix_gen_drawn(&mix_case, &random);
        int asked = 0;
        for (size_t k = 0; k < mix_case.n_items; k++)
            asked += mix_case.item[k].count;
        WbMixFit fit = fit_of(&mix_case, 40);
        if (fit.answer == WB_FIT_UNDECIDED && fit.layout) {
            assert_layout(&mix_case, &fit);
            g_assert_cmpint(fit.n_layout, >, 0);
            g_assert_cmpint(fit.n_layout, <, asked);
            parts++;
        }
        wb_mix_fit_free(&fit);
    }
    g_assert_cmpint(parts, >, 0);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/mix-made/cut", test_cut);
    g_test_add_func("/mix-made/drawn", test_drawn);
    g_test_add_func("/mix-made/part", test_part);
    return g_test_run();
}
