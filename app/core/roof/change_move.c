/* The shifts that let the panels lie are not one range, so halving alone would miss some. But what
 * all positions of the obstacle in a range of shifts have in common blocks at each of them: where
 * the panels do not lie even round this common part, no shift of the range does, and the range is
 * done with one question. Else it is halved, the nearer half first; one shift alone is asked as it
 * is. Before that, the obstacle is taken away: what does not fit then is helped by no move.
 * Every layout found is first held against all shifts of its range: it may fit one already. */
#include "change_move.h"
#include "change_press.h"
#include "change_shift.h"
#include "plain_roof.h"
#include "stairs.h"
#include <stdlib.h>
#include <string.h>

/* Of a circle's strips in the common part of its positions. */
enum { STEP_MAX_MM = 64, ROWS_MAX = 512 };

/* Shifts for which a layout is pressed. */
enum { PRESSED = 32 };

/* The first shifts looked at, then so many times as far. */
enum { FIRST_MM = 16, FARTHER = 3 };

/* Shifts tried where the budget did not do, with so many nodes each. */
enum { SAMPLES = 8, SAMPLE_NODES = 100 };

typedef struct {
    WbAsker *asker;
    WbMove move;
    const int64_t *shift; /* ascending */
    bool lie_without;     /* the panels do, with the obstacle gone */
    WbRoofChange *best;
    int64_t *least_open_mm; /* shift not decided, of this axis */
} Mover;

static void take(Mover *mover, int64_t by_mm, WbRect *layout)
{
    free(mover->best->layout);
    *mover->best = (WbRoofChange){.kind = mover->move.along_x ? WB_CHANGE_MOVE_X : WB_CHANGE_MOVE_Y,
                                  .obstacle = mover->move.obstacle,
                                  .by_mm = mover->move.sign * by_mm,
                                  .layout = layout,
                                  .n = mover->asker->n_panels};
}

static int64_t best_mm(const Mover *mover)
{
    return mover->best->n == 0 ? INT64_MAX : llabs(mover->best->by_mm);
}

static void leave_open(Mover *mover, int64_t by_mm)
{
    if (by_mm < *mover->least_open_mm)
        *mover->least_open_mm = by_mm;
}

/* ---- the roof with the obstacle elsewhere ---- */

/* All others, and room for n_more; free its obstacles. */
static WbStatus others_of(const Mover *mover, size_t n_more, WbRoof *changed, WbObstacle **all)
{
    const WbRoof *roof = mover->move.roof;
    size_t at = (size_t)mover->move.obstacle, after = roof->n_obstacles - at - 1;
    *all = malloc((roof->n_obstacles + n_more) * sizeof **all);
    if (!*all)
        return WB_NO_MEMORY;
    memcpy(*all, roof->obstacles, at * sizeof **all);
    memcpy(*all + at, roof->obstacles + at + 1, after * sizeof **all);
    *changed = *roof;
    changed->obstacles = *all;
    changed->n_obstacles = at + after;
    return WB_OK;
}

/* What a zone that moves from_mm..to_mm never leaves, as an obstacle; false: nothing. */
static bool common_part(const WbMove *move, WbZone zone, int64_t from_mm, int64_t to_mm,
                        WbObstacle *part)
{
    int64_t low_mm = move->sign > 0 ? to_mm : -from_mm;
    int64_t high_mm = move->sign > 0 ? from_mm : -to_mm;
    if (move->along_x) {
        zone.left_mm += low_mm;
        zone.right_mm += high_mm;
    } else {
        zone.front_mm += low_mm;
        zone.back_mm += high_mm;
    }
    *part = (WbObstacle){.name = "",
                         .x_mm = zone.left_mm,
                         .y_mm = zone.front_mm,
                         .length_mm = zone.right_mm - zone.left_mm,
                         .width_mm = zone.back_mm - zone.front_mm,
                         .kind = WB_OBSTACLE_WALKWAY};
    return part->length_mm > 0 && part->width_mm > 0;
}

