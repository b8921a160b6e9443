/* The roof fit against exhaustive placement on the integer lattice, and by its symmetries. */
#include "small_roof.h"
#include <glib.h>
#include <string.h>

enum { OBSTACLES = 3, PLACES_MAX = 256, BRUTE_CASES = 3000, PROPERTY_CASES = 300 };

typedef struct {
    WbRoof roof;
    WbObstacle obstacle[OBSTACLES];
    int64_t a_mm, b_mm;
} Case;

/* Lengths up to `size`; panels so large that a dozen or so fit at most. */
static void draw_case(Case *drawn, WbRandom *random, int64_t size)
{
    *drawn = (Case){.roof = {.length_mm = between(random, size / 3, size),
                             .width_mm = between(random, size / 3, size),
                             .margin_mm = between(random, 0, size / 8),
                             .gap_mm = between(random, 0, size / 4)},
                    .a_mm = between(random, size / 9 + 1, size / 2),
                    .b_mm = between(random, size / 9 + 1, size / 2)};
    small_roof_draw_obstacles(&drawn->roof, drawn->obstacle, (size_t)between(random, 0, OBSTACLES),
                              size, random);
}

static WbRoofFit fit_of(const Case *drawn)
{
    WbRoofFit fit = {0};
    g_assert_cmpint(
        wb_roof_most(&drawn->roof, drawn->a_mm, drawn->b_mm, 1000, WB_ROOF_NODES, NULL, &fit), ==,
        WB_OK);
    g_assert_true(
        wb_roof_layout_ok(&drawn->roof, drawn->a_mm, drawn->b_mm, fit.layout, fit.most, NULL));
    g_assert_cmpint(fit.most, ==, fit.bound);
    return fit;
}

static int most_of(const Case *drawn)
{
    WbRoofFit fit = fit_of(drawn);
    int most = fit.most;
    wb_roof_fit_free(&fit);
    return most;
}

/* Exhaustive placement: every whole-millimetre place, and a largest set of places in which no two
 * are in each other's way. In some largest set, either a given place or one in its way is taken. */
typedef struct {
    WbRect place[PLACES_MAX];
    int n;
    uint64_t way[PLACES_MAX][PLACES_MAX / 64]; /* places in the way of each, itself too */
} Brute;

/* False: too many places for the tables. */
static bool list_places(Brute *brute, const Case *drawn, int64_t length, int64_t width)
{
    const WbRoof *roof = &drawn->roof;
    int64_t margin = roof->margin_mm;
    for (int64_t y = margin; y + width <= roof->width_mm - margin; y++)
        for (int64_t x = margin; x + length <= roof->length_mm - margin; x++) {
            WbRect rect = {x, y, length, width};
            if (small_roof_blocks(roof, rect))
                continue;
            if (brute->n == PLACES_MAX)
                return false;
            brute->place[brute->n++] = rect;
        }
    return true;
}

static void list_ways(Brute *brute, int64_t gap)
{
    memset(brute->way, 0, sizeof brute->way);
    for (int i = 0; i < brute->n; i++)
        for (int j = 0; j < brute->n; j++)
            if (small_roof_meet(brute->place[i], brute->place[j], gap))
                brute->way[i][j / 64] |= (uint64_t)1 << (j % 64);
}

static int first_of(const uint64_t *set)
{
    for (int k = 0; k < PLACES_MAX / 64; k++)
        if (set[k])
            return 64 * k + __builtin_ctzll(set[k]);
    return -1;
}

static int largest_set(const Brute *brute, const uint64_t *left)
{
    int first = first_of(left), best = 0;
    if (first < 0)
        return 0;
    uint64_t choice[PLACES_MAX / 64];
    for (int k = 0; k < PLACES_MAX / 64; k++)
        choice[k] = left[k] & brute->way[first][k];
    for (int taken; (taken = first_of(choice)) >= 0;) {
        choice[taken / 64] &= ~((uint64_t)1 << (taken % 64));
        uint64_t rest[PLACES_MAX / 64];
        for (int k = 0; k < PLACES_MAX / 64; k++)
            rest[k] = left[k] & ~brute->way[taken][k];
        best = MAX(best, 1 + largest_set(brute, rest));
    }
    return best;
}

/* -1: too large for this way. */
static int brute_most(Brute *brute, const Case *drawn)
{
    brute->n = 0;
    if (!list_places(brute, drawn, drawn->a_mm, drawn->b_mm) ||
        (drawn->a_mm != drawn->b_mm && !list_places(brute, drawn, drawn->b_mm, drawn->a_mm)))
        return -1;
    int64_t panel_mm2 = (drawn->a_mm + drawn->roof.gap_mm) * (drawn->b_mm + drawn->roof.gap_mm);
    if (drawn->roof.length_mm * drawn->roof.width_mm / panel_mm2 > 7)
        return -1;
    list_ways(brute, drawn->roof.gap_mm);
    uint64_t all[PLACES_MAX / 64] = {0};
    for (int i = 0; i < brute->n; i++)
        all[i / 64] |= (uint64_t)1 << (i % 64);
    return largest_set(brute, all);
}

