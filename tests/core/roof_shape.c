/* Roofs that are no rectangles: polygons, circles, walkways, heights, panels pinned. */
#include "plain_roof.h"
#include "small_roof.h"
#include <glib.h>
#include <math.h>
#include <string.h>

static WbRoofFit fit_around(const WbRoof *roof, int64_t a_mm, int64_t b_mm, const WbRect *pinned,
                            int n_pinned)
{
    WbRoofFit fit = {0};
    g_assert_cmpint(
        wb_roof_most_around(roof, a_mm, b_mm, pinned, n_pinned, 1000, WB_ROOF_NODES, NULL, &fit),
        ==, WB_OK);
    g_assert_true(wb_roof_layout_ok(roof, a_mm, b_mm, fit.layout, fit.most, NULL));
    g_assert_cmpint(fit.most, <=, fit.mm_bound);
    g_assert_cmpint(fit.mm_bound, <=, fit.bound);
    return fit;
}

static void assert_fit(const WbRoof *roof, int64_t a_mm, int64_t b_mm, int most, int bound)
{
    WbRoofFit fit = fit_around(roof, a_mm, b_mm, NULL, 0);
    g_assert_cmpint(fit.most, ==, most);
    g_assert_cmpint(fit.mm_bound, ==, most);
    g_assert_cmpint(fit.bound, ==, bound);
    g_assert_cmpint(wb_roof_answer(&fit, most), ==, WB_FITS);
    g_assert_cmpint(wb_roof_answer(&fit, bound + 1), ==, WB_FITS_NOT);
    if (bound > most)
        g_assert_cmpint(wb_roof_answer(&fit, bound), ==, WB_FIT_WITHIN_1_MM);
    wb_roof_fit_free(&fit);
}

/* 1000 x 1000 less its back right quarter. Panels of 500 x 500: one in each quarter left. With a
 * margin of 20 a panel of 480 x 460 has 960 x 460 in front, and 460 x 960 on the left: two lie in
 * front, 960 long, and the left one at the back would need 460 + 460 of 960. */
static void test_l_roof(void)
{
    WbCorner corners[] = {{0, 0}, {1000, 0}, {1000, 500}, {500, 500}, {500, 1000}, {0, 1000}};
    WbRoof roof = {.length_mm = 1000, .width_mm = 1000, .corners = corners, .n_corners = 6};
    g_assert_false(wb_roof_needs_steps(&roof));
    assert_fit(&roof, 500, 500, 3, 3);
    assert_fit(&roof, 501, 500, 1, 1);
    g_assert_cmpint(wb_roof_clear_mm2(&roof), ==, 750000);
    roof.margin_mm = 20;
    assert_fit(&roof, 480, 460, 3, 3);
    assert_fit(&roof, 480, 461, 0, 0);
    /* the usable L: 960 x 460 and 460 x 500 more */
    g_assert_cmpint(wb_roof_clear_mm2(&roof), ==, 960 * 460 + 460 * 500);
}

/* A right triangle of 1200 by 800: a panel in its right angle touches the slant with its far corner
 * where x / 1200 + y / 800 = 1. 600 x 400 touches it exactly; a millimetre more is 1/1200 of the
 * slant's length too much, and no place between whole millimetres helps, for it is a corner. */
static void test_corner_of_a_triangle(void)
{
    WbCorner corners[] = {{0, 0}, {1200, 0}, {0, 800}};
    WbRoof roof = {.length_mm = 1200, .width_mm = 800, .corners = corners, .n_corners = 3};
    g_assert_true(wb_roof_needs_steps(&roof));
    assert_fit(&roof, 600, 400, 1, 1);
    assert_fit(&roof, 601, 400, 0, 1); /* the outer staircase of 1 mm lets it */
    assert_fit(&roof, 602, 400, 0, 1); /* 601 and 399: still inside the slant */
    assert_fit(&roof, 603, 400, 0, 0);
    roof.margin_mm = 10; /* along all three sides: (620 + 10) / 1200 + (380) / 800 = 1 */
    assert_fit(&roof, 610, 360, 1, 1);
    assert_fit(&roof, 614, 360, 0, 0);
}

