/* The roof fit against carried values, by hand-made cases, and with bad input. */
#include "bay.h"
#include "random.h"
#include "roof_cases.h"
#include <string.h>

static WbRoofFit most_of(const WbRoof *roof, int64_t a_mm, int64_t b_mm, int at_most)
{
    WbRoofFit fit = {0};
    g_assert_cmpint(wb_roof_most(roof, a_mm, b_mm, at_most, WB_ROOF_NODES, NULL, &fit), ==, WB_OK);
    g_assert_cmpint(fit.most, <=, fit.bound);
    g_assert_cmpint(fit.bound, <=, at_most);
    g_assert_true(wb_roof_layout_ok(roof, a_mm, b_mm, fit.layout, fit.most, NULL));
    return fit;
}

static void assert_most(const WbRoof *roof, int64_t a_mm, int64_t b_mm, int expected)
{
    WbRoofFit fit = most_of(roof, a_mm, b_mm, 1000);
    g_assert_cmpint(fit.most, ==, expected);
    g_assert_cmpint(fit.bound, ==, expected);
    wb_roof_fit_free(&fit);
}

/* One test per carried row. A layout is its own proof: where a single method stands behind the
 * value, a better checked layout refutes it (cabin54: 89 in the data, 94 laid out here). */
static void test_roof_case(gconstpointer data)
{
    const RoofCase *roof_case = data;
    WbRoofFit fit = most_of(&roof_case->roof, roof_case->panel_a_mm, roof_case->panel_b_mm, 1000);
    g_test_message("%s: most %d, bound %d, expected %d (%s)", roof_case->name, fit.most, fit.bound,
                   roof_case->most, roof_case->source);
    g_assert_cmpint(fit.bound, >=, roof_case->most);
    if (roof_case->sure) {
        g_assert_cmpint(fit.most, ==, roof_case->most);
        g_assert_cmpint(fit.bound, ==, roof_case->most);
    } else {
        g_assert_cmpint(fit.most, >=, roof_case->most);
    }
    wb_roof_fit_free(&fit);
}

/* The answers a ranking asks for: up to 36 panels, always decided. */
static void test_roof_case_36(gconstpointer data)
{
    const RoofCase *roof_case = data;
    WbRoofFit fit = most_of(&roof_case->roof, roof_case->panel_a_mm, roof_case->panel_b_mm, 36);
    g_assert_cmpint(fit.most, ==, MIN(36, roof_case->most));
    g_assert_cmpint(fit.bound, ==, MIN(36, roof_case->most));
    wb_roof_fit_free(&fit);
}

static void test_pallet_case(gconstpointer data)
{
    const RoofCase *roof_case = data;
    WbRoofFit fit = {0};
    uint64_t nodes = roof_case->sure ? WB_ROOF_NODES : WB_ROOF_NODES / 10;
    g_assert_cmpint(wb_roof_most(&roof_case->roof, roof_case->panel_a_mm, roof_case->panel_b_mm,
                                 1000, nodes, NULL, &fit),
                    ==, WB_OK);
    g_test_message("%s: most %d, bound %d, expected %d (%s)", roof_case->name, fit.most, fit.bound,
                   roof_case->most, roof_case->source);
    g_assert_true(wb_roof_layout_ok(&roof_case->roof, roof_case->panel_a_mm, roof_case->panel_b_mm,
                                    fit.layout, fit.most, NULL));
    g_assert_cmpint(fit.most, <=, roof_case->most);
    g_assert_cmpint(fit.bound, >=, roof_case->most);
    if (roof_case->sure)
        g_assert_cmpint(fit.most, ==, fit.bound);
    wb_roof_fit_free(&fit);
}

/* The gap stands between panels only: not to the edge, not to an obstacle. */
static void test_gap_between_panels_only(void)
{
    WbRoof roof = {.length_mm = 2 * 400 + 50, .width_mm = 300, .gap_mm = 50};
    assert_most(&roof, 400, 300, 2);
    roof.length_mm -= 1;
    assert_most(&roof, 400, 300, 1);
}

