/* In a layout pushed to the left and to the front every panel rests, on its left, against the
 * usable edge, an obstacle or another panel of the layout, and likewise in front. A place with
 * nothing to rest against is in no such layout; closing it may leave others without support, and so
 * on. */
#include "roof_grid.h"
#include <stdlib.h>
#include <string.h>

typedef struct {
    const WbRoofGrid *grid;
    uint8_t *left, *front;   /* [place]: rests against edge or obstacle */
    int *down[2], *along[2]; /* by turn: open places before, as last counted */
} Rests;

static void rest_on_edges(Rests *rests)
{
    const WbRoofGrid *grid = rests->grid;
    int first[2] = {0, 1}, columns[2] = {0, grid->x.n}, rows[2] = {0, grid->y.n};
    for (int turn = 0; turn < grid->turns; turn++) {
        wb_grid_set_block(grid, rests->left, turn, first, rows, 1);
        wb_grid_set_block(grid, rests->front, turn, columns, first, 1);
    }
}

/* The line at exactly at_mm as a range, empty where there is none. */
static void line_at(const WbAxis *axis, int64_t at_mm, int line[2])
{
    line[0] = line[1] = wb_axis_at_or_past(axis, at_mm);
    if (line[0] < axis->n && axis->at_mm[line[0]] == at_mm)
        line[1]++;
}

static void rest_on_obstacle(Rests *rests, WbZone zone)
{
    const WbRoofGrid *grid = rests->grid;
    WbZone usable = grid->usable;
    for (int turn = 0; turn < grid->turns; turn++) {
        int column[2], row[2];
        line_at(&grid->x, zone.right_mm - usable.left_mm, column);
        wb_axis_starts_inside(&grid->y, zone.front_mm - usable.front_mm,
                              zone.back_mm - usable.front_mm, grid->width_mm[turn], row);
        wb_grid_set_block(grid, rests->left, turn, column, row, 1);
        line_at(&grid->y, zone.back_mm - usable.front_mm, row);
        wb_axis_starts_inside(&grid->x, zone.left_mm - usable.left_mm,
                              zone.right_mm - usable.left_mm, grid->length_mm[turn], column);
        wb_grid_set_block(grid, rests->front, turn, column, row, 1);
    }
}

/* Line at which a grown panel of that turn starts that ends exactly at `line`. -1: none. */
static int start_ending_at(const WbAxis *axis, int turn, int64_t grown_mm, int line)
{
    int start = axis->from[turn][line] - 1;
    return start >= 0 && axis->at_mm[start] + grown_mm == axis->at_mm[line] ? start : -1;
}

static bool rests_left_on_panel(const Rests *rests, int64_t gap_mm, int turn, int i, int j)
{
    const WbRoofGrid *grid = rests->grid;
    for (int other = 0; other < grid->turns; other++) {
        int column = start_ending_at(&grid->x, other, grid->length_mm[other] + gap_mm, i);
        if (column < 0)
            continue;
        const int *down = rests->down[other] + column;
        if (down[grid->y.end[turn][j] * grid->x.n] > down[grid->y.from[other][j] * grid->x.n])
            return true;
    }
    return false;
}

static bool rests_in_front_on_panel(const Rests *rests, int64_t gap_mm, int turn, int i, int j)
{
    const WbRoofGrid *grid = rests->grid;
    for (int other = 0; other < grid->turns; other++) {
        int row = start_ending_at(&grid->y, other, grid->width_mm[other] + gap_mm, j);
        if (row < 0)
            continue;
        const int *along = rests->along[other] + (size_t)row * (grid->x.n + 1);
        if (along[grid->x.end[turn][i]] > along[grid->x.from[other][i]])
            return true;
    }
    return false;
}

/* Open places further in front in a column, counted on to the next row. */
static void count_down(Rests *rests, int turn, int i)
{
    const WbRoofGrid *grid = rests->grid;
    const uint8_t *open = grid->open + (size_t)turn * grid->points + i;
    int *down = rests->down[turn] + i, n = 0;
    for (int j = 0; j < grid->y.n; j++) {
        n += open[(size_t)j * grid->x.n];
        down[(size_t)(j + 1) * grid->x.n] = n;
    }
}

/* Open places further left in a row. */
static void count_along(Rests *rests, int turn, int j)
{
    const WbRoofGrid *grid = rests->grid;
    const uint8_t *open = grid->open + (size_t)turn * grid->points + (size_t)j * grid->x.n;
    int *along = rests->along[turn] + (size_t)j * (grid->x.n + 1), n = 0;
    for (int i = 0; i < grid->x.n; i++) {
        n += open[i];
        along[i + 1] = n;
    }
}

/* Column after column: what stands left of one was looked at before. True while places went. */
static bool close_without_left(Rests *rests, int64_t gap_mm)
{
    const WbRoofGrid *grid = rests->grid;
    bool closed = false;
    for (int i = 0; i < grid->x.n; i++)
        for (int turn = 0; turn < grid->turns; turn++) {
            for (int j = 0; j < grid->y.n; j++) {
                int place = turn * grid->points + j * grid->x.n + i;
                if (!grid->open[place] || rests->left[place] ||
                    rests_left_on_panel(rests, gap_mm, turn, i, j))
                    continue;
                grid->open[place] = 0;
                closed = true;
            }
            count_down(rests, turn, i);
        }
    return closed;
}