/* A circle of diameter 10 in the corner of a roof of 14 x 14: its middle is 5, 5. A panel of 6 x 5
 * at 8, 9 has its near corner 3 and 4 from the middle, which is 5, the radius: it touches. */
static void test_touches_a_circle(void)
{
    WbObstacle vent = {.name = "vent", .length_mm = 10, .width_mm = 10, .round = true};
    WbRoof roof = {.length_mm = 14, .width_mm = 14, .obstacles = &vent, .n_obstacles = 1};
    WbRect touching = {8, 9, 6, 5}, nearer = {7, 9, 6, 5}, grown = {8, 9, 5, 5};
    g_assert_true(wb_roof_layout_ok(&roof, 6, 5, &touching, 1, NULL));
    g_assert_false(wb_roof_layout_ok(&roof, 6, 5, &nearer, 1, NULL));
    vent.clearance_mm = 1;
    g_assert_false(wb_roof_layout_ok(&roof, 6, 5, &touching, 1, NULL));
    grown.x_mm = 9;
    grown.y_mm = 10;
    grown.width_mm = 4;
    g_assert_true(wb_roof_layout_ok(&roof, 5, 4, &grown, 1, NULL));
}

/* 90 high: a panel 100 over the roof passes, one 89 over it does not, one over a walkway never. */
static void test_passes_over(void)
{
    WbObstacle vent = {.name = "vent", .x_mm = 400, .y_mm = 200, .length_mm = 200, .width_mm = 200};
    WbRoof roof = {.length_mm = 1000, .width_mm = 600, .obstacles = &vent, .n_obstacles = 1};
    roof.standoff_mm = 100;
    vent.height_mm = 90;
    assert_fit(&roof, 1000, 600, 0, 0); /* the brief does not allow it */
    roof.over_obstacles = true;
    assert_fit(&roof, 1000, 600, 1, 1);
    roof.standoff_mm = 89;
    assert_fit(&roof, 1000, 600, 0, 0);
    roof.standoff_mm = 90; /* it would lie on it */
    assert_fit(&roof, 1000, 600, 0, 0);
    roof.standoff_mm = 91;
    assert_fit(&roof, 1000, 600, 1, 1);
    vent.height_mm = 0; /* not known */
    assert_fit(&roof, 1000, 600, 0, 0);
    vent.height_mm = 1;
    vent.kind = WB_OBSTACLE_WALKWAY;
    assert_fit(&roof, 1000, 600, 0, 0);
    vent.kind = WB_OBSTACLE_SHADE;
    assert_fit(&roof, 1000, 600, 1, 1);
}

/* Four of 500 x 300 fit a roof of 1000 x 600; with one pinned 100 off the corner only two more do:
 * 400 x 600 is left of x = 600 .. 1000 for one turned, 1000 x 200 for none, 100 x 600 for none. */
static void test_pinned(void)
{
    WbRoof roof = {.length_mm = 1000, .width_mm = 600};
    WbRect pinned = {100, 0, 500, 300}, off = {501, 0, 500, 300};
    WbRoofFit fit = fit_around(&roof, 500, 300, &pinned, 1);
    g_assert_cmpint(fit.most, ==, 3);
    g_assert_cmpint(fit.bound, ==, 3);
    g_assert_cmpmem(&fit.layout[0], sizeof pinned, &pinned, sizeof pinned);
    wb_roof_fit_free(&fit);
    fit.most = 77;
    g_assert_cmpint(wb_roof_most_around(&roof, 500, 300, &off, 1, 1000, WB_ROOF_NODES, NULL, &fit),
                    ==, WB_BAD_INPUT);
    g_assert_cmpint(
        wb_roof_most_around(&roof, 500, 301, &pinned, 1, 1000, WB_ROOF_NODES, NULL, &fit), ==,
        WB_BAD_INPUT);
    WbRect twice[2] = {pinned, pinned};
    g_assert_cmpint(wb_roof_most_around(&roof, 500, 300, twice, 2, 1000, WB_ROOF_NODES, NULL, &fit),
                    ==, WB_BAD_INPUT);
    g_assert_cmpint(fit.most, ==, 77);
}

