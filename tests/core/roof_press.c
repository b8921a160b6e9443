/* Layouts pressed to the left and the front: known rows, and layouts of random roofs. */
#include "change_press.h"
#include "random.h"
#include <glib.h>

enum { ROOFS = 300, MOST = 40, NODES = 200 };

/* Three in a row with gaps of 20: 1020 long is what just goes on 3100. */
static void test_a_row_grows_to_the_edge(void)
{
    WbRoof roof = {.length_mm = 3100, .width_mm = 600, .gap_mm = 20};
    WbRect row[3] = {{100, 50, 900, 500}, {1100, 0, 900, 500}, {2200, 100, 900, 500}}, pressed[3];
    WbPanelSize from = {900, 500};
    g_assert_true(wb_press_layout(&roof, from, (WbPanelSize){1020, 500}, row, 3, pressed));
    for (int i = 0; i < 3; i++) {
        g_assert_cmpint(pressed[i].x_mm, ==, i * 1040);
        g_assert_cmpint(pressed[i].y_mm, ==, 0);
        g_assert_cmpint(pressed[i].length_mm, ==, 1020);
    }
    g_assert_false(wb_press_layout(&roof, from, (WbPanelSize){1021, 500}, row, 3, pressed));
}

/* One that lies on the left of a hatch stays there, though there is room on its right. */
static void test_sides_are_kept(void)
{
    WbObstacle hatch = {"hatch", 1000, 0, 400, 600, 50};
    WbRoof roof = {.length_mm = 3000, .width_mm = 600, .obstacles = &hatch, .n_obstacles = 1};
    WbRect one = {100, 0, 800, 500}, pressed;
    WbPanelSize from = {800, 500};
    g_assert_true(wb_press_layout(&roof, from, (WbPanelSize){950, 600}, &one, 1, &pressed));
    g_assert_cmpint(pressed.x_mm, ==, 0);
    g_assert_false(wb_press_layout(&roof, from, (WbPanelSize){951, 600}, &one, 1, &pressed));
}

/* A turned panel stays turned: its width runs along the roof. */
static void test_turned_panels_grow_their_own_way(void)
{
    WbRoof roof = {.length_mm = 1500, .width_mm = 1000, .margin_mm = 10};
    WbRect two[2] = {{10, 10, 900, 500}, {910, 10, 500, 900}}, pressed[2];
    WbPanelSize from = {900, 500};
    g_assert_true(wb_press_layout(&roof, from, (WbPanelSize){900, 580}, two, 2, pressed));
    g_assert_cmpint(pressed[1].x_mm, ==, 910);
    g_assert_cmpint(pressed[1].length_mm, ==, 580);
    g_assert_false(wb_press_layout(&roof, from, (WbPanelSize){900, 581}, two, 2, pressed));
}

/* The layout of the search, with smaller panels, always presses: all only come nearer. */
static void test_smaller_panels_always_press(void)
{
    WbRandom random;
    wb_random_seed(&random, 7);
    for (int i = 0; i < ROOFS; i++) {
        WbObstacle obstacle[2];
        WbRoof roof = {.length_mm = 100 + (int64_t)wb_random_below(&random, 100),
                       .width_mm = 60 + (int64_t)wb_random_below(&random, 60),
                       .margin_mm = (int64_t)wb_random_below(&random, 4),
                       .gap_mm = (int64_t)wb_random_below(&random, 4),
                       .obstacles = obstacle,
                       .n_obstacles = 2};
        for (int k = 0; k < 2; k++)
            obstacle[k] = (WbObstacle){"",
                                       (int64_t)wb_random_below(&random, 100),
                                       (int64_t)wb_random_below(&random, 60),
                                       12,
                                       9,
                                       2};
        WbPanelSize from = {30, 17}, to = {from.length_mm - (int64_t)wb_random_below(&random, 9),
                                           from.width_mm - (int64_t)wb_random_below(&random, 9)};
        WbRoofFit fit;
        WbRect pressed[MOST];
        g_assert_cmpint(wb_roof_most(&roof, from.length_mm, from.width_mm, MOST, NODES, NULL, &fit),
                        ==, WB_OK);
        if (fit.most > 0) {
            g_assert_true(wb_press_layout(&roof, from, to, fit.layout, fit.most, pressed));
            g_assert_true(
                wb_roof_layout_ok(&roof, to.length_mm, to.width_mm, pressed, fit.most, NULL));
        }
        wb_roof_fit_free(&fit);
    }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/roof-press/a-row-grows-to-the-edge", test_a_row_grows_to_the_edge);
    g_test_add_func("/roof-press/sides-are-kept", test_sides_are_kept);
    g_test_add_func("/roof-press/turned-panels-grow-their-own-way",
                    test_turned_panels_grow_their_own_way);
    g_test_add_func("/roof-press/smaller-panels-always-press", test_smaller_panels_always_press);
    return g_test_run();
}