static bool close_without_front(Rests *rests, int64_t gap_mm)
{
    const WbRoofGrid *grid = rests->grid;
    bool closed = false;
    for (int j = 0; j < grid->y.n; j++)
        for (int turn = 0; turn < grid->turns; turn++) {
            for (int i = 0; i < grid->x.n; i++) {
                int place = turn * grid->points + j * grid->x.n + i;
                if (!grid->open[place] || rests->front[place] ||
                    rests_in_front_on_panel(rests, gap_mm, turn, i, j))
                    continue;
                grid->open[place] = 0;
                closed = true;
            }
            count_along(rests, turn, j);
        }
    return closed;
}

static WbStatus init_rests(Rests *rests)
{
    const WbRoofGrid *grid = rests->grid;
    size_t columns = (size_t)grid->x.n, rows = (size_t)grid->y.n;
    bool all = true;
    rests->left = calloc(wb_grid_places(grid), 1);
    rests->front = calloc(wb_grid_places(grid), 1);
    for (int turn = 0; turn < grid->turns; turn++) {
        rests->down[turn] = calloc(columns * (rows + 1), sizeof *rests->down[turn]);
        rests->along[turn] = calloc((columns + 1) * rows, sizeof *rests->along[turn]);
        all = all && rests->down[turn] && rests->along[turn];
    }
    return all && rests->left && rests->front ? WB_OK : WB_NO_MEMORY;
}

static WbStatus close_all_unsupported(WbRoofGrid *grid, const WbRoof *roof)
{
    Rests rests = {.grid = grid};
    WbStatus status = init_rests(&rests);
    if (status == WB_OK) {
        rest_on_edges(&rests);
        for (size_t i = 0; i < roof->n_obstacles; i++)
            rest_on_obstacle(&rests, wb_obstacle_zone(&roof->obstacles[i]));
        for (bool closed = true; closed;) {
            closed = close_without_left(&rests, roof->gap_mm);
            closed = close_without_front(&rests, roof->gap_mm) || closed;
        }
    }
    free(rests.left);
    free(rests.front);
    for (int turn = 0; turn < 2; turn++) {
        free(rests.down[turn]);
        free(rests.along[turn]);
    }
    return status;
}

/* Keeps the lines in use; the links are made anew. Answers how many are left. */
static int keep_lines(WbAxis *axis, const uint8_t *used, const int64_t grown_mm[2], int turns)
{
    int n = 0;
    for (int i = 0; i < axis->n; i++)
        if (used[i])
            axis->at_mm[n++] = axis->at_mm[i];
    axis->n = n;
    for (int turn = 0; turn < turns; turn++)
        wb_axis_link(axis, turn, grown_mm[turn]);
    return n;
}

static void find_used(const WbRoofGrid *grid, uint8_t *columns, uint8_t *rows)
{
    const uint8_t *open = grid->open;
    for (int turn = 0; turn < grid->turns; turn++)
        for (int j = 0; j < grid->y.n; j++, open += grid->x.n)
            for (int i = 0; i < grid->x.n; i++)
                if (open[i])
                    columns[i] = rows[j] = 1;
}

/* In place: every place moves to a lower number or stays. */
static void pack_places(WbRoofGrid *grid, const uint8_t *columns, const uint8_t *rows)
{
    const uint8_t *open = grid->open;
    uint8_t *packed = grid->open;
    for (int turn = 0; turn < grid->turns; turn++)
        for (int j = 0; j < grid->y.n; j++, open += grid->x.n)
            for (int i = 0; rows[j] && i < grid->x.n; i++)
                if (columns[i])
                    *packed++ = open[i];
}

WbStatus wb_grid_drop_lines(WbRoofGrid *grid, int64_t gap_mm)
{
    uint8_t *columns = calloc(grid->x.n, 1), *rows = calloc(grid->y.n, 1);
    WbStatus status = columns && rows ? WB_OK : WB_NO_MEMORY;
    if (status == WB_OK) {
        find_used(grid, columns, rows);
        columns[0] = rows[0] = 1; /* a grid is never empty */
        int64_t along_mm[2] = {grid->length_mm[0] + gap_mm, grid->length_mm[1] + gap_mm};
        int64_t across_mm[2] = {grid->width_mm[0] + gap_mm, grid->width_mm[1] + gap_mm};
        pack_places(grid, columns, rows);
        grid->points = keep_lines(&grid->x, columns, along_mm, grid->turns) *
                       keep_lines(&grid->y, rows, across_mm, grid->turns);
    }
    free(columns);
    free(rows);
    return status;
}

WbStatus wb_grid_prune(WbRoofGrid *grid, const WbRoof *roof)
{
    WbStatus status = close_all_unsupported(grid, roof);
    return status == WB_OK ? wb_grid_drop_lines(grid, roof->gap_mm) : status;
}