static WbStatus round_range(const Mover *mover, int64_t from_mm, int64_t to_mm, WbRoof *changed,
                            WbObstacle **all)
{
    const WbObstacle *round = &mover->move.roof->obstacles[mover->move.obstacle];
    int64_t step_mm = (to_mm - from_mm) / 4;
    step_mm = step_mm < 1 ? 1 : step_mm > STEP_MAX_MM ? STEP_MAX_MM : step_mm;
    WbStairRows rows = {0};
    bool exact;
    WbStatus status = wb_stairs_circle(&rows, round, WB_PLAIN_OUTER, step_mm, ROWS_MAX, &exact);
    WbRect *rect = status == WB_OK ? malloc((rows.n_spans + 1) * sizeof *rect) : NULL;
    if (status == WB_OK && !rect)
        status = WB_NO_MEMORY;
    if (status == WB_OK)
        status = others_of(mover, rows.n_spans + 1, changed, all);
    size_t n = status == WB_OK ? wb_stairs_rects(&rows, rect) : 0;
    for (size_t i = 0; i < n; i++) {
        WbObstacle strip = {.x_mm = rect[i].x_mm,
                            .y_mm = rect[i].y_mm,
                            .length_mm = rect[i].length_mm,
                            .width_mm = rect[i].width_mm,
                            .clearance_mm = round->clearance_mm};
        if (common_part(&mover->move, wb_obstacle_zone(&strip), from_mm, to_mm,
                        &(*all)[changed->n_obstacles]))
            changed->n_obstacles++;
    }
    free(rect);
    wb_stairs_free(&rows);
    return status;
}

static WbStatus range_roof(const Mover *mover, int64_t from_mm, int64_t to_mm, WbRoof *changed,
                           WbObstacle **all)
{
    const WbObstacle *obstacle = &mover->move.roof->obstacles[mover->move.obstacle];
    if (obstacle->round && from_mm < to_mm)
        return round_range(mover, from_mm, to_mm, changed, all);
    WbStatus status = others_of(mover, 1, changed, all);
    if (status != WB_OK)
        return status;
    WbObstacle *part = &(*all)[changed->n_obstacles];
    if (from_mm == to_mm) {
        *part = wb_moved(&mover->move, from_mm);
        changed->n_obstacles++;
    } else if (common_part(&mover->move, wb_obstacle_zone(obstacle), from_mm, to_mm, part)) {
        changed->n_obstacles++;
    }
    return WB_OK;
}

/* Nothing is common to all positions: as good as no obstacle. */
static bool nothing_common(const Mover *mover, int64_t from_mm, int64_t to_mm)
{
    const WbObstacle *obstacle = &mover->move.roof->obstacles[mover->move.obstacle];
    WbObstacle part;
    return from_mm < to_mm &&
           !common_part(&mover->move, wb_obstacle_zone(obstacle), from_mm, to_mm, &part);
}

/* A YES that was known before comes without a layout. */
static WbAsked ask_range(const Mover *mover, int64_t from_mm, int64_t to_mm, WbRect **layout)
{
    WbRoof changed;
    WbObstacle *all = NULL;
    *layout = NULL;
    if (mover->lie_without && nothing_common(mover, from_mm, to_mm))
        return WB_ASKED_YES;
    WbStatus status = range_roof(mover, from_mm, to_mm, &changed, &all);
    if (status != WB_OK)
        mover->asker->status = status;
    WbAsked asked = status == WB_OK ? wb_ask(mover->asker, &changed, layout) : WB_ASKED_OPEN;
    free(all);
    return asked;
}

/* ---- the search ---- */

/* The panels are clear of all else already. */
static bool clear_of_moved(const Mover *mover, int64_t by_mm, const WbRect *layout)
{
    WbObstacle moved = wb_moved(&mover->move, by_mm);
    WbRoof only = *mover->move.roof;
    only.margin_mm = 0;
    only.n_corners = 0;
    only.obstacles = &moved;
    only.n_obstacles = 1;
    for (int i = 0; i < mover->asker->n_panels; i++)
        if (!wb_roof_place_ok(&only, &layout[i]))
            return false;
    return true;
}

static bool press_at(const Mover *mover, int64_t by_mm, const WbRect *layout, WbRect *pressed)
{
    WbRoof changed;
    WbObstacle *all = NULL;
    const WbAsker *asker = mover->asker;
    WbPanelSize size = {asker->panel_length_mm, asker->panel_width_mm};
    bool lies = range_roof(mover, by_mm, by_mm, &changed, &all) == WB_OK &&
                wb_press_layout(&changed, size, size, layout, asker->n_panels, pressed);
    free(all);
    return lies;
}

