/* Arrangements: small cases with their best, every layout of tiny roofs, and what holds of any. */
#include "roof_arrange.h"
#include "small_roof.h"
#include <glib.h>
#include <math.h>
#include <string.h>

enum { OBSTACLES = 4, PANELS = 40, CASES = 200, TINY_CASES = 150 };

typedef struct {
    WbRoof roof;
    WbObstacle obstacle[OBSTACLES];
    WbCorner corner[6];
    int64_t a_mm, b_mm;
    WbRect layout[PANELS];
    int n, n_pinned;
} Case;

static WbArrangement score_of(const Case *drawn)
{
    WbArrangement score;
    wb_roof_arrangement(&drawn->roof, drawn->layout, drawn->n, &score);
    return score;
}

/* Arranges; checks what must always hold. */
static WbArrangement arrange(Case *drawn)
{
    WbArrangement before = score_of(drawn);
    WbRect pinned[PANELS];
    memcpy(pinned, drawn->layout, sizeof pinned);
    g_assert_cmpint(wb_roof_arrange(&drawn->roof, drawn->a_mm, drawn->b_mm, drawn->layout, drawn->n,
                                    drawn->n_pinned, NULL),
                    ==, WB_OK);
    g_assert_true(
        wb_roof_layout_ok(&drawn->roof, drawn->a_mm, drawn->b_mm, drawn->layout, drawn->n, NULL));
    g_assert_cmpmem(pinned, (gsize)drawn->n_pinned * sizeof *pinned, drawn->layout,
                    (gsize)drawn->n_pinned * sizeof *pinned);
    WbArrangement after = score_of(drawn);
    g_assert_cmpint(wb_roof_arrangement_order(&after, &before), <=, 0);
    return after;
}

/* ---- the score ---- */

static void test_score_by_hand(void)
{
    WbObstacle area[] = {{.name = "tree",
                          .x_mm = 900,
                          .y_mm = 0,
                          .length_mm = 400,
                          .width_mm = 300,
                          .kind = WB_OBSTACLE_SHADE},
                         {.name = "vent", .x_mm = 0, .y_mm = 0, .length_mm = 9, .width_mm = 9}};
    WbRoof roof = {.length_mm = 3000,
                   .width_mm = 2000,
                   .obstacles = area,
                   .n_obstacles = 2,
                   .has_gland = true,
                   .gland = {600, 1000}};
    WbRect layout[] = {{100, 100, 1000, 500}, {100, 700, 1000, 500}, {1200, 100, 500, 1000}};
    WbArrangement score;
    wb_roof_arrangement(&roof, layout, 3, &score);
    g_assert_cmpint(score.shaded_mm2, ==, 200 * 200 + 100 * 200);
    g_assert_cmpint(score.lines, ==, 2 + 2 + 2 + 3);
    g_assert_cmpint(score.turned, ==, 1);
    g_assert_cmpint(score.cable_mm, ==, 650 + 50 + (850 + 400));
    g_assert_cmpint(score.off_centre_mm, ==, (1300 - 100) + (800 - 100));
    wb_roof_arrangement(&roof, NULL, 0, &score);
    g_assert_cmpint(score.lines + score.turned + score.cable_mm + score.off_centre_mm, ==, 0);
}

/* The strips make pi r^2 to a thousandth, and half of it where the panel covers a half. */
static void test_round_shade_area(void)
{
    WbObstacle area = {.name = "tree",
                       .x_mm = 500,
                       .y_mm = 500,
                       .length_mm = 2000,
                       .width_mm = 2000,
                       .kind = WB_OBSTACLE_SHADE,
                       .round = true};
    WbRoof roof = {.length_mm = 4000, .width_mm = 4000, .obstacles = &area, .n_obstacles = 1};
    WbRect all = {0, 0, 4000, 4000}, left = {0, 0, 1500, 4000}, front = {0, 0, 4000, 1500};
    WbArrangement score;
    wb_roof_arrangement(&roof, &all, 1, &score);
    int64_t whole = score.shaded_mm2;
    g_assert_cmpfloat_with_epsilon((double)whole / (G_PI * 1e6), 1, 2e-3);
    wb_roof_arrangement(&roof, &left, 1, &score);
    g_assert_cmpint(ABS(2 * score.shaded_mm2 - whole), <=, 1);
    wb_roof_arrangement(&roof, &front, 1, &score);
    g_assert_cmpint(ABS(2 * score.shaded_mm2 - whole), <=, 1);
}

