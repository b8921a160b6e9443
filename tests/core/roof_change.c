/* One change away: known small cases, and every smaller change tried one by one. */
#include "roof_change.h"
#include "roof_cases.h"
#include "small_roof.h"
#include <glib.h>
#include <math.h>
#include <string.h>

enum { OBSTACLES = 3, CASES = 1500, REACH = 40 };

typedef struct {
    WbRoof roof;
    WbObstacle obstacle[OBSTACLES];
    WbCorner corner[5];
    int64_t length_mm, width_mm;
} Case;

static void copy_case(Case *to, const Case *from)
{
    *to = *from;
    to->roof.obstacles = to->obstacle;
    if (from->roof.n_corners > 0)
        to->roof.corners = to->corner;
}

/* Whether n lie, on whole millimetres; proved. */
static bool lie(const Case *drawn, int n)
{
    WbRoofFit fit;
    g_assert_cmpint(
        wb_roof_most(&drawn->roof, drawn->length_mm, drawn->width_mm, n, WB_ROOF_NODES, NULL, &fit),
        ==, WB_OK);
    bool do_lie = fit.most >= n;
    g_assert_true(do_lie || fit.mm_bound < n);
    wb_roof_fit_free(&fit);
    return do_lie;
}

static int most_of(const Case *drawn)
{
    int n = 0;
    while (n < 60 && lie(drawn, n + 1))
        n++;
    return n;
}

/* False: there is no such change, as a length would be less than it may be. */
static bool apply(Case *drawn, int kind, int obstacle, int64_t by_mm)
{
    WbObstacle *o = obstacle >= 0 ? &drawn->obstacle[obstacle] : NULL;
    switch (kind) {
    case WB_CHANGE_MOVE_X:
        o->x_mm += by_mm;
        return true;
    case WB_CHANGE_MOVE_Y:
        o->y_mm += by_mm;
        return true;
    case WB_CHANGE_MARGIN:
        return (drawn->roof.margin_mm -= by_mm) >= 0;
    case WB_CHANGE_GAP:
        return (drawn->roof.gap_mm -= by_mm) >= 0;
    case WB_CHANGE_CLEARANCE:
        return (o->clearance_mm -= by_mm) >= 0;
    case WB_CHANGE_PANEL_LENGTH:
        return (drawn->length_mm -= by_mm) >= 1;
    default:
        return (drawn->width_mm -= by_mm) >= 1;
    }
}

/* ---- where an obstacle may end, written anew ---- */

/* Between two shapes, squared and in half millimetres: of a rectangle's or a circle's middle. */
static int64_t reach_out(int64_t low, int64_t high, int64_t at)
{
    return at < low ? low - at : at > high ? at - high : 0;
}

static bool circle_meets_rect(const WbObstacle *c, const WbObstacle *r)
{
    int64_t dx = reach_out(2 * r->x_mm, 2 * (r->x_mm + r->length_mm), 2 * c->x_mm + c->length_mm);
    int64_t dy = reach_out(2 * r->y_mm, 2 * (r->y_mm + r->width_mm), 2 * c->y_mm + c->length_mm);
    return dx * dx + dy * dy < c->length_mm * c->length_mm;
}

static bool on_each_other(const WbObstacle *a, const WbObstacle *b)
{
    if (a->round && b->round) {
        int64_t dx = 2 * a->x_mm + a->length_mm - 2 * b->x_mm - b->length_mm;
        int64_t dy = 2 * a->y_mm + a->length_mm - 2 * b->y_mm - b->length_mm;
        int64_t sum = a->length_mm + b->length_mm;
        return dx * dx + dy * dy < sum * sum;
    }
    if (a->round || b->round)
        return a->round ? circle_meets_rect(a, b) : circle_meets_rect(b, a);
    return a->x_mm < b->x_mm + b->length_mm && b->x_mm < a->x_mm + a->length_mm &&
           a->y_mm < b->y_mm + b->width_mm && b->y_mm < a->y_mm + a->width_mm;
}

/* All of the square millimetres it touches lie inside; the drawn outlines are convex, clockwise as
 * seen with y down, so a shape is inside where its furthest point is on the right of every edge. */
static bool inside_corners(const WbRoof *roof, const WbObstacle *o)
{
    for (size_t i = 0; i < roof->n_corners; i++) {
        WbCorner a = roof->corners[i], b = roof->corners[(i + 1) % roof->n_corners];
        double ex = (double)(b.x_mm - a.x_mm), ey = (double)(b.y_mm - a.y_mm);
        double mx = (double)o->x_mm + (double)o->length_mm / 2 - (double)a.x_mm;
        double my = (double)o->y_mm + (double)o->width_mm / 2 - (double)a.y_mm;
        double half_x = (double)o->length_mm / 2, half_y = (double)o->width_mm / 2;
        double out =
            o->round ? half_x * sqrt(ex * ex + ey * ey) : half_x * fabs(ey) + half_y * fabs(ex);
        if (ex * my - ey * mx < out - 1e-9)
            return false;
    }
    return true;
}