static void test_outline_problems(void)
{
    static const struct {
        WbCorner corner[5];
        size_t n;
        WbOutlineProblem problem;
        size_t first, second;
    } cases[] = {
        {{{0, 0}, {90, 0}, {90, 90}, {0, 90}}, 4, WB_OUTLINE_GOOD, 0, 0},
        {{{0, 0}, {0, 90}, {90, 90}, {90, 0}}, 4, WB_OUTLINE_GOOD, 0, 0}, /* other way round */
        {{{0, 0}, {90, 0}}, 2, WB_OUTLINE_TOO_FEW, 0, 0},
        {{{0, 0}, {90, 0}, {101, 50}, {0, 90}}, 4, WB_OUTLINE_OFF_FRAME, 2, 0},
        {{{0, 0}, {90, 0}, {90, 0}, {0, 90}}, 4, WB_OUTLINE_NO_LENGTH, 1, 0},
        {{{0, 0}, {90, 90}, {90, 0}, {0, 90}}, 4, WB_OUTLINE_CROSSES, 0, 2}, /* a bow tie */
        {{{0, 0}, {90, 0}, {90, 90}, {45, 0}, {0, 90}}, 5, WB_OUTLINE_CROSSES, 0, 2}, /* touches */
        {{{0, 0}, {90, 0}, {45, 0}}, 3, WB_OUTLINE_CROSSES, 0, 1}, /* goes back on itself */
    };
    for (size_t i = 0; i < G_N_ELEMENTS(cases); i++) {
        WbRoof roof = {
            .length_mm = 100, .width_mm = 100, .corners = cases[i].corner, .n_corners = cases[i].n};
        size_t first = 99, second = 99;
        WbRoofFit fit = {.most = 77};
        g_test_message("outline %zu", i);
        g_assert_cmpint(wb_roof_outline_problem(&roof, &first, &second), ==, cases[i].problem);
        if (cases[i].problem == WB_OUTLINE_GOOD)
            continue;
        if (cases[i].problem != WB_OUTLINE_TOO_FEW)
            g_assert_cmpuint(first, ==, cases[i].first);
        if (cases[i].problem == WB_OUTLINE_CROSSES)
            g_assert_cmpuint(second, ==, cases[i].second);
        g_assert_cmpint(wb_roof_most(&roof, 10, 10, 9, WB_ROOF_NODES, NULL, &fit), ==,
                        WB_BAD_INPUT);
        g_assert_cmpint(fit.most, ==, 77);
        g_assert_cmpint(wb_roof_clear_mm2(&roof), ==, 0);
    }
}

/* ---- random small roofs, every whole-millimetre place tried ---- */

enum { CORNERS = 6, OBSTACLES = 2, PLACES_MAX = 400, BRUTE_CASES = 3000 };

typedef struct {
    WbRoof roof;
    WbCorner corner[CORNERS];
    WbObstacle obstacle[OBSTACLES];
    int64_t a_mm, b_mm;
} Case;

static WbObstacle draw_obstacle(WbRandom *random, const WbRoof *roof)
{
    WbObstacle drawn = {.name = "o",
                        .x_mm = between(random, -2, roof->length_mm),
                        .y_mm = between(random, -2, roof->width_mm),
                        .length_mm = between(random, 1, 5),
                        .clearance_mm = between(random, 0, 1),
                        .kind = (int)between(random, 0, 2),
                        .height_mm = between(random, 0, 3),
                        .round = between(random, 0, 2) > 0};
    drawn.width_mm = drawn.round ? drawn.length_mm : between(random, 1, 5);
    return drawn;
}

