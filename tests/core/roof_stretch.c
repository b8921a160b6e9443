/* Equal rectangles that may not turn, on a stretched roof: by hand, and against the search of
 * mixes, which knows nothing of it. */
#include "roof_stretch.h"
#include "mix.h"
#include "roof_proof.h"
#include "small_roof.h"
#include <glib.h>

enum { OBSTACLES = 3, CASES = 150, MOST = 60 };

/* So many fit unturned, proved; the layout lies on the true roof. */
static int most_unturned(const WbRoof *roof, int64_t a_mm, int64_t b_mm)
{
    WbStretch stretch = {0};
    WbRoofFit fit = {0};
    g_assert_cmpint(wb_roof_stretch(roof, a_mm, b_mm, &stretch), ==, WB_OK);
    g_assert_cmpint(wb_roof_most(&stretch.roof, stretch.length_mm, stretch.width_mm, MOST,
                                 WB_ROOF_NODES, NULL, &fit),
                    ==, WB_OK);
    g_assert_cmpint(fit.most, ==, fit.bound);
    g_assert_cmpint(fit.most, <, MOST);
    WbMixItem item = {a_mm, b_mm, fit.most, false};
    WbMixPlace layout[MOST];
    for (int i = 0; i < fit.most; i++)
        layout[i] = (WbMixPlace){wb_roof_unstretch(&stretch, fit.layout[i]), 0};
    g_assert_true(wb_mix_layout_ok(roof, &item, 1, layout, fit.most));
    int most = fit.most;
    wb_roof_fit_free(&fit);
    wb_roof_stretch_free(&stretch);
    return most;
}

static void test_by_hand(void)
{
    WbRoof roof = {.length_mm = 100, .width_mm = 40};
    g_assert_cmpint(most_unturned(&roof, 10, 40), ==, 10);
    g_assert_cmpint(most_unturned(&roof, 40, 10), ==, 8); /* turned, 2 more */
    g_assert_cmpint(most_unturned(&roof, 10, 41), ==, 0);
    g_assert_cmpint(most_unturned(&roof, 101, 10), ==, 0);
    g_assert_cmpint(most_unturned(&roof, 20, 50), ==, 0); /* turned, 4 */
    WbObstacle bar = {.name = "bar", .x_mm = -900, .y_mm = 10, .length_mm = 1800, .width_mm = 1};
    roof.obstacles = &bar;
    roof.n_obstacles = 1;
    g_assert_cmpint(most_unturned(&roof, 40, 10), ==, 6);
    g_assert_cmpint(most_unturned(&roof, 25, 29), ==, 4);
    g_assert_cmpint(most_unturned(&roof, 25, 30), ==, 0);
}

/* As many fit by the search of mixes, and one more does not. */
static void check_case(const WbRoof *roof, int64_t a_mm, int64_t b_mm)
{
    int most = most_unturned(roof, a_mm, b_mm);
    for (int more = 0; more < 2; more++) {
        WbMixItem item = {a_mm, b_mm, most + more, false};
        WbMixFit fit = {0};
        g_assert_cmpint(wb_mix_fit(roof, &item, 1, WB_ROOF_NODES, NULL, &fit), ==, WB_OK);
        g_assert_cmpint(fit.answer, ==, more ? WB_FITS_NOT : WB_FITS);
        wb_mix_fit_free(&fit);
    }
}

static void test_as_mixes(void)
{
    WbRandom random;
    wb_random_seed(&random, 20261128);
    for (int i = 0; i < CASES; i++) {
        WbObstacle obstacle[OBSTACLES];
        WbRoof roof = {.length_mm = between(&random, 8, 24), .width_mm = between(&random, 8, 24)};
        for (size_t k = 0; k < OBSTACLES; k++)
            obstacle[k] = (WbObstacle){"o",
                                       between(&random, -3, 24),
                                       between(&random, -3, 24),
                                       between(&random, 1, 6),
                                       between(&random, 1, 6),
                                       0};
        roof.obstacles = obstacle;
        roof.n_obstacles = (size_t)between(&random, 0, OBSTACLES);
        check_case(&roof, between(&random, 3, 12), between(&random, 3, 12));
    }
}

static void test_refused(void)
{
    WbStretch stretch = {.along = 77};
    WbRoof roof = {.length_mm = 100000, .width_mm = 50000};
    g_assert_cmpint(wb_roof_stretch(&roof, 10, 20, &stretch), ==, WB_BAD_INPUT); /* too many */
    roof = (WbRoof){.length_mm = 100, .width_mm = 100, .gap_mm = 1};
    g_assert_cmpint(wb_roof_stretch(&roof, 10, 20, &stretch), ==, WB_BAD_INPUT);
    roof.gap_mm = 0;
    g_assert_cmpint(wb_roof_stretch(&roof, 0, 20, &stretch), ==, WB_BAD_INPUT);
    WbObstacle mast = {.name = "mast", .length_mm = 10, .width_mm = 10, .clearance_mm = 1};
    roof.obstacles = &mast;
    roof.n_obstacles = 1;
    g_assert_cmpint(wb_roof_stretch(&roof, 10, 20, &stretch), ==, WB_BAD_INPUT);
    g_assert_cmpint(stretch.along, ==, 77);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/roof-stretch/by-hand", test_by_hand);
    g_test_add_func("/roof-stretch/as-mixes", test_as_mixes);
    g_test_add_func("/roof-stretch/refused", test_refused);
    return g_test_run();
}