static void test_obstacle_needs_clearance_not_gap(void)
{
    WbObstacle vent = {"vent", 420, 0, 100, 300, 20};
    WbRoof roof = {.length_mm = 400 + 20 + 100 + 20 + 400,
                   .width_mm = 300,
                   .gap_mm = 50,
                   .obstacles = &vent,
                   .n_obstacles = 1};
    assert_most(&roof, 400, 300, 2);
    vent.clearance_mm = 21;
    assert_most(&roof, 400, 300, 0);
    vent.x_mm = 421;
    roof.length_mm += 2;
    assert_most(&roof, 400, 300, 2);
}

/* A strip of 10 mm amid a gap of 50 mm: the panels keep their gap, the strip asks for no more. */
static void test_obstacle_narrower_than_gap(void)
{
    WbObstacle strip = {"strip", 400, 0, 10, 300, 0};
    WbRoof roof = {
        .length_mm = 850, .width_mm = 300, .gap_mm = 50, .obstacles = &strip, .n_obstacles = 1};
    assert_most(&roof, 400, 300, 2);
    roof.length_mm = 849;
    assert_most(&roof, 400, 300, 1);
    strip.x_mm = 399;
    roof.length_mm = 850;
    assert_most(&roof, 400, 300, 1);
}

static void test_margin_at_the_edge_only(void)
{
    WbRoof roof = {.length_mm = 860, .width_mm = 360, .margin_mm = 30};
    assert_most(&roof, 400, 300, 2);
    roof.margin_mm = 31;
    assert_most(&roof, 400, 300, 0);
}

static void test_obstacle_outside(void)
{
    WbObstacle outside[2] = {{"mast", -500, 900, 400, 400, 0}, {"rack", 900, -50, 400, 100, 0}};
    WbRoof roof = {.length_mm = 1000, .width_mm = 300, .obstacles = outside, .n_obstacles = 1};
    assert_most(&roof, 500, 300, 2);
    roof.n_obstacles = 2; /* the second reaches 100 mm into the roof */
    assert_most(&roof, 500, 300, 1);
    outside[0].clearance_mm = 1000000; /* and now the first one's clearance takes it all */
    assert_most(&roof, 500, 300, 0);
    g_assert_cmpint(wb_roof_clear_mm2(&roof), ==, 0);
}

static void test_larger_than_roof(void)
{
    WbRoof roof = {.length_mm = 1000, .width_mm = 600};
    assert_most(&roof, 1001, 10, 0);
    assert_most(&roof, 1000, 601, 0);
    assert_most(&roof, 601, 601, 0);
    assert_most(&roof, 600, 1000, 1);
    roof.margin_mm = 300;
    assert_most(&roof, 1, 1, 0);
    roof.margin_mm = 100000;
    assert_most(&roof, 1, 1, 0);
}

static void test_at_most(void)
{
    WbRoof roof = {.length_mm = 1000, .width_mm = 1000};
    WbRoofFit fit = most_of(&roof, 100, 100, 7);
    g_assert_cmpint(fit.most, ==, 7);
    g_assert_cmpint(fit.bound, ==, 7);
    g_assert_cmpint(wb_roof_answer(&fit, 7), ==, WB_FITS);
    g_assert_cmpint(wb_roof_answer(&fit, 8), ==, WB_FIT_UNDECIDED);
    wb_roof_fit_free(&fit);
    fit = most_of(&roof, 600, 600, 7);
    g_assert_cmpint(wb_roof_answer(&fit, 0), ==, WB_FITS);
    g_assert_cmpint(wb_roof_answer(&fit, 1), ==, WB_FITS);
    g_assert_cmpint(wb_roof_answer(&fit, 2), ==, WB_FITS_NOT);
    g_assert_cmpint(wb_roof_answer(&fit, 8), ==, WB_FITS_NOT);
    wb_roof_fit_free(&fit);
    fit = most_of(&roof, 600, 600, 0);
    g_assert_cmpint(fit.bound, ==, 0);
    g_assert_cmpint(wb_roof_answer(&fit, 1), ==, WB_FIT_UNDECIDED);
    wb_roof_fit_free(&fit);
}