static void draw_case(Case *drawn, WbRandom *random)
{
    *drawn = (Case){.roof = {.length_mm = between(random, 6, 13),
                             .width_mm = between(random, 6, 13),
                             .margin_mm = between(random, 0, 1),
                             .gap_mm = between(random, 0, 2),
                             .standoff_mm = 2,
                             .over_obstacles = between(random, 0, 1)},
                    .a_mm = between(random, 1, 5),
                    .b_mm = between(random, 1, 5)};
    size_t n = (size_t)between(random, 3, CORNERS);
    for (size_t i = 0; i < n; i++)
        drawn->corner[i] = (WbCorner){between(random, 0, drawn->roof.length_mm),
                                      between(random, 0, drawn->roof.width_mm)};
    drawn->roof.corners = drawn->corner;
    drawn->roof.n_corners = between(random, 0, 3) ? n : 0;
    drawn->roof.n_obstacles = (size_t)between(random, 0, OBSTACLES);
    for (size_t i = 0; i < drawn->roof.n_obstacles; i++)
        drawn->obstacle[i] = draw_obstacle(random, &drawn->roof);
    drawn->roof.obstacles = drawn->obstacle;
}

/* Small enough for the exhaustive count, and with a sound outline. */
static bool usable(const Case *drawn)
{
    int64_t gap_mm = drawn->roof.gap_mm;
    return wb_roof_outline_problem(&drawn->roof, NULL, NULL) == WB_OUTLINE_GOOD &&
           (drawn->a_mm + gap_mm) * (drawn->b_mm + gap_mm) * 7 >=
               drawn->roof.length_mm * drawn->roof.width_mm;
}

typedef struct {
    double x, y;
} Spot;

/* The part of a polygon on one side of an axis-aligned line (Sutherland & Hodgman 1974, from
 * memory). axis 0: x; keep what is at or past `at` times `sign`. */
static int cut(const Spot *from, int n, int axis, double at, double sign, Spot *to)
{
    int m = 0;
    for (int i = 0; i < n; i++) {
        Spot p = from[i], q = from[(i + 1) % n];
        double dp = sign * ((axis ? p.y : p.x) - at), dq = sign * ((axis ? q.y : q.x) - at);
        if (dp >= 0)
            to[m++] = p;
        if ((dp > 0 && dq < 0) || (dp < 0 && dq > 0)) {
            double share = dp / (dp - dq);
            to[m++] = (Spot){p.x + share * (q.x - p.x), p.y + share * (q.y - p.y)};
        }
    }
    return m;
}

/* Area of the outline that lies in a rectangle. */
static double outline_within(const WbRoof *roof, const WbRect *rect)
{
    Spot a[64], b[64];
    int n = (int)roof->n_corners;
    double area = 0;
    for (int i = 0; i < n; i++)
        a[i] = (Spot){(double)roof->corners[i].x_mm, (double)roof->corners[i].y_mm};
    n = cut(a, n, 0, (double)rect->x_mm, 1, b);
    n = cut(b, n, 0, (double)(rect->x_mm + rect->length_mm), -1, a);
    n = cut(a, n, 1, (double)rect->y_mm, 1, b);
    n = cut(b, n, 1, (double)(rect->y_mm + rect->width_mm), -1, a);
    for (int i = 0; i < n; i++)
        area += a[i].x * a[(i + 1) % n].y - a[(i + 1) % n].x * a[i].y;
    return fabs(area) / 2;
}

static WbRect grown(const WbRect *rect, int64_t by_mm)
{
    return (WbRect){rect->x_mm - by_mm, rect->y_mm - by_mm, rect->length_mm + 2 * by_mm,
                    rect->width_mm + 2 * by_mm};
}

/* Inside means: the outline covers all of the grown panel's area. */
static bool inside(const WbRoof *roof, const WbRect *rect)
{
    WbRect wide = grown(rect, roof->margin_mm);
    if (roof->n_corners == 0)
        return wide.x_mm >= 0 && wide.y_mm >= 0 && wide.x_mm + wide.length_mm <= roof->length_mm &&
               wide.y_mm + wide.width_mm <= roof->width_mm;
    return outline_within(roof, &wide) > (double)(wide.length_mm * wide.width_mm) - 1e-9;
}

static double beyond(double at, double low, double high)
{
    return at < low ? low - at : at > high ? at - high : 0;
}

