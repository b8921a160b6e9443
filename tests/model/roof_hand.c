/* Where a held thing snaps to, its distances, and why a panel cannot lie somewhere. The expected
 * figures are worked out by hand from the roof drawn here:
 *
 *   roof 4000 x 2000, margin 50, gap 20; a vent 400 x 400 at 1000, 800 with clearance 60;
 *   one panel 1000 x 500 at 2000, 50. */
#include "roof_hand.h"
#include <string.h>

static const WbObstacle vent = {.name = "Vent",
                                .x_mm = 1000,
                                .y_mm = 800,
                                .length_mm = 400,
                                .width_mm = 400,
                                .clearance_mm = 60};
static const WbRoof roof = {.length_mm = 4000,
                            .width_mm = 2000,
                            .margin_mm = 50,
                            .gap_mm = 20,
                            .obstacles = &vent,
                            .n_obstacles = 1};
static const WbRect panel = {2000, 50, 1000, 500};

static WbHeld held_of(WbHeldKind kind, int index)
{
    return (WbHeld){&roof, &panel, 1, kind, index};
}

static void assert_rect(WbRect is, gint64 x, gint64 y, gint64 length, gint64 width)
{
    g_assert_cmpint(is.x_mm, ==, x);
    g_assert_cmpint(is.y_mm, ==, y);
    g_assert_cmpint(is.length_mm, ==, length);
    g_assert_cmpint(is.width_mm, ==, width);
}

static void test_snap_panel(void)
{
    static const struct {
        WbRect from;
        gint64 x, y;
    } table[] = {
        {{63, 38, 1000, 500}, 50, 50},         /* the usable line at the left and at the front */
        {{2961, 1443, 1000, 500}, 2950, 1450}, /* and at the right and the back: 4000 - 50 - 1000 */
        {{1471, 771, 1000, 500}, 1460, 770},   /* the vent's clearance: 1000 + 400 + 60 */
        {{3028, 61, 900, 500}, 3020, 50},      /* beside the panel with the gap: 2000 + 1000 + 20 */
        {{1993, 577, 1000, 500}, 2000, 570},   /* in line with it; behind it: 50 + 500 + 20 */
        {{666, 1234, 300, 200}, 670, 1230},    /* nothing near: whole steps */
    };
    WbHeld held = held_of(WB_HELD_PANEL, -1);
    for (guint i = 0; i < G_N_ELEMENTS(table); i++)
        assert_rect(wb_held_snap(&held, table[i].from, 20, 10), table[i].x, table[i].y,
                    table[i].from.length_mm, table[i].from.width_mm);
}

static void test_snap_free(void)
{
    WbHeld held = held_of(WB_HELD_PANEL, -1);
    assert_rect(wb_held_snap(&held, (WbRect){63, 38, 1000, 500}, 0, 1), 63, 38, 1000, 500);
    assert_rect(wb_held_snap(&held, (WbRect){-14, -15, 7, 7}, 0, 10), -10, -10, 7, 7);
    assert_rect(wb_held_snap(&held, (WbRect){-16, 14, 7, 7}, 0, 10), -20, 10, 7, 7);
    held = held_of(WB_HELD_PANEL, 0); /* it does not snap to itself */
    assert_rect(wb_held_snap(&held, (WbRect){2004, 604, 1000, 500}, 5, 10), 2000, 600, 1000, 500);
}

/* An obstacle goes to the outline itself and in line with the others. */
static void test_snap_obstacle(void)
{
    WbHeld held = held_of(WB_HELD_OBSTACLE, 0);
    assert_rect(wb_held_snap(&held, (WbRect){3607, 7, 400, 400}, 20, 10), 3600, 0, 400, 400);
    held.index = -1;
    assert_rect(wb_held_snap(&held, (WbRect){1391, 789, 100, 100}, 20, 10), 1400, 800, 100, 100);
    assert_rect(wb_held_snap(&held, (WbRect){1877, 303, 117, 100}, 5, 10), 1880, 300, 117, 100);
}

/* An obstacle stops where its clearance just reaches the panel at 2000..3000, 50..550; far from it
 * across, the panel holds nothing. */