/* Without a budget the answer must stay honest, with one it must be the same every time. */
static void test_budget(void)
{
    WbRoof roof = {.length_mm = 32, .width_mm = 22};
    WbRoofFit poor = {0}, once = most_of(&roof, 5, 4, 1000), again = most_of(&roof, 5, 4, 1000);
    g_assert_cmpint(wb_roof_most(&roof, 5, 4, 1000, 0, NULL, &poor), ==, WB_OK);
    g_assert_cmpint(poor.most, <=, 34);
    g_assert_cmpint(poor.bound, ==, 35);
    g_assert_cmpint(wb_roof_answer(&poor, 35), ==, WB_FIT_UNDECIDED);
    g_assert_cmpuint(once.nodes, ==, again.nodes);
    g_assert_cmpmem(once.layout, once.most * sizeof *once.layout, again.layout,
                    again.most * sizeof *again.layout);
    wb_roof_fit_free(&poor);
    wb_roof_fit_free(&once);
    wb_roof_fit_free(&again);
}

static void test_stop(void)
{
    WbRoof roof = {.length_mm = 3000, .width_mm = 1500};
    WbControl control;
    wb_control_init(&control);
    wb_control_stop(&control);
    WbRoofFit fit = {.most = 77};
    g_assert_cmpint(wb_roof_most(&roof, 700, 500, 36, WB_ROOF_NODES, &control, &fit), ==,
                    WB_STOPPED);
    g_assert_cmpint(fit.most, ==, 77);
    WbBay bay = {1000, 500, 300};
    WbBox box = {300, 200, 200};
    g_assert_cmpint(wb_bay_answer(&bay, &box, 4, WB_ROOF_NODES, &control), ==, WB_FIT_UNDECIDED);
    int stand = 77, bound = 78;
    for (int turn = 0; turn < 2; turn++) {
        box.must_not_turn = turn;
        g_assert_cmpint(wb_bay_most(&bay, &box, 4, WB_ROOF_NODES, NULL, &control, &stand, &bound),
                        ==, WB_STOPPED);
        g_assert_true(stand == 77 && bound == 78);
    }
}

static gpointer stop_soon(gpointer data)
{
    g_usleep(20000);
    wb_control_stop(data);
    return NULL;
}

/* Raised amid a search that would take hours: it ends within a moment. */
static void test_stop_while_searching(void)
{
    static const WbRoof roofs[] = {{.length_mm = 74, .width_mm = 46},
                                   {.length_mm = 1600, .width_mm = 1230}};
    static const int64_t panels[][2] = {{7, 5}, {137, 95}};
    for (size_t i = 0; i < G_N_ELEMENTS(roofs); i++) {
        WbControl control;
        wb_control_init(&control);
        GThread *thread = g_thread_new("stop", stop_soon, &control);
        WbRoofFit fit = {.most = 77};
        gint64 start_us = g_get_monotonic_time();
        WbStatus status =
            wb_roof_most(&roofs[i], panels[i][0], panels[i][1], 1000, UINT64_MAX, &control, &fit);
        g_assert_cmpint(g_get_monotonic_time() - start_us, <, 2 * G_USEC_PER_SEC);
        g_thread_join(thread);
        g_assert_cmpint(status, ==, WB_STOPPED);
        g_assert_cmpint(fit.most, ==, 77);
    }
}