static void test_order(void)
{
    WbArrangement better = {.shaded_mm2 = 0,
                            .lines = 9,
                            .turned = 3,
                            .cable_mm = 9,
                            .off_centre_mm = 9},
                  worse = better;
    g_assert_cmpint(wb_roof_arrangement_order(&better, &worse), ==, 0);
    worse.off_centre_mm = 10;
    g_assert_cmpint(wb_roof_arrangement_order(&better, &worse), <, 0);
    worse.cable_mm = 8;
    g_assert_cmpint(wb_roof_arrangement_order(&better, &worse), >, 0);
    worse.lines = 10;
    g_assert_cmpint(wb_roof_arrangement_order(&better, &worse), <, 0);
    worse.turned = 1;
    g_assert_cmpint(wb_roof_arrangement_order(&better, &worse), >, 0);
    worse.shaded_mm2 = 1;
    g_assert_cmpint(wb_roof_arrangement_order(&better, &worse), <, 0);
}

/* ---- small cases with their best ---- */

static void test_two_in_a_line_and_centred(void)
{
    Case drawn = {.roof = {.length_mm = 3001, .width_mm = 2000, .margin_mm = 20, .gap_mm = 15},
                  .a_mm = 1000,
                  .b_mm = 500,
                  .n = 2,
                  .layout = {{20, 20, 1000, 500}, {1701, 900, 500, 1000}}};
    WbArrangement score = arrange(&drawn);
    g_assert_cmpint(score.lines, ==, 6);
    g_assert_cmpint(score.turned, ==, 0);
    g_assert_cmpint(score.off_centre_mm, <=, 2); /* odd slack leaves 1 either way */
}

static void test_six_in_a_block(void)
{
    Case drawn = {.roof = {.length_mm = 4000, .width_mm = 2500, .gap_mm = 10},
                  .a_mm = 1000,
                  .b_mm = 700,
                  .n = 6,
                  .layout = {{0, 0, 1000, 700},
                             {1100, 30, 700, 1000},
                             {1900, 0, 1000, 700},
                             {3000, 900, 1000, 700},
                             {200, 1300, 700, 1000},
                             {1900, 1500, 1000, 700}}};
    WbArrangement score = arrange(&drawn);
    g_assert_cmpint(score.lines, ==, 10); /* 3 columns, 2 rows, or the other way */
    g_assert_cmpint(score.turned, ==, 0);
    g_assert_cmpint(score.off_centre_mm, ==, 0);
}

static void test_to_the_gland(void)
{
    Case drawn = {
        .roof = {.length_mm = 4000, .width_mm = 2500, .has_gland = true, .gland = {3300, 1800}},
        .a_mm = 1000,
        .b_mm = 700,
        .n = 1,
        .layout = {{0, 0, 1000, 700}}};
    WbArrangement score = arrange(&drawn);
    g_assert_cmpint(score.cable_mm, ==, 0);
}

