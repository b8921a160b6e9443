/* The methods for a rectangle without obstacles and the search of the checker of proofs, against
 * each other and, on small rooms, against trying everything cell by cell. */
#include "five_blocks.h"
#include "proof_fill.h"
#include "skyline.h"
#include "small_roof.h"
#include <glib.h>
#include <string.h>

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

enum { SIDE_MAX = 14, TINY_ROOMS = 1000, TRIES_MAX = 300000 };

typedef struct {
    int length, width, a, b, wanted, empty_max;
    int tries; /* past TRIES_MAX nothing is answered */
    bool full[SIDE_MAX][SIDE_MAX];
} Cells;

/* False: no room there. */
static bool put(Cells *cells, int x, int y, int length, int width, bool full)
{
    if (x + length > cells->length || y + width > cells->width)
        return false;
    for (int j = y; full && j < y + width; j++)
        for (int i = x; i < x + length; i++)
            if (cells->full[j][i])
                return false;
    for (int j = y; j < y + width; j++)
        for (int i = x; i < x + length; i++)
            cells->full[j][i] = full;
    return true;
}

/* The first free cell, row by row: under the front left corner of a panel, or empty. */
static bool goes_from(Cells *cells, int cell, int set, int empty)
{
    while (cell < cells->length * cells->width &&
           cells->full[cell / cells->length][cell % cells->length])
        cell++;
    if (set == cells->wanted)
        return true;
    if (cell == cells->length * cells->width || empty > cells->empty_max ||
        ++cells->tries > TRIES_MAX)
        return false;
    int x = cell % cells->length, y = cell / cells->length;
    for (int turn = 0; turn < 2; turn++) {
        int length = turn ? cells->b : cells->a, width = turn ? cells->a : cells->b;
        if (!put(cells, x, y, length, width, true))
            continue;
        bool done = goes_from(cells, cell + 1, set + 1, empty);
        put(cells, x, y, length, width, false);
        if (done)
            return true;
    }
    return goes_from(cells, cell + 1, set, empty + 1);
}

typedef enum { GOES, GOES_NOT, TOO_LONG } Answer;

static Answer goes(WbRoom room, int n)
{
    Cells cells = {.length = (int)room.length_mm,
                   .width = (int)room.width_mm,
                   .a = (int)room.panel_length_mm,
                   .b = (int)room.panel_width_mm,
                   .wanted = n};
    cells.empty_max = cells.length * cells.width - n * cells.a * cells.b;
    if (goes_from(&cells, 0, 0, 0))
        return GOES;
    return cells.tries > TRIES_MAX ? TOO_LONG : GOES_NOT;
}

/* From the area's count down to the first that goes; *refuted counts those that do not. */
static void assert_room(WbRoom room, int *refuted)
{
    int64_t a = room.panel_length_mm, b = room.panel_width_mm;
    for (int n = (int)(room.length_mm * room.width_mm / (a * b)); n > 0; n--) {
        Answer answer = goes(room, n);
        if (answer == TOO_LONG)
            return;
        assert_fill(room, n, answer == GOES);
        g_assert_cmpint(wb_proof_fill(room.length_mm, room.width_mm, a, b, n), ==,
                        answer == GOES ? WB_FILL_FOUND : WB_FILL_NONE);
        if (answer == GOES)
            return;
        ++*refuted;
    }
}

static void test_cell_by_cell(void)
{
    WbRandom random;
    int refuted = 0;
    wb_random_seed(&random, 7);
    for (int i = 0; i < TINY_ROOMS; i++)
        assert_room(room_of(between(&random, 4, SIDE_MAX), between(&random, 4, SIDE_MAX),
                            between(&random, 2, 7), between(&random, 3, 7)),
                    &refuted);
    g_test_message("%d counts refuted", refuted);
    g_assert_cmpint(refuted, >, TINY_ROOMS / 3);
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
    g_test_add_func("/roof-room/cell-by-cell", test_cell_by_cell);
    g_test_add_func("/roof-room/what-five-blocks-miss", test_what_five_blocks_miss);
    g_test_add_func("/roof-room/at-most-and-budget", test_at_most_and_budget);
    g_test_add_func("/roof-room/nothing-goes-in", test_nothing_goes_in);
    return g_test_run();
}