static void test_against_exhaustive_placement(void)
{
    WbRandom random;
    wb_random_seed(&random, 20261124);
    g_autofree Brute *brute = g_new(Brute, 1);
    int seen = 0, crowded = 0, most_seen = 0;
    while (seen < BRUTE_CASES) {
        Case drawn;
        draw_case(&drawn, &random, between(&random, 6, 12));
        int expected = brute_most(brute, &drawn);
        if (expected < 0)
            continue;
        seen++;
        int got = most_of(&drawn);
        if (got != expected)
            g_error("case %d: %" G_GINT64_FORMAT " x %" G_GINT64_FORMAT " roof: %d, not %d", seen,
                    drawn.roof.length_mm, drawn.roof.width_mm, got, expected);
        crowded += drawn.roof.n_obstacles > 0 && drawn.roof.gap_mm > 0 && expected > 1;
        most_seen = MAX(most_seen, expected);
    }
    g_test_message("%d cases, %d with obstacle, gap and several panels, up to %d panels", seen,
                   crowded, most_seen);
    g_assert_cmpint(crowded, >, BRUTE_CASES / 20);
    g_assert_cmpint(most_seen, >, 5);
}

static void test_symmetries(void)
{
    WbRandom random;
    wb_random_seed(&random, 7);
    for (int i = 0; i < PROPERTY_CASES; i++) {
        Case drawn;
        draw_case(&drawn, &random, between(&random, 20, 400));
        int most = most_of(&drawn);
        small_roof_mirror(&drawn.roof, drawn.obstacle);
        g_assert_cmpint(most_of(&drawn), ==, most);
        small_roof_transpose(&drawn.roof, drawn.obstacle);
        g_assert_cmpint(most_of(&drawn), ==, most);
        int64_t a_mm = drawn.a_mm;
        drawn.a_mm = drawn.b_mm;
        drawn.b_mm = a_mm;
        g_assert_cmpint(most_of(&drawn), ==, most);
        int64_t by = between(&random, 2, 9);
        small_roof_scale(&drawn.roof, drawn.obstacle, by);
        drawn.a_mm *= by;
        drawn.b_mm *= by;
        g_assert_cmpint(most_of(&drawn), ==, most);
    }
}

/* Whatever takes room away never lets more panels on. */
static void test_monotone(void)
{
    WbRandom random;
    wb_random_seed(&random, 8);
    for (int i = 0; i < PROPERTY_CASES; i++) {
        Case drawn;
        draw_case(&drawn, &random, between(&random, 20, 400));
        int most = most_of(&drawn);
        Case tighter = drawn;
        tighter.roof.obstacles = tighter.obstacle;
        switch (i % 5) {
        case 0:
            tighter.roof.margin_mm += between(&random, 1, 5);
            break;
        case 1:
            tighter.roof.gap_mm += between(&random, 1, 5);
            break;
        case 2:
            tighter.a_mm += between(&random, 1, 5);
            break;
        case 3:
            tighter.roof.width_mm -= between(&random, 1, 5);
            break;
        default:
            for (size_t k = 0; k < tighter.roof.n_obstacles; k++)
                tighter.obstacle[k].clearance_mm += between(&random, 1, 5);
        }
        g_assert_cmpint(most_of(&tighter), <=, most);
    }
}

static bool cell_clear(const Case *drawn, int64_t x, int64_t y)
{
    int64_t margin = drawn->roof.margin_mm;
    return x >= margin && y >= margin && x < drawn->roof.length_mm - margin &&
           y < drawn->roof.width_mm - margin &&
           !small_roof_blocks(&drawn->roof, (WbRect){x, y, 1, 1});
}

static void test_clear_area_by_counting(void)
{
    WbRandom random;
    wb_random_seed(&random, 9);
    for (int i = 0; i < PROPERTY_CASES; i++) {
        Case drawn;
        draw_case(&drawn, &random, between(&random, 9, 60));
        int64_t counted = 0;
        for (int64_t y = 0; y < drawn.roof.width_mm; y++)
            for (int64_t x = 0; x < drawn.roof.length_mm; x++)
                counted += cell_clear(&drawn, x, y);
        g_assert_cmpint(wb_roof_clear_mm2(&drawn.roof), ==, counted);
    }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/roof/against-exhaustive-placement", test_against_exhaustive_placement);
    g_test_add_func("/roof/symmetries", test_symmetries);
    g_test_add_func("/roof/monotone", test_monotone);
    g_test_add_func("/roof/clear-area-by-counting", test_clear_area_by_counting);
    return g_test_run();
}