static bool may_end(const Case *moved, int obstacle, bool along_x)
{
    const WbObstacle *o = &moved->obstacle[obstacle];
    int64_t low = along_x ? o->x_mm : o->y_mm, size = along_x ? o->length_mm : o->width_mm;
    if (low < 0 || low + size > (along_x ? moved->roof.length_mm : moved->roof.width_mm))
        return false;
    if (o->kind != WB_OBSTACLE_STANDS)
        return true;
    for (size_t i = 0; i < moved->roof.n_obstacles; i++)
        if ((int)i != obstacle && moved->obstacle[i].kind == WB_OBSTACLE_STANDS &&
            on_each_other(o, &moved->obstacle[i]))
            return false;
    return inside_corners(&moved->roof, o);
}

/* ---- every change by itself ---- */

static bool does(const Case *drawn, int n, int kind, int obstacle, int64_t by_mm)
{
    Case changed;
    copy_case(&changed, drawn);
    if (!apply(&changed, kind, obstacle, by_mm))
        return false;
    if (kind <= WB_CHANGE_MOVE_Y && !may_end(&changed, obstacle, kind == WB_CHANGE_MOVE_X))
        return false;
    return lie(&changed, n);
}

static bool can_change(const Case *drawn, int kind, int obstacle)
{
    const WbObstacle *o = &drawn->obstacle[obstacle];
    bool of_obstacle = kind <= WB_CHANGE_MOVE_Y || kind == WB_CHANGE_CLEARANCE;
    bool over = drawn->roof.over_obstacles && o->kind == WB_OBSTACLE_STANDS && o->height_mm > 0 &&
                o->height_mm < drawn->roof.standoff_mm;
    return of_obstacle
               ? obstacle < (int)drawn->roof.n_obstacles && o->kind != WB_OBSTACLE_SHADE && !over
               : obstacle == 0;
}

/* 0: none. */
static int64_t brute_least(const Case *drawn, int n, int kind)
{
    int64_t most = kind <= WB_CHANGE_MOVE_Y ? REACH : 100;
    for (int64_t by = 1; by <= most; by++)
        for (int i = 0; i < OBSTACLES; i++)
            if (can_change(drawn, kind, i) &&
                (does(drawn, n, kind, i, by) ||
                 (kind <= WB_CHANGE_MOVE_Y && does(drawn, n, kind, i, -by))))
                return by;
    return 0;
}

static void check_change(const Case *drawn, const WbRoofChange *change, int n)
{
    Case changed;
    copy_case(&changed, drawn);
    g_assert_true(apply(&changed, change->kind, change->obstacle, change->by_mm));
    if (change->kind <= WB_CHANGE_MOVE_Y)
        g_assert_true(may_end(&changed, change->obstacle, change->kind == WB_CHANGE_MOVE_X));
    g_assert_cmpint(change->n, ==, n);
    g_assert_true(wb_roof_layout_ok(&changed.roof, changed.length_mm, changed.width_mm,
                                    change->layout, n, NULL));
}

static void check_order(const WbRoofChange *change, int n)
{
    for (int i = 1; i < n; i++) {
        gboolean last_two = change[i].kind >= WB_CHANGE_PANEL_LENGTH;
        g_assert_true(last_two ? change[i].kind > change[i - 1].kind
                               : ABS(change[i].by_mm) >= ABS(change[i - 1].by_mm));
    }
}

static int compare_with_brute(const Case *drawn, int number)
{
    int n = most_of(drawn) + 1, n_changes = 0;
    WbRoofChange change[WB_ROOF_CHANGES];
    g_assert_cmpint(wb_roof_changes(&drawn->roof, drawn->length_mm, drawn->width_mm, n, REACH,
                                    50 * WB_ROOF_NODES, NULL, change, &n_changes),
                    ==, WB_OK);
    check_order(change, n_changes);
    for (int kind = 0; kind <= WB_CHANGE_PANEL_WIDTH; kind++) {
        int64_t expected = brute_least(drawn, n, kind), got = 0;
        for (int i = 0; i < n_changes; i++)
            if (change[i].kind == kind) {
                got = ABS(change[i].by_mm);
                g_assert_true(change[i].proved);
                check_change(drawn, &change[i], n);
            }
        if (got != expected)
            g_error("case %d, kind %d: %" G_GINT64_FORMAT ", not %" G_GINT64_FORMAT, number, kind,
                    got, expected);
    }
    wb_roof_changes_free(change, n_changes);
    return n_changes;
}

