/* The two methods for a rectangle without obstacles, against each other and against the checker's
 * own search, which shares nothing with them. */
#include "five_blocks.h"
#include "proof_fill.h"
#include "random.h"
#include "skyline.h"
#include <glib.h>

enum { ROOMS = 1500, PANELS = 400, BY_AREA_MAX = 32 }; /* the checker's search is a slow one */
#define STEPS 400000000

static WbRoom room_of(int64_t length, int64_t width, int64_t panel_length, int64_t panel_width)
{
    return (WbRoom){.length_mm = length,
                    .width_mm = width,
                    .panel_length_mm = panel_length,
                    .panel_width_mm = panel_width,
                    .step_budget = STEPS};
}

static void assert_layout(const WbRoom *room, const WbRect *layout, int n)
{
    WbRoof roof = {.length_mm = room->length_mm, .width_mm = room->width_mm};
    g_assert_true(
        wb_roof_layout_ok(&roof, room->panel_length_mm, room->panel_width_mm, layout, n, NULL));
}

static int blocks_in(WbRoom room, int at_most)
{
    WbRect layout[PANELS];
    int n = -1;
    g_assert_cmpint(wb_five_blocks(&room, at_most, layout, &n), ==, WB_OK);
    g_assert_cmpint(n, <=, at_most);
    assert_layout(&room, layout, n);
    return n;
}

static bool fill(WbRoom room, int n)
{
    WbRect layout[PANELS];
    bool found = false;
    g_assert_cmpint(wb_skyline_search(&room, n, layout, &found), ==, WB_OK);
    if (found)
        assert_layout(&room, layout, n);
    return found;
}

/* Over either side, with either side of the panel first. */
static void assert_fill(WbRoom room, int n, bool goes)
{
    for (int way = 0; way < 4; way++) {
        WbRoom turned = way & 1 ? room_of(room.width_mm, room.length_mm, 1, 1) : room;
        turned.panel_length_mm = way & 2 ? room.panel_width_mm : room.panel_length_mm;
        turned.panel_width_mm = way & 2 ? room.panel_length_mm : room.panel_width_mm;
        g_assert_true(fill(turned, n) == goes);
    }
}

static int64_t between(WbRandom *random, int64_t low, int64_t high)
{
    return low + (int64_t)wb_random_below(random, (uint64_t)(high - low + 1));
}

static void test_against_the_checkers_search(void)
{
    WbRandom random;
    int gaps = 0, beyond_blocks = 0;
    wb_random_seed(&random, 20261128);
    for (int i = 0; i < ROOMS;) {
        int64_t length = between(&random, 5, 34), width = between(&random, 5, 34),
                a = between(&random, 2, 11), b = between(&random, 2, 11);
        WbRoom room = room_of(length, width, a, b);
        int most = (int)(length * width / (a * b)), by_area = most;
        if (by_area > BY_AREA_MAX)
            continue;
        i++;
        while (most > 0 && wb_proof_fill(length, width, a, b, most) == WB_FILL_NONE)
            most--;
        if (most > 0) {
            g_assert_cmpint(wb_proof_fill(length, width, a, b, most), ==, WB_FILL_FOUND);
            assert_fill(room, most, true);
        }
        if (most < by_area)
            assert_fill(room, most + 1, false);
        int blocks = blocks_in(room, PANELS);
        g_assert_cmpint(blocks, <=, most);
        gaps += most < by_area;
        beyond_blocks += blocks < most;
    }
    g_test_message("%d of %d less than the area's, %d more than five blocks", gaps, ROOMS,
                   beyond_blocks);
    g_assert_cmpint(gaps, >, ROOMS / 4);
}

/* (49, 28, 8, 3): 56 by five blocks, 57 are possible (the page beside Birgin, Lobato & Morabito, J.
 * Oper. Res. Soc. 61 (2010) 306). (86, 52, 9, 5): 99, one of the 16 that five blocks miss (Morabito
 * & Morales 1998; the list is from memory). */
static void test_what_five_blocks_miss(void)
{
    g_assert_cmpint(blocks_in(room_of(49, 28, 8, 3), PANELS), ==, 56);
    assert_fill(room_of(28, 49, 8, 3), 57, true);
    g_assert_cmpint(blocks_in(room_of(86, 52, 9, 5), PANELS), ==, 98);
}

static void test_at_most_and_budget(void)
{
    g_assert_cmpint(blocks_in(room_of(86, 52, 9, 5), 7), ==, 7);
    WbRoom room = room_of(86, 52, 9, 5);
    room.step_budget = 2000;
    WbRect layout[PANELS];
    int n = -1;
    g_assert_cmpint(wb_five_blocks(&room, PANELS, layout, &n), ==, WB_BUDGET);
    g_assert_cmpint(n, >=, 90);
    assert_layout(&room, layout, n);
    bool found = false;
    room = room_of(59, 49, 11, 5);
    room.step_budget = 100000;
    g_assert_cmpint(wb_skyline_search(&room, 50, layout, &found), ==, WB_BUDGET);
    g_assert_false(found);
}

static void test_nothing_goes_in(void)
{
    g_assert_cmpint(blocks_in(room_of(10, 3, 4, 5), PANELS), ==, 0);
    g_assert_cmpint(blocks_in(room_of(3, 3, 4, 5), PANELS), ==, 0);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/roof-room/against-the-checkers-search", test_against_the_checkers_search);
    g_test_add_func("/roof-room/what-five-blocks-miss", test_what_five_blocks_miss);
    g_test_add_func("/roof-room/at-most-and-budget", test_at_most_and_budget);
    g_test_add_func("/roof-room/nothing-goes-in", test_nothing_goes_in);
    return g_test_run();
}