static void test_bad_input(void)
{
    static const WbObstacle bad[] = {
        {"a", 0, 0, 0, 10, 0},         {"b", 0, 0, 10, 0, 0},          {"c", 0, 0, -5, 10, 0},
        {"d", 0, 0, 10, 10, -1},       {"e", INT64_MAX, 0, 10, 10, 0}, {"f", 0, INT64_MIN, 1, 1, 0},
        {"g", 0, 0, INT64_MAX, 10, 0}, {"h", 0, 0, 10, 10, INT64_MAX},
    };
    static const WbRoof roofs[] = {{.length_mm = 0, .width_mm = 10},
                                   {.length_mm = 10, .width_mm = 0},
                                   {.length_mm = -10, .width_mm = 10},
                                   {.length_mm = 100001, .width_mm = 10},
                                   {.length_mm = 10, .width_mm = INT64_MAX},
                                   {.length_mm = 10, .width_mm = 10, .margin_mm = -1},
                                   {.length_mm = 10, .width_mm = 10, .gap_mm = -1},
                                   {.length_mm = 10, .width_mm = 10, .gap_mm = 100001},
                                   {.length_mm = 10, .width_mm = 10, .margin_mm = INT64_MAX}};
    static const int64_t panels[][2] = {{0, 5}, {5, 0}, {-1, 5}, {5, INT64_MIN}, {100001, 1}};
    WbRoof good = {.length_mm = 100, .width_mm = 100};
    WbRoofFit fit = {.most = 77};
    for (size_t i = 0; i < G_N_ELEMENTS(roofs); i++) {
        g_assert_cmpint(wb_roof_most(&roofs[i], 5, 5, 9, 100, NULL, &fit), ==, WB_BAD_INPUT);
        g_assert_cmpint(wb_roof_clear_mm2(&roofs[i]), ==, 0);
    }
    for (size_t i = 0; i < G_N_ELEMENTS(panels); i++)
        g_assert_cmpint(wb_roof_most(&good, panels[i][0], panels[i][1], 9, 100, NULL, &fit), ==,
                        WB_BAD_INPUT);
    g_assert_cmpint(wb_roof_most(&good, 5, 5, -1, 100, NULL, &fit), ==, WB_BAD_INPUT);
    for (size_t i = 0; i < G_N_ELEMENTS(bad); i++) {
        WbRoof roof = good;
        roof.obstacles = &bad[i];
        roof.n_obstacles = 1;
        g_assert_cmpint(wb_roof_most(&roof, 5, 5, 9, 100, NULL, &fit), ==, WB_BAD_INPUT);
    }
    g_assert_cmpint(fit.most, ==, 77);
}

/* As large and as crowded as input may be: bounded, and honest. */
static void test_ten_thousand_obstacles(void)
{
    enum { N = 10000 };
    g_autofree WbObstacle *obstacles = g_new0(WbObstacle, N);
    guint32 seed = 1;
    for (int i = 0; i < N; i++) {
        seed = seed * 1664525u + 1013904223u;
        obstacles[i] = (WbObstacle){"o", seed % 99000, (seed >> 8) % 99000, 1 + seed % 700, 200, 0};
    }
    WbRoof roof = {.length_mm = 100000,
                   .width_mm = 100000,
                   .gap_mm = 7,
                   .obstacles = obstacles,
                   .n_obstacles = N};
    gint64 start_us = g_get_monotonic_time();
    WbRoofFit fit = most_of(&roof, 1003, 601, 36);
    g_test_message("most %d, bound %d, %" G_GINT64_FORMAT " ms", fit.most, fit.bound,
                   (g_get_monotonic_time() - start_us) / 1000);
    g_assert_cmpint(g_get_monotonic_time() - start_us, <, 30 * G_USEC_PER_SEC);
    wb_roof_fit_free(&fit);
    fit = most_of(&roof, 1, 1, 2000);
    g_assert_cmpint(fit.most, >, 0);
    wb_roof_fit_free(&fit);
}

static void test_checker_refuses(void)
{
    WbObstacle vent = {"vent", 1000, 400, 100, 100, 10};
    WbRoof roof = {.length_mm = 1500,
                   .width_mm = 800,
                   .margin_mm = 20,
                   .gap_mm = 5,
                   .obstacles = &vent,
                   .n_obstacles = 1};
    const WbRect good[3] = {{20, 20, 400, 300}, {425, 20, 300, 400}, {1110, 300, 300, 400}};
    static const struct {
        const char *fault;
        int at;
        WbRect rect;
    } faults[] = {{"over the margin at the left", 0, {19, 20, 400, 300}},
                  {"over the margin in front", 0, {20, 19, 400, 300}},
                  {"over the margin at the right", 2, {1181, 300, 300, 400}},
                  {"over the margin at the back", 2, {1110, 381, 300, 400}},
                  {"too small", 1, {425, 20, 299, 400}},
                  {"not turned in one piece", 1, {425, 20, 300, 300}},
                  {"gap too narrow", 1, {424, 20, 300, 400}},
                  {"same place twice", 1, {20, 20, 400, 300}},
                  {"clearance too small", 2, {1109, 300, 300, 400}},
                  {"upon the obstacle", 2, {900, 300, 300, 400}},
                  {"far away", 1, {INT64_MAX, INT64_MIN, 300, 400}},
                  {"inside out", 1, {425, 20, -300, -400}}};
    g_assert_true(wb_roof_layout_ok(&roof, 400, 300, good, 3, NULL));
    g_assert_true(wb_roof_layout_ok(&roof, 300, 400, good, 3, NULL));
    g_assert_true(wb_roof_layout_ok(&roof, 300, 400, NULL, 0, NULL));
    for (size_t i = 0; i < G_N_ELEMENTS(faults); i++) {
        WbRect layout[3];
        int first_bad = -1;
        memcpy(layout, good, sizeof layout);
        layout[faults[i].at] = faults[i].rect;
        g_test_message("%s", faults[i].fault);
        g_assert_false(wb_roof_layout_ok(&roof, 400, 300, layout, 3, &first_bad));
        g_assert_cmpint(first_bad, ==, faults[i].at);
    }
}