/* The first shift of first..last at which this layout lies, as it is or pressed, becomes the best.
 */
static void try_layout(Mover *mover, size_t first, size_t last, const WbRect *layout)
{
    size_t size = (size_t)mover->asker->n_panels * sizeof *layout;
    WbRect *copy = malloc(size);
    if (!copy) {
        mover->asker->status = WB_NO_MEMORY;
        return;
    }
    size_t every = (last - first) / PRESSED + 1;
    for (size_t i = first; i <= last && mover->shift[i] < best_mm(mover); i++) {
        if (clear_of_moved(mover, mover->shift[i], layout))
            memcpy(copy, layout, size);
        else if ((i - first) % every != 0 || !press_at(mover, mover->shift[i], layout, copy))
            continue;
        take(mover, mover->shift[i], copy);
        return;
    }
    free(copy);
}

static void search(Mover *mover, size_t first, size_t last)
{
    while (last > first && mover->shift[last] >= best_mm(mover))
        last--;
    int64_t from_mm = mover->shift[first], to_mm = mover->shift[last];
    if (mover->asker->status != WB_OK || from_mm >= best_mm(mover))
        return;
    if (mover->asker->left == 0) {
        leave_open(mover, from_mm);
        return;
    }
    WbRect *layout;
    WbAsked asked = ask_range(mover, from_mm, to_mm, &layout);
    if (layout)
        try_layout(mover, first, last, layout);
    free(layout);
    if (asked == WB_ASKED_NO)
        return;
    if (first == last) {
        if (asked == WB_ASKED_OPEN)
            leave_open(mover, from_mm);
        return;
    }
    size_t middle = first + (last - first) / 2;
    search(mover, first, middle);
    search(mover, middle + 1, last);
}

/* The shifts above low_mm up to high_mm. `without`: panels on the roof without the obstacle; NULL:
 * not decided. `quick`: only that layout is tried. */
static void search_direction(Mover *mover, int64_t low_mm, int64_t high_mm, const WbRect *without,
                             bool quick)
{
    int64_t *shift;
    size_t n, first = 0;
    WbAsker *asker = mover->asker;
    if (best_mm(mover) <= high_mm)
        high_mm = best_mm(mover) - 1;
    if (high_mm <= low_mm)
        return;
    asker->status = wb_move_shifts(&mover->move, asker->panel_length_mm, asker->panel_width_mm,
                                   high_mm, &shift, &n);
    while (asker->status == WB_OK && first < n && shift[first] <= low_mm)
        first++;
    if (asker->status == WB_OK && first < n) {
        mover->shift = shift;
        mover->lie_without = without != NULL;
        if (without)
            try_layout(mover, first, n - 1, without);
        if (!quick)
            search(mover, first, n - 1);
    }
    free(shift);
}

static WbAsked ask_without(WbAsker *asker, const WbRoof *roof, int obstacle, WbRect **layout)
{
    Mover mover = {.asker = asker, .move = {.roof = roof, .obstacle = obstacle}};
    WbRoof changed;
    WbObstacle *all = NULL;
    *layout = NULL;
    WbStatus status = others_of(&mover, 0, &changed, &all);
    if (status != WB_OK)
        asker->status = status;
    WbAsked asked = status == WB_OK ? wb_ask(asker, &changed, layout) : WB_ASKED_OPEN;
    free(all);
    return asked;
}

/* ---- where the budget did not do ---- */

/* Some shifts, evenly over all of them: the first at which a layout is found at once. */
static void sample(Mover *mover, int64_t reach_mm)
{
    int64_t *shift;
    size_t n;
    WbAsker *asker = mover->asker;
    asker->status = wb_move_shifts(&mover->move, asker->panel_length_mm, asker->panel_width_mm,
                                   reach_mm, &shift, &n);
    for (size_t k = 1; asker->status == WB_OK && asker->left > 0 && n > 0 && k <= SAMPLES; k++) {
        size_t at = (n - 1) * k / SAMPLES;
        if (shift[at] >= best_mm(mover))
            break;
        WbRect *layout;
        if (ask_range(mover, shift[at], shift[at], &layout) == WB_ASKED_YES)
            take(mover, shift[at], layout);
    }
    free(shift);
}