static bool clear_of(const WbRoof *roof, const WbObstacle *obstacle, const WbRect *rect)
{
    WbRect wide = grown(rect, obstacle->clearance_mm);
    if (obstacle->kind == WB_OBSTACLE_SHADE)
        return true;
    if (obstacle->kind == WB_OBSTACLE_STANDS && roof->over_obstacles && obstacle->height_mm > 0 &&
        obstacle->height_mm < roof->standoff_mm)
        return true;
    double left = (double)wide.x_mm, right = left + (double)wide.length_mm;
    double front = (double)wide.y_mm, back = front + (double)wide.width_mm;
    double x = (double)obstacle->x_mm, y = (double)obstacle->y_mm;
    double length = (double)obstacle->length_mm, width = (double)obstacle->width_mm;
    if (obstacle->round)
        return hypot(beyond(x + length / 2, left, right), beyond(y + width / 2, front, back)) >
               length / 2 - 1e-9;
    return right <= x || left >= x + length || back <= y || front >= y + width;
}

static bool may_lie(const Case *drawn, const WbRect *rect)
{
    bool may = inside(&drawn->roof, rect);
    for (size_t i = 0; may && i < drawn->roof.n_obstacles; i++)
        may = clear_of(&drawn->roof, &drawn->obstacle[i], rect);
    return may;
}

static int all_places(const Case *drawn, WbRect *place)
{
    int n = 0;
    for (int turn = 0; turn < (drawn->a_mm == drawn->b_mm ? 1 : 2); turn++) {
        int64_t length_mm = turn ? drawn->b_mm : drawn->a_mm;
        int64_t width_mm = turn ? drawn->a_mm : drawn->b_mm;
        for (int64_t y = 0; y + width_mm <= drawn->roof.width_mm; y++)
            for (int64_t x = 0; x + length_mm <= drawn->roof.length_mm; x++) {
                WbRect rect = {x, y, length_mm, width_mm};
                g_assert_cmpint(n, <, PLACES_MAX);
                if (may_lie(drawn, &rect))
                    place[n++] = rect;
            }
    }
    return n;
}

static bool apart(const WbRect *a, const WbRect *b, int64_t gap_mm)
{
    return a->x_mm + a->length_mm + gap_mm <= b->x_mm ||
           b->x_mm + b->length_mm + gap_mm <= a->x_mm ||
           a->y_mm + a->width_mm + gap_mm <= b->y_mm || b->y_mm + b->width_mm + gap_mm <= a->y_mm;
}

/* A largest set of places in which no two are too near: some largest set holds the first place or
 * one that is too near to it. */
static int largest_set(const WbRect *place, int n, int64_t gap_mm)
{
    int best = 0;
    for (int k = 0; k < n; k++) {
        WbRect left[PLACES_MAX];
        int m = 0;
        if (k > 0 && apart(&place[0], &place[k], gap_mm))
            continue;
        for (int j = 0; j < n; j++)
            if (apart(&place[k], &place[j], gap_mm))
                left[m++] = place[j];
        best = MAX(best, 1 + largest_set(left, m, gap_mm));
    }
    return best;
}

static int count_around(const Case *drawn, const WbRect *place, int n, const WbRect *pinned,
                        int n_pinned)
{
    WbRect free_place[PLACES_MAX];
    int m = 0;
    for (int i = 0; i < n; i++)
        if (n_pinned == 0 || apart(&place[i], pinned, drawn->roof.gap_mm))
            free_place[m++] = place[i];
    return n_pinned + largest_set(free_place, m, drawn->roof.gap_mm);
}

static void assert_strips_forbidden(const Case *drawn, int64_t step_mm)
{
    WbPlainRoof plain;
    g_assert_cmpint(wb_plain_roof(&drawn->roof, NULL, 0, WB_PLAIN_OUTER, step_mm, &plain), ==,
                    WB_OK);
    for (size_t i = 0; i < plain.roof.n_obstacles; i++)
        g_assert_true(wb_roof_forbids(&drawn->roof, &plain.roof.obstacles[i]));
    wb_plain_roof_free(&plain);
}