static void test_clear_area(void)
{
    WbObstacle two[2] = {{"a", 100, 100, 200, 100, 10}, {"b", 250, 150, 200, 100, 0}};
    WbRoof roof = {.length_mm = 1000, .width_mm = 500, .margin_mm = 50};
    g_assert_cmpint(wb_roof_clear_mm2(&roof), ==, 900 * 400);
    roof.obstacles = two;
    roof.n_obstacles = 2;
    /* 220 x 120 and 200 x 100 share 250..310 x 150..210. */
    g_assert_cmpint(wb_roof_clear_mm2(&roof), ==, 900 * 400 - 220 * 120 - 200 * 100 + 60 * 60);
}

static void test_bay(void)
{
    static const struct {
        WbBay bay;
        WbBox box;
        int n;
        WbFitAnswer expected;
    } rows[] = {
        {{0, 0, 0}, {5000, 5000, 5000}, 99, WB_FITS},
        {{600, 400, 250}, {300, 200, 250}, 4, WB_FITS},
        {{600, 400, 250}, {300, 200, 251}, 4, WB_FITS_NOT},
        {{600, 400, 250}, {300, 200, 250}, 5, WB_FITS_NOT},
        {{600, 400, 250}, {200, 300, 250}, 4, WB_FITS},
        {{500, 500, 250}, {300, 200, 220}, 4, WB_FITS}, /* pinwheel */
        {{500, 500, 250}, {300, 200, 220}, 5, WB_FITS_NOT},
        {{500, 499, 250}, {300, 200, 220}, 4, WB_FITS_NOT},
        {{600, 400, 250}, {300, 200, 400}, 0, WB_FITS},
        {{610, 410, 250, 10}, {300, 200, 250}, 4, WB_FITS}, /* with 10 mm of air between them */
        {{609, 410, 250, 10}, {300, 200, 250}, 4, WB_FITS_NOT},
        {{600, 400, 250}, {0, 200, 200}, 1, WB_FIT_UNDECIDED},
        {{600, 400, 250}, {300, 200, -1}, 1, WB_FIT_UNDECIDED},
        {{600, -400, 250}, {300, 200, 200}, 1, WB_FIT_UNDECIDED},
        /* what must not turn */
        {{600, 400, 250}, {200, 300, 250, true}, 3, WB_FITS},
        {{600, 400, 250}, {200, 300, 250, true}, 4, WB_FITS_NOT},
        {{500, 500, 250}, {300, 200, 220, true}, 2, WB_FITS},
        {{500, 500, 250}, {300, 200, 220, true}, 3, WB_FITS_NOT},
        {{610, 410, 250, 10}, {300, 200, 250, true}, 4, WB_FITS},
        {{609, 410, 250, 10}, {300, 200, 250, true}, 3, WB_FITS_NOT},
        {{250, 400, 250}, {300, 200, 250, true}, 1, WB_FITS_NOT},
        {{250, 400, 250}, {300, 200, 250}, 1, WB_FITS},
        {{600, 400, 250}, {300, 200, 251, true}, 1, WB_FITS_NOT},
        {{600, 400, 250}, {300, 0, 250, true}, 1, WB_FIT_UNDECIDED},
        {{600, 400, 0}, {300, 200, 250, true}, 1, WB_FIT_UNDECIDED},
        {{600, 400, 250, -1}, {300, 200, 250, true}, 1, WB_FIT_UNDECIDED},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++)
        if (wb_bay_answer(&rows[i].bay, &rows[i].box, rows[i].n, WB_ROOF_NODES, NULL) !=
            rows[i].expected)
            g_error("row %zu is answered otherwise", i);
}