static void draw_obstacle(WbRandom *random, WbObstacle *o, int64_t size, bool round)
{
    *o = (WbObstacle){.name = "o",
                      .x_mm = between(random, -size / 9, size),
                      .y_mm = between(random, -size / 9, size),
                      .length_mm = between(random, 1, size / 3),
                      .width_mm = between(random, 1, size / 3),
                      .clearance_mm = between(random, 0, size / 9),
                      .height_mm = between(random, 0, 3),
                      .kind = between(random, 0, 5) % 4 % 3};
    if (round && between(random, 0, 1)) {
        o->round = true;
        o->width_mm = o->length_mm;
    }
}

static void draw_case(WbRandom *random, Case *drawn, bool slanted)
{
    int64_t size = between(random, 8, 30);
    *drawn = (Case){.roof = {.length_mm = between(random, size / 2, size),
                             .width_mm = between(random, size / 3, size),
                             .margin_mm = between(random, 0, size / 8),
                             .gap_mm = between(random, 0, size / 6),
                             .standoff_mm = between(random, 0, 3),
                             .over_obstacles = between(random, 0, 3) == 0},
                    .length_mm = between(random, size / 6 + 1, size / 2),
                    .width_mm = between(random, size / 6 + 1, size / 2)};
    drawn->roof.n_obstacles = (size_t)between(random, 0, OBSTACLES);
    for (size_t i = 0; i < drawn->roof.n_obstacles; i++)
        draw_obstacle(random, &drawn->obstacle[i], size, slanted);
    drawn->roof.obstacles = drawn->obstacle;
    if (!slanted)
        return;
    int64_t length = drawn->roof.length_mm, width = drawn->roof.width_mm;
    int64_t cut_x = between(random, 1, length / 2), cut_y = between(random, 1, width / 2);
    WbCorner corner[5] = {{cut_x, 0}, {length, 0}, {length, width}, {0, width}, {0, cut_y}};
    memcpy(drawn->corner, corner, sizeof corner);
    drawn->roof.corners = drawn->corner;
    drawn->roof.n_corners = 5;
}

static void compare_many(bool slanted, uint64_t seed, int cases)
{
    WbRandom random;
    wb_random_seed(&random, seed);
    int changes = 0;
    for (int i = 0; i < cases; i++) {
        Case drawn;
        draw_case(&random, &drawn, slanted);
        changes += compare_with_brute(&drawn, i);
    }
    g_test_message("%d roofs, %d changes", cases, changes);
    g_assert_cmpint(changes, >, 2 * cases);
}

static void test_every_smaller_change(void)
{
    compare_many(false, 20261125, CASES);
}

static void test_every_smaller_change_with_slants_and_circles(void)
{
    compare_many(true, 4, CASES / 5);
}

/* ---- known cases ---- */

/* Two panels of 1000 x 500 on a roof of 2000 x 500: the vent of 100 stands 60 from the left, so one
 * lies beside it. With the roof 2100 long the second lies once the vent is at the edge. */
static void test_vent_to_the_edge(void)
{
    WbObstacle vent = {.name = "vent", .x_mm = 60, .y_mm = 200, .length_mm = 100, .width_mm = 100};
    WbRoof roof = {.length_mm = 2100, .width_mm = 500, .obstacles = &vent, .n_obstacles = 1};
    WbRoofChange change[WB_ROOF_CHANGES];
    int n = 0;
    g_assert_cmpint(wb_roof_changes(&roof, 1000, 500, 2, 2000, WB_ROOF_NODES, NULL, change, &n), ==,
                    WB_OK);
    g_assert_cmpint(n, ==, 3); /* across there is nowhere to go that helps */
    g_assert_cmpint(change[0].kind, ==, WB_CHANGE_MOVE_X);
    g_assert_cmpint(change[0].obstacle, ==, 0);
    g_assert_cmpint(change[0].by_mm, ==, -60);
    g_assert_true(change[0].proved);
    g_assert_cmpint(change[1].kind, ==, WB_CHANGE_PANEL_LENGTH);
    g_assert_cmpint(change[1].by_mm, ==, 30); /* 1940 are left right of it */
    g_assert_cmpint(change[2].kind, ==, WB_CHANGE_PANEL_WIDTH);
    g_assert_cmpint(change[2].by_mm, ==, 250); /* two behind each other right of it */
    wb_roof_changes_free(change, n);
}