static void test_equal_to_brute_force(void)
{
    WbRandom random;
    int more_than_one = 0, within_1_mm = 0, with_pin = 0;
    wb_random_seed(&random, 11);
    for (int seen = 0; seen < BRUTE_CASES;) {
        Case drawn;
        WbRect place[PLACES_MAX], pinned = {0};
        draw_case(&drawn, &random);
        if (!usable(&drawn))
            continue;
        seen++;
        int n = all_places(&drawn, place);
        int n_pinned = n > 0 && between(&random, 0, 3) == 0;
        if (n_pinned)
            pinned = place[between(&random, 0, n - 1)];
        int expected = count_around(&drawn, place, n, &pinned, n_pinned);
        WbRoofFit fit = fit_around(&drawn.roof, drawn.a_mm, drawn.b_mm, &pinned, n_pinned);
        g_assert_cmpint(fit.most, ==, expected);
        g_assert_cmpint(fit.mm_bound, ==, expected);
        if (!wb_roof_needs_steps(&drawn.roof))
            g_assert_cmpint(fit.bound, ==, expected);
        assert_strips_forbidden(&drawn, between(&random, 1, 3));
        more_than_one += expected > 1;
        within_1_mm += fit.bound > fit.mm_bound;
        with_pin += n_pinned;
        wb_roof_fit_free(&fit);
    }
    g_test_message("%d of more than one, %d within 1 mm, %d pinned", more_than_one, within_1_mm,
                   with_pin);
    g_assert_cmpint(more_than_one, >, BRUTE_CASES / 10);
    g_assert_cmpint(within_1_mm, >, BRUTE_CASES / 100);
    g_assert_cmpint(with_pin, >, BRUTE_CASES / 20);
}

/* ---- properties of larger ones ---- */

static Case mirrored(const Case *drawn)
{
    Case mirror = *drawn;
    int64_t length_mm = drawn->roof.length_mm;
    for (size_t i = 0; i < CORNERS; i++)
        mirror.corner[i].x_mm = length_mm - drawn->corner[i].x_mm;
    for (size_t i = 0; i < OBSTACLES; i++)
        mirror.obstacle[i].x_mm =
            length_mm - drawn->obstacle[i].x_mm - drawn->obstacle[i].length_mm;
    return mirror;
}

static int most_on_mm(Case *drawn)
{
    drawn->roof.corners = drawn->corner; /* the case may have been copied */
    drawn->roof.obstacles = drawn->obstacle;
    WbRoofFit fit = fit_around(&drawn->roof, drawn->a_mm, drawn->b_mm, NULL, 0);
    int most = fit.most;
    g_assert_cmpint(fit.mm_bound, ==, most);
    wb_roof_fit_free(&fit);
    return most;
}

static void test_mirror_and_margin(void)
{
    WbRandom random;
    wb_random_seed(&random, 12);
    for (int seen = 0; seen < 500;) {
        Case drawn;
        draw_case(&drawn, &random);
        if (!usable(&drawn))
            continue;
        seen++;
        Case mirror = mirrored(&drawn);
        int most = most_on_mm(&drawn);
        g_assert_cmpint(most_on_mm(&mirror), ==, most);
        drawn.roof.margin_mm++;
        g_assert_cmpint(most_on_mm(&drawn), <=, most);
    }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/roof_shape/l-roof", test_l_roof);
    g_test_add_func("/roof_shape/corner-of-a-triangle", test_corner_of_a_triangle);
    g_test_add_func("/roof_shape/touches-a-circle", test_touches_a_circle);
    g_test_add_func("/roof_shape/passes-over", test_passes_over);
    g_test_add_func("/roof_shape/pinned", test_pinned);
    g_test_add_func("/roof_shape/outline-problems", test_outline_problems);
    g_test_add_func("/roof_shape/equal-to-brute-force", test_equal_to_brute_force);
    g_test_add_func("/roof_shape/mirror-and-margin", test_mirror_and_margin);
    return g_test_run();
}