/* All counts at once are the counts asked one by one. */
static void test_bay_most(void)
{
    enum { AT_MOST = 9 };
    WbRandom random;
    wb_random_seed(&random, 33);
    int turning_helps = 0;
    for (int i = 0; i < 300; i++) {
        int64_t side[5];
        for (int k = 0; k < 5; k++)
            side[k] = 100 + (int64_t)wb_random_below(&random, k < 2 ? 600 : 200);
        WbBay bay = {side[0], side[1], 300, side[2] / 20};
        int stand[2], bound[2];
        for (int turn = 0; turn < 2; turn++) {
            WbBox box = {side[3], side[4], 200, turn == 0};
            g_assert_cmpint(wb_bay_most(&bay, &box, AT_MOST, WB_ROOF_NODES, NULL, NULL,
                                        &stand[turn], &bound[turn]),
                            ==, WB_OK);
            g_assert_cmpint(stand[turn], ==, bound[turn]);
            for (int n = 1; n <= AT_MOST; n++)
                g_assert_cmpint(wb_bay_answer(&bay, &box, n, WB_ROOF_NODES, NULL), ==,
                                n <= stand[turn] ? WB_FITS : WB_FITS_NOT);
        }
        g_assert_cmpint(stand[0], <=, stand[1]);
        turning_helps += stand[0] < stand[1];
    }
    g_test_message("turning lets more stand in %d of 300", turning_helps);
    g_assert_cmpint(turning_helps, >, 50);
    g_assert_cmpint(turning_helps, <, 250);
}

static void add_cases(GPtrArray *cases, const char *folder, GTestDataFunc function)
{
    for (guint i = 0; i < cases->len; i++) {
        RoofCase *roof_case = cases->pdata[i];
        g_autofree char *path = g_strdup_printf("/roof/%s/%s", folder, roof_case->name);
        g_test_add_data_func(path, roof_case, function);
    }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_autoptr(GPtrArray) roofs = roof_cases();
    g_autoptr(GPtrArray) pallets = pallet_cases();
    g_assert_cmpuint(roofs->len, ==, 32);
    g_assert_cmpuint(pallets->len, ==, 28);
    add_cases(roofs, "carried", test_roof_case);
    add_cases(roofs, "up-to-36", test_roof_case_36);
    add_cases(pallets, "pallet", test_pallet_case);
    g_test_add_func("/roof/gap-between-panels-only", test_gap_between_panels_only);
    g_test_add_func("/roof/obstacle-needs-clearance-not-gap",
                    test_obstacle_needs_clearance_not_gap);
    g_test_add_func("/roof/obstacle-narrower-than-gap", test_obstacle_narrower_than_gap);
    g_test_add_func("/roof/margin-at-the-edge-only", test_margin_at_the_edge_only);
    g_test_add_func("/roof/obstacle-outside", test_obstacle_outside);
    g_test_add_func("/roof/larger-than-roof", test_larger_than_roof);
    g_test_add_func("/roof/at-most", test_at_most);
    g_test_add_func("/roof/budget", test_budget);
    g_test_add_func("/roof/stop", test_stop);
    g_test_add_func("/roof/stop-while-searching", test_stop_while_searching);
    g_test_add_func("/roof/bad-input", test_bad_input);
    g_test_add_func("/roof/ten-thousand-obstacles", test_ten_thousand_obstacles);
    g_test_add_func("/roof/checker-refuses", test_checker_refuses);
    g_test_add_func("/roof/clear-area", test_clear_area);
    g_test_add_func("/roof/bay", test_bay);
    g_test_add_func("/roof/bay-most", test_bay_most);
    return g_test_run();
}