/* The vent in the middle leaves both sides; the tree darkens all of the left one. */
static void test_out_of_the_shade(void)
{
    Case drawn = {.roof = {.length_mm = 5000, .width_mm = 1500},
                  .a_mm = 1000,
                  .b_mm = 700,
                  .n = 3,
                  .layout = {{0, 0, 1000, 700}, {0, 800, 1000, 700}, {1100, 0, 700, 1000}}};
    drawn.obstacle[0] =
        (WbObstacle){.name = "vent", .x_mm = 2300, .y_mm = 0, .length_mm = 400, .width_mm = 1500};
    drawn.obstacle[1] = (WbObstacle){.name = "tree",
                                     .x_mm = 0,
                                     .y_mm = 0,
                                     .length_mm = 2300,
                                     .width_mm = 1500,
                                     .kind = WB_OBSTACLE_SHADE};
    drawn.roof.obstacles = drawn.obstacle;
    drawn.roof.n_obstacles = 2;
    WbArrangement score = arrange(&drawn);
    g_assert_cmpint(score.shaded_mm2, ==, 0);
    g_assert_cmpint(score.turned, ==, 0);
    g_assert_cmpint(score.lines, ==, 8); /* three side by side, turned across */
}

static void test_pinned_stay(void)
{
    Case drawn = {.roof = {.length_mm = 4000, .width_mm = 2500},
                  .a_mm = 1000,
                  .b_mm = 700,
                  .n = 3,
                  .n_pinned = 1,
                  .layout = {{1313, 777, 1000, 700}, {0, 0, 700, 1000}, {3000, 1800, 1000, 700}}};
    WbArrangement score = arrange(&drawn);
    g_assert_cmpint(score.turned, ==, 0);
    g_assert_cmpint(score.lines, ==, 8); /* all three in one line */
    drawn.n_pinned = 3;
    WbRect kept[3];
    memcpy(kept, drawn.layout, sizeof kept);
    arrange(&drawn);
    g_assert_cmpmem(kept, sizeof kept, drawn.layout, sizeof kept);
}

static void test_bad_input_and_stop(void)
{
    Case drawn = {.roof = {.length_mm = 4000, .width_mm = 2500},
                  .a_mm = 1000,
                  .b_mm = 700,
                  .n = 2,
                  .layout = {{0, 0, 1000, 700}, {500, 500, 1000, 700}}};
    Case kept = drawn;
    g_assert_cmpint(wb_roof_arrange(&drawn.roof, 1000, 700, drawn.layout, 2, 0, NULL), ==,
                    WB_BAD_INPUT);
    g_assert_cmpint(wb_roof_arrange(&drawn.roof, 1000, 700, drawn.layout, 1, 2, NULL), ==,
                    WB_BAD_INPUT);
    g_assert_cmpint(wb_roof_arrange(&drawn.roof, 1000, 700, drawn.layout, 0, 0, NULL), ==, WB_OK);
    WbControl control;
    wb_control_init(&control);
    wb_control_stop(&control);
    g_assert_cmpint(wb_roof_arrange(&drawn.roof, 1000, 700, drawn.layout, 1, 0, &control), ==,
                    WB_STOPPED);
    g_assert_cmpmem(drawn.layout, sizeof drawn.layout, kept.layout, sizeof kept.layout);
}

/* ---- every layout of tiny roofs ---- */

typedef struct {
    const Case *drawn;
    WbRect layout[3];
    WbArrangement best;
    bool found;
} Brute;

static void place_from(Brute *brute, int at)
{
    const Case *drawn = brute->drawn;
    if (at == drawn->n) {
        WbArrangement score;
        wb_roof_arrangement(&drawn->roof, brute->layout, at, &score);
        if (!brute->found || wb_roof_arrangement_order(&score, &brute->best) < 0)
            brute->best = score;
        brute->found = true;
        return;
    }
    for (int turned = 0; turned < (drawn->a_mm == drawn->b_mm ? 1 : 2); turned++)
        for (int64_t y = 0; y < drawn->roof.width_mm; y++)
            for (int64_t x = 0; x < drawn->roof.length_mm; x++) {
                brute->layout[at] = (WbRect){x, y, turned ? drawn->b_mm : drawn->a_mm,
                                             turned ? drawn->a_mm : drawn->b_mm};
                if (at > 0 && (brute->layout[at].y_mm < brute->layout[at - 1].y_mm ||
                               (brute->layout[at].y_mm == brute->layout[at - 1].y_mm &&
                                x < brute->layout[at - 1].x_mm)))
                    continue; /* in order: each set once */
                if (wb_roof_layout_ok(&drawn->roof, drawn->a_mm, drawn->b_mm, brute->layout, at + 1,
                                      NULL))
                    place_from(brute, at + 1);
            }
}