/* A move that does, if not the least, is worth more than none. */
static void sample_axis(const WbAsker *asker, const WbRoof *roof, int axis, int64_t reach_mm,
                        WbAsker *quick, WbRoofChange *best)
{
    int64_t unused = INT64_MAX;
    *quick = *asker;
    quick->share = SAMPLE_NODES;
    quick->left = asker->share;
    for (int i = 0; i < (int)roof->n_obstacles && quick->status == WB_OK && quick->left > 0; i++)
        for (int sign = 1; sign >= -1 && wb_obstacle_blocks(roof, &roof->obstacles[i]); sign -= 2) {
            Mover mover = {.asker = quick,
                           .move = {roof, i, axis == 0, sign},
                           .best = best,
                           .least_open_mm = &unused};
            if (quick->status == WB_OK)
                sample(&mover, reach_mm);
        }
}

/* ---- all obstacles ---- */

typedef struct {
    WbAsker *asker;
    const WbRoof *roof;
    int64_t reach_mm;
    WbRoofChange *best;
    int64_t *least_open_mm;
    uint8_t *may;     /* [obstacle]: its move may help */
    WbRect **without; /* [obstacle]: a layout with it gone, where one is known */
} Search;

static void search_obstacle(const Search *all, int obstacle, int64_t low_mm, int64_t high_mm,
                            bool quick)
{
    for (int k = 0; k < 4 && all->asker->status == WB_OK; k++) {
        Mover mover = {.asker = all->asker,
                       .move = {all->roof, obstacle, k < 2, k % 2 == 0 ? 1 : -1},
                       .best = &all->best[k / 2],
                       .least_open_mm = &all->least_open_mm[k / 2]};
        search_direction(&mover, low_mm, high_mm, all->without[obstacle], quick);
    }
}

/* False: the budget is spent. */
static bool look_without(const Search *all)
{
    for (int i = 0; i < (int)all->roof->n_obstacles && all->asker->status == WB_OK; i++) {
        if (!wb_obstacle_blocks(all->roof, &all->roof->obstacles[i]))
            continue;
        if (all->asker->left == 0)
            return false;
        if (ask_without(all->asker, all->roof, i, &all->without[i]) == WB_ASKED_NO)
            continue;
        all->may[i] = 1;
        search_obstacle(all, i, 0, all->reach_mm, true);
    }
    return true;
}

/* Near shifts of every obstacle before far ones of any: what is found near ends the search. */
static void search_all(const Search *all)
{
    if (!look_without(all)) {
        all->least_open_mm[0] = all->least_open_mm[1] = 1;
        return;
    }
    for (int64_t low_mm = 0, high_mm = FIRST_MM; low_mm < all->reach_mm;
         low_mm = high_mm, high_mm *= FARTHER) {
        if (high_mm > all->reach_mm)
            high_mm = all->reach_mm;
        for (int i = 0; i < (int)all->roof->n_obstacles && all->asker->status == WB_OK; i++)
            if (all->may[i])
                search_obstacle(all, i, low_mm, high_mm, false);
    }
}

static void search_moves(Search *all)
{
    size_t n = all->roof->n_obstacles;
    all->may = calloc(n + 1, sizeof *all->may);
    all->without = calloc(n + 1, sizeof *all->without);
    if (all->may && all->without)
        search_all(all);
    else
        all->asker->status = WB_NO_MEMORY;
    for (size_t i = 0; all->without && i < n; i++)
        free(all->without[i]);
    free(all->without);
    free(all->may);
}

void wb_least_moves(WbAsker *asker, const WbRoof *roof, int64_t reach_mm, WbRoofChange best[2])
{
    int64_t least_open_mm[2] = {INT64_MAX, INT64_MAX};
    best[0] = best[1] = (WbRoofChange){0};
    search_moves(&(Search){asker, roof, reach_mm, best, least_open_mm, NULL, NULL});
    for (int axis = 0; axis < 2 && asker->status == WB_OK; axis++) {
        WbAsker quick;
        if (best[axis].n > 0 || least_open_mm[axis] == INT64_MAX)
            continue;
        sample_axis(asker, roof, axis, reach_mm, &quick, &best[axis]);
        asker->status = quick.status;
    }
    for (int axis = 0; axis < 2; axis++)
        best[axis].proved = best[axis].n > 0 && least_open_mm[axis] >= llabs(best[axis].by_mm);
}