static void test_snap_obstacle_to_panel(void)
{
    WbHeld held = held_of(WB_HELD_OBSTACLE, 0);
    assert_rect(wb_held_snap(&held, (WbRect){1533, 203, 400, 400}, 20, 10), 1540, 200, 400, 400);
    assert_rect(wb_held_snap(&held, (WbRect){3071, 203, 400, 400}, 20, 10), 3060, 200, 400, 400);
    assert_rect(wb_held_snap(&held, (WbRect){2304, 617, 400, 400}, 20, 10), 2300, 610, 400, 400);
    assert_rect(wb_held_snap(&held, (WbRect){1533, 803, 400, 400}, 20, 10), 1530, 800, 400, 400);
    const WbRect rect = {1200, 203, 400, 400};
    assert_rect(wb_held_snap_side(&held, rect, WB_SIDE_RIGHT, 1951, 20, 10), 1200, 203, 740, 400);
    WbObstacle dark = vent;
    WbRoof shaded = roof;
    dark.kind = WB_OBSTACLE_SHADE;
    shaded.obstacles = &dark;
    held.roof = &shaded; /* shade comes up to the panel, its clearance is none */
    assert_rect(wb_held_snap(&held, (WbRect){1592, 203, 400, 400}, 20, 10), 1600, 200, 400, 400);
}

/* Corners and edges stop where the margin just reaches the panel. */
static void test_snap_outline_to_panel(void)
{
    const WbCorner corners[] = {{0, 0}, {4000, 0}, {4000, 2000}, {0, 2000}};
    WbRoof given = roof;
    given.corners = corners;
    given.n_corners = G_N_ELEMENTS(corners);
    WbHeld held = {&given, &panel, 1, WB_HELD_CORNER, 2};
    assert_rect(wb_held_snap(&held, (WbRect){3058, 597, 0, 0}, 20, 10), 3050, 600, 0, 0);
    held.index = 0;
    assert_rect(wb_held_snap(&held, (WbRect){1944, 404, 0, 0}, 20, 10), 1950, 400, 0, 0);
    held = held_of(WB_HELD_EDGE, 0);
    assert_rect(wb_held_snap(&held, (WbRect){3058, 0, 0, 2000}, 20, 10), 3050, 0, 0, 2000);
    assert_rect(wb_held_snap(&held, (WbRect){3993, 0, 0, 2000}, 20, 10), 3990, 0, 0, 2000);
    held = held_of(WB_HELD_POINT, 0);
    assert_rect(wb_held_snap(&held, (WbRect){3058, 404, 0, 0}, 20, 10), 3060, 400, 0, 0);
}

static void test_snap_side(void)
{
    WbHeld held = held_of(WB_HELD_OBSTACLE, 0);
    const WbRect rect = {1000, 800, 400, 400};
    assert_rect(wb_held_snap_side(&held, rect, WB_SIDE_RIGHT, 1563, 5, 10), 1000, 800, 560, 400);
    assert_rect(wb_held_snap_side(&held, rect, WB_SIDE_LEFT, 7, 10, 10), 0, 800, 1400, 400);
    assert_rect(wb_held_snap_side(&held, rect, WB_SIDE_BACK, 1996, 10, 10), 1000, 800, 400, 1200);
    assert_rect(wb_held_snap_side(&held, rect, WB_SIDE_FRONT, 777, 0, 1), 1000, 777, 400, 423);
    /* past the opposite side it keeps a millimetre */
    assert_rect(wb_held_snap_side(&held, rect, WB_SIDE_LEFT, 1500, 0, 10), 1399, 800, 1, 400);
}

/* A corner comes in line with the others, so that right angles are easy. */
static void test_snap_corner(void)
{
    const WbCorner corners[] = {{0, 0}, {3000, 0}, {4000, 1000}, {0, 2000}};
    WbRoof slanted = roof;
    slanted.corners = corners;
    slanted.n_corners = G_N_ELEMENTS(corners);
    slanted.n_obstacles = 0;
    WbHeld held = {&slanted, NULL, 0, WB_HELD_CORNER, 2};
    assert_rect(wb_held_snap(&held, (WbRect){3008, 1993, 0, 0}, 20, 10), 3000, 2000, 0, 0);
    assert_rect(wb_held_snap(&held, (WbRect){3912, 1004, 0, 0}, 20, 10), 3910, 1000, 0, 0);
}