/* 2 x 1000 + 20 of gap + 2 x 30 of margin are 2080 of 2050: 30 too long. */
static void test_margin_gap_and_panel(void)
{
    WbRoof roof = {.length_mm = 2050, .width_mm = 600, .margin_mm = 30, .gap_mm = 20};
    WbRoofChange change[WB_ROOF_CHANGES];
    int n = 0;
    g_assert_cmpint(wb_roof_changes(&roof, 1000, 500, 2, 2000, WB_ROOF_NODES, NULL, change, &n), ==,
                    WB_OK);
    g_assert_cmpint(n, ==, 3);
    g_assert_cmpint(change[0].kind, ==, WB_CHANGE_MARGIN);
    g_assert_cmpint(change[0].by_mm, ==, 15);
    g_assert_cmpint(change[1].kind, ==, WB_CHANGE_PANEL_LENGTH);
    g_assert_cmpint(change[1].by_mm, ==, 15);
    g_assert_cmpint(change[2].kind, ==, WB_CHANGE_PANEL_WIDTH);
    g_assert_cmpint(change[2].by_mm, ==, 240); /* two of 260 one behind the other */
    for (int i = 0; i < n; i++)
        g_assert_true(change[i].proved);
    wb_roof_changes_free(change, n);
}

static void test_nothing_to_change(void)
{
    WbRoof roof = {.length_mm = 2000, .width_mm = 500};
    WbRoofChange change[WB_ROOF_CHANGES];
    int n = -1;
    g_assert_cmpint(wb_roof_changes(&roof, 1000, 500, 2, 2000, WB_ROOF_NODES, NULL, change, &n), ==,
                    WB_OK);
    g_assert_cmpint(n, ==, 0);
}

static void test_bad_input_and_stop(void)
{
    WbRoof roof = {.length_mm = 2000, .width_mm = 500}, bad = {.length_mm = 0, .width_mm = 500};
    WbRoofChange change[WB_ROOF_CHANGES];
    int n = 7;
    g_assert_cmpint(wb_roof_changes(&bad, 1000, 500, 2, 9, 1000, NULL, change, &n), ==,
                    WB_BAD_INPUT);
    g_assert_cmpint(wb_roof_changes(&roof, 1000, 500, 0, 9, 1000, NULL, change, &n), ==,
                    WB_BAD_INPUT);
    g_assert_cmpint(wb_roof_changes(&roof, 1000, 500, 2, -1, 1000, NULL, change, &n), ==,
                    WB_BAD_INPUT);
    g_assert_cmpint(wb_roof_changes(&roof, 1000, 0, 2, 9, 1000, NULL, change, &n), ==,
                    WB_BAD_INPUT);
    WbControl control;
    wb_control_init(&control);
    wb_control_stop(&control);
    g_assert_cmpint(wb_roof_changes(&roof, 1000, 500, 9, 9, 1000, &control, change, &n), ==,
                    WB_STOPPED);
    g_assert_cmpint(n, ==, 7);
}

/* With next to no budget there may be no change or one too large, never one that does not do. */
static void test_small_budgets_stay_honest(void)
{
    g_autoptr(GPtrArray) roofs = roof_cases();
    int unproved = 0;
    for (guint i = 0; i < roofs->len; i++) {
        const RoofCase *row = roofs->pdata[i];
        WbRoofChange change[WB_ROOF_CHANGES];
        int n = 0;
        if (row->most >= 30)
            continue;
        g_assert_cmpint(wb_roof_changes(&row->roof, row->panel_a_mm, row->panel_b_mm, row->most + 1,
                                        500, 5, NULL, change, &n),
                        ==, WB_OK);
        Case drawn = {.roof = row->roof, .length_mm = row->panel_a_mm, .width_mm = row->panel_b_mm};
        if (row->roof.n_obstacles > OBSTACLES) {
            wb_roof_changes_free(change, n);
            continue;
        }
        memcpy(drawn.obstacle, row->obstacle, row->roof.n_obstacles * sizeof *row->obstacle);
        for (int k = 0; k < n; k++) {
            check_change(&drawn, &change[k], row->most + 1);
            unproved += !change[k].proved;
        }
        wb_roof_changes_free(change, n);
    }
    g_test_message("%d not proved", unproved);
    g_assert_cmpint(unproved, >, 0);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/roof-change/vent-to-the-edge", test_vent_to_the_edge);
    g_test_add_func("/roof-change/margin-gap-and-panel", test_margin_gap_and_panel);
    g_test_add_func("/roof-change/nothing-to-change", test_nothing_to_change);
    g_test_add_func("/roof-change/bad-input-and-stop", test_bad_input_and_stop);
    g_test_add_func("/roof-change/small-budgets-stay-honest", test_small_budgets_stay_honest);
    g_test_add_func("/roof-change/every-smaller-change", test_every_smaller_change);
    g_test_add_func("/roof-change/every-smaller-change-with-slants-and-circles",
                    test_every_smaller_change_with_slants_and_circles);
    return g_test_run();
}