static void draw_obstacles(WbRandom *random, Case *drawn, int64_t size, bool round)
{
    drawn->roof.n_obstacles = (size_t)between(random, 0, OBSTACLES);
    for (size_t i = 0; i < drawn->roof.n_obstacles; i++) {
        WbObstacle *o = &drawn->obstacle[i];
        *o = (WbObstacle){.name = "o",
                          .x_mm = between(random, -size / 9, size),
                          .y_mm = between(random, -size / 9, size),
                          .length_mm = between(random, 1, size / 4 + 1),
                          .width_mm = between(random, 1, size / 4 + 1),
                          .clearance_mm = between(random, 0, size / 20),
                          .kind = (int)between(random, 0, 3) % 3};
        if (round && between(random, 0, 2) == 0) {
            o->round = true;
            o->width_mm = o->length_mm;
        }
    }
    drawn->roof.obstacles = drawn->obstacle;
    drawn->roof.has_gland = between(random, 0, 1);
    drawn->roof.gland = (WbCorner){between(random, 0, size), between(random, 0, size)};
}

static bool search_layout(WbRandom *random, Case *drawn, int most)
{
    WbRoofFit fit;
    g_assert_cmpint(wb_roof_most(&drawn->roof, drawn->a_mm, drawn->b_mm, most, 2000, NULL, &fit),
                    ==, WB_OK);
    drawn->n = fit.most > 1 ? (int)between(random, (fit.most + 1) / 2, fit.most) : fit.most;
    for (int i = 0; i < drawn->n; i++)
        drawn->layout[i] = fit.layout[i];
    wb_roof_fit_free(&fit);
    return drawn->n > 0;
}

static void test_every_layout_of_tiny_roofs(void)
{
    WbRandom random;
    wb_random_seed(&random, 11);
    int lines_best = 0, all_best = 0, seen = 0;
    while (seen < TINY_CASES) {
        int64_t size = between(&random, 6, 11);
        Case drawn = {.roof = {.length_mm = size,
                               .width_mm = between(&random, 5, size),
                               .gap_mm = between(&random, 0, 1)},
                      .a_mm = between(&random, 2, 5),
                      .b_mm = between(&random, 2, 4)};
        draw_obstacles(&random, &drawn, size, false);
        if (!search_layout(&random, &drawn, 3))
            continue;
        seen++;
        WbArrangement got = arrange(&drawn);
        Brute brute = {.drawn = &drawn};
        place_from(&brute, 0);
        g_assert_true(brute.found);
        g_assert_cmpint(wb_roof_arrangement_order(&brute.best, &got), <=, 0);
        lines_best += got.shaded_mm2 == brute.best.shaded_mm2 &&
                      got.lines + got.turned == brute.best.lines + brute.best.turned;
        all_best += wb_roof_arrangement_order(&brute.best, &got) == 0;
    }
    g_test_message("%d roofs: shade and lines the best there are on %d, all four on %d", seen,
                   lines_best, all_best);
    g_assert_cmpint(lines_best, >=, seen * 95 / 100);
    g_assert_cmpint(all_best, >=, seen * 85 / 100);
}

/* ---- random roofs ---- */