static void test_distances(void)
{
    WbDistance distance[WB_N_SIDES];
    WbHeld held = held_of(WB_HELD_OBSTACLE, 0);
    const WbRect at = {1000, 300, 400, 400}; /* the vent, moved to where it looks at the panel */
    wb_held_distances(&held, &at, distance);
    g_assert_cmpint(distance[WB_SIDE_LEFT].mm, ==, 1000);
    g_assert_cmpint(distance[WB_SIDE_RIGHT].mm, ==, 600);       /* 2000 - 1400 */
    g_assert_cmpint(distance[WB_SIDE_RIGHT].along_mm, ==, 425); /* middle of 300..550 */
    g_assert_cmpint(distance[WB_SIDE_FRONT].mm, ==, 300);
    g_assert_cmpint(distance[WB_SIDE_BACK].mm, ==, 1300);
}

/* The nose from 3000, 0 to 4000, 1000 to 3000, 2000: at y 500 it is 3500 from the left. */
static void test_distances_to_slant(void)
{
    const WbCorner corners[] = {{0, 0}, {3000, 0}, {4000, 1000}, {3000, 2000}, {0, 2000}};
    WbRoof nose = {.length_mm = 4000,
                   .width_mm = 2000,
                   .corners = corners,
                   .n_corners = G_N_ELEMENTS(corners)};
    WbHeld held = {&nose, NULL, 0, WB_HELD_OBSTACLE, -1};
    WbDistance distance[WB_N_SIDES];
    const WbRect at = {2000, 400, 200, 200};
    wb_held_distances(&held, &at, distance);
    g_assert_cmpint(distance[WB_SIDE_RIGHT].mm, ==, 1300);
    g_assert_cmpint(distance[WB_SIDE_LEFT].mm, ==, 2000);
    const WbRect outside = {4100, 400, 200, 200};
    wb_held_distances(&held, &outside, distance);
    g_assert_false(distance[WB_SIDE_RIGHT].found);
    g_assert_true(distance[WB_SIDE_LEFT].found); /* back to the slant */
    g_assert_cmpint(distance[WB_SIDE_LEFT].mm, ==, 600);
}

static void test_not_free(void)
{
    static const struct {
        WbRect rect;
        const char *word; /* NULL: it lies free */
    } table[] = {
        {{50, 50, 800, 500}, NULL},
        {{49, 50, 800, 500}, "edge"},
        {{3151, 50, 800, 500}, "edge"}, /* 4000 - 50 - 800 is the last */
        {{141, 800, 800, 500}, "Vent"}, /* 1000 - 60 - 800 is the last */
        {{140, 800, 800, 500}, NULL},
        {{1181, 50, 800, 500}, "pinned"}, /* 2000 - 20 - 800 is the last */
        {{1180, 50, 800, 500}, NULL},
    };
    for (guint i = 0; i < G_N_ELEMENTS(table); i++) {
        g_autofree char *sentence = wb_panel_not_free(&roof, &table[i].rect, &panel, 1);
        if (table[i].word == NULL)
            g_assert_null(sentence);
        else
            g_assert_true(sentence != NULL && strstr(sentence, table[i].word) != NULL);
    }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/roof-hand/snap-panel", test_snap_panel);
    g_test_add_func("/roof-hand/snap-free", test_snap_free);
    g_test_add_func("/roof-hand/snap-obstacle", test_snap_obstacle);
    g_test_add_func("/roof-hand/snap-obstacle-to-panel", test_snap_obstacle_to_panel);
    g_test_add_func("/roof-hand/snap-outline-to-panel", test_snap_outline_to_panel);
    g_test_add_func("/roof-hand/snap-side", test_snap_side);
    g_test_add_func("/roof-hand/snap-corner", test_snap_corner);
    g_test_add_func("/roof-hand/distances", test_distances);
    g_test_add_func("/roof-hand/distances-to-slant", test_distances_to_slant);
    g_test_add_func("/roof-hand/not-free", test_not_free);
    return g_test_run();
}