static bool draw_case(WbRandom *random, Case *drawn)
{
    int64_t size = between(random, 60, 6000);
    *drawn = (Case){.roof = {.length_mm = between(random, size / 2, size),
                             .width_mm = between(random, size / 3, size),
                             .margin_mm = between(random, 0, size / 30),
                             .gap_mm = between(random, 0, size / 60)},
                    .a_mm = between(random, size / 10 + 1, size / 3),
                    .b_mm = between(random, size / 10 + 1, size / 3)};
    draw_obstacles(random, drawn, size, true);
    if (between(random, 0, 2) == 0) {
        int64_t length = drawn->roof.length_mm, width = drawn->roof.width_mm;
        int64_t x = between(random, 1, length / 3), y = between(random, 1, width / 3);
        WbCorner corner[6] = {{x, 0},          {length - x, 0}, {length, y},
                              {length, width}, {0, width},      {0, y}};
        memcpy(drawn->corner, corner, sizeof corner);
        drawn->roof.corners = drawn->corner;
        drawn->roof.n_corners = 6;
    }
    if (!search_layout(random, drawn, PANELS))
        return false;
    drawn->n_pinned = between(random, 0, 3) == 0 ? (int)between(random, 0, drawn->n) : 0;
    return true;
}

static void mirror(const Case *from, Case *to)
{
    *to = *from;
    int64_t length = from->roof.length_mm;
    for (size_t i = 0; i < from->roof.n_obstacles; i++)
        to->obstacle[i].x_mm = length - from->obstacle[i].x_mm - from->obstacle[i].length_mm;
    for (size_t i = 0; i < from->roof.n_corners; i++)
        to->corner[i].x_mm = length - from->corner[i].x_mm;
    for (int i = 0; i < from->n; i++)
        to->layout[i].x_mm = length - from->layout[i].x_mm - from->layout[i].length_mm;
    to->roof.gland.x_mm = length - from->roof.gland.x_mm;
    to->roof.obstacles = to->obstacle;
    to->roof.corners = from->roof.n_corners > 0 ? to->corner : NULL;
}

static void test_never_worse_and_mirrored_alike(void)
{
    WbRandom random;
    wb_random_seed(&random, 12);
    int better = 0, fewer_lines = 0, seen = 0;
    while (seen < CASES) {
        Case drawn, mirrored;
        if (!draw_case(&random, &drawn))
            continue;
        drawn.roof.obstacles = drawn.obstacle;
        drawn.roof.corners = drawn.roof.n_corners > 0 ? drawn.corner : NULL;
        mirror(&drawn, &mirrored);
        seen++;
        WbArrangement before = score_of(&drawn), mirrored_before = score_of(&mirrored);
        g_assert_cmpint(wb_roof_arrangement_order(&before, &mirrored_before), ==, 0);
        WbArrangement after = arrange(&drawn), mirrored_after = arrange(&mirrored);
        if (wb_roof_arrangement_order(&after, &mirrored_after) != 0)
            g_error("roof %d: its mirror image is arranged otherwise", seen);
        better += wb_roof_arrangement_order(&after, &before) < 0;
        fewer_lines += after.lines + after.turned < before.lines + before.turned;
        Case again = drawn;
        again.roof.obstacles = again.obstacle;
        arrange(&again); /* what is arranged is not made worse */
    }
    g_test_message("%d roofs: %d better, %d with fewer lines", seen, better, fewer_lines);
    g_assert_cmpint(better, >, CASES / 2);
    g_assert_cmpint(fewer_lines, >, CASES / 10);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/roof-arrange/score-by-hand", test_score_by_hand);
    g_test_add_func("/roof-arrange/round-shade-area", test_round_shade_area);
    g_test_add_func("/roof-arrange/order", test_order);
    g_test_add_func("/roof-arrange/two-in-a-line-and-centred", test_two_in_a_line_and_centred);
    g_test_add_func("/roof-arrange/six-in-a-block", test_six_in_a_block);
    g_test_add_func("/roof-arrange/to-the-gland", test_to_the_gland);
    g_test_add_func("/roof-arrange/out-of-the-shade", test_out_of_the_shade);
    g_test_add_func("/roof-arrange/pinned-stay", test_pinned_stay);
    g_test_add_func("/roof-arrange/bad-input-and-stop", test_bad_input_and_stop);
    g_test_add_func("/roof-arrange/every-layout-of-tiny-roofs", test_every_layout_of_tiny_roofs);
    g_test_add_func("/roof-arrange/never-worse-and-mirrored-alike",
                    test_never_worse_and_mirrored_alike);
    return g_test_run();
}
