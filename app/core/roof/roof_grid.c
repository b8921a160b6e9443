#include "roof_grid.h"
#include <stdlib.h>
#include <string.h>

enum { BASE = 1, ROW_OF_TURN = 2 }; /* ROW_OF_TURN << turn */

/* One direction, while its lines are looked for. */
typedef struct {
    int64_t edge_mm, room_mm;    /* usable edge and length */
    int64_t panel_mm[2], gap_mm; /* by turn */
    int turns;
} Direction;

static int64_t last_start_mm(const Direction *direction)
{
    int64_t shortest_mm = direction->panel_mm[0];
    if (direction->turns == 2 && direction->panel_mm[1] < shortest_mm)
        shortest_mm = direction->panel_mm[1];
    return direction->room_mm - shortest_mm;
}

static void mark_sums(uint8_t *mark, const Direction *direction, int64_t last_mm, bool thin)
{
    for (int64_t at = 0; at <= last_mm; at++) {
        for (int turn = 0; mark[at] && turn < direction->turns; turn++) {
            int64_t next = at + direction->panel_mm[turn] + direction->gap_mm;
            int row = ROW_OF_TURN << turn;
            if (next <= last_mm && (!thin || (mark[at] & (BASE | row))))
                mark[next] |= row;
        }
    }
}

static WbStatus collect_lines(WbAxis *axis, const uint8_t *mark, int64_t last_mm, bool thin)
{
    int n = 0, every = 1, seen = 0;
    for (int64_t at = 0; at <= last_mm; at++)
        n += mark[at] != 0;
    if (thin)
        every += n / WB_GRID_THIN_LINES;
    axis->at_mm = malloc(n * sizeof *axis->at_mm); /* line 0 is always marked */
    if (!axis->at_mm)
        return WB_NO_MEMORY;
    axis->n = 0;
    for (int64_t at = 0; at <= last_mm; at++)
        if (mark[at] && seen++ % every == 0)
            axis->at_mm[axis->n++] = at;
    return WB_OK;
}

/* ends_mm: right or back edges of the obstacles' zones, in roof coordinates. */
static WbStatus find_lines(WbAxis *axis, const Direction *direction, const int64_t *ends_mm,
                           size_t n_ends, bool thin)
{
    int64_t last_mm = last_start_mm(direction);
    uint8_t *mark = calloc(last_mm + 1, 1);
    if (!mark)
        return WB_NO_MEMORY;
    mark[0] = BASE;
    for (size_t i = 0; i < n_ends; i++) {
        int64_t at = ends_mm[i] - direction->edge_mm;
        if (at > 0 && at <= last_mm)
            mark[at] |= BASE;
    }
    mark_sums(mark, direction, last_mm, thin);
    WbStatus status = collect_lines(axis, mark, last_mm, thin);
    free(mark);
    return status;
}

void wb_axis_link(WbAxis *axis, int turn, int64_t grown_mm)
{
    int past = 0, first = 0;
    for (int i = 0; i < axis->n; i++) {
        while (past < axis->n && axis->at_mm[past] < axis->at_mm[i] + grown_mm)
            past++;
        while (axis->at_mm[first] + grown_mm <= axis->at_mm[i])
            first++;
        axis->end[turn][i] = past;
        axis->from[turn][i] = first;
    }
}

static WbStatus link_lines(WbAxis *axis, const Direction *direction)
{
    for (int turn = 0; turn < direction->turns; turn++) {
        axis->end[turn] = malloc(axis->n * sizeof *axis->end[turn]);
        axis->from[turn] = malloc(axis->n * sizeof *axis->from[turn]);
        if (!axis->end[turn] || !axis->from[turn])
            return WB_NO_MEMORY;
        wb_axis_link(axis, turn, direction->panel_mm[turn] + direction->gap_mm);
    }
    return WB_OK;
}

int wb_axis_at_or_past(const WbAxis *axis, int64_t wanted_mm)
{
    int low = 0, high = axis->n;
    while (low < high) {
        int middle = (low + high) / 2;
        if (axis->at_mm[middle] < wanted_mm)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

void wb_grid_set_block(const WbRoofGrid *grid, uint8_t *open, int turn, const int column[2],
                       const int row[2], int value)
{
    if (column[0] >= column[1])
        return;
    for (int j = row[0]; j < row[1]; j++)
        memset(open + (size_t)turn * grid->points + (size_t)j * grid->x.n + column[0], value,
               column[1] - column[0]);
}

void wb_axis_starts_inside(const WbAxis *axis, int64_t low_mm, int64_t high_mm, int64_t panel_mm,
                           int start[2])
{
    start[0] = wb_axis_at_or_past(axis, low_mm - panel_mm + 1);
    start[1] = wb_axis_at_or_past(axis, high_mm);
}

static void mark_open(WbRoofGrid *grid, const WbRoof *roof)
{
    WbZone usable = grid->usable;
    for (int turn = 0; turn < grid->turns; turn++) {
        int64_t length_mm = grid->length_mm[turn], width_mm = grid->width_mm[turn];
        int column[2] = {
            0, wb_axis_at_or_past(&grid->x, usable.right_mm - usable.left_mm - length_mm + 1)};
        int row[2] = {
            0, wb_axis_at_or_past(&grid->y, usable.back_mm - usable.front_mm - width_mm + 1)};
        wb_grid_set_block(grid, grid->open, turn, column, row, 1);
        for (size_t i = 0; i < roof->n_obstacles; i++) {
            WbZone zone = wb_obstacle_zone(&roof->obstacles[i]);
            wb_axis_starts_inside(&grid->x, zone.left_mm - usable.left_mm,
                                  zone.right_mm - usable.left_mm, length_mm, column);
            wb_axis_starts_inside(&grid->y, zone.front_mm - usable.front_mm,
                                  zone.back_mm - usable.front_mm, width_mm, row);
            wb_grid_set_block(grid, grid->open, turn, column, row, 0);
        }
    }
}

static WbStatus open_places(WbRoofGrid *grid, const WbRoof *roof)
{
    if ((int64_t)grid->x.n * grid->y.n > WB_GRID_POINTS_MAX)
        return WB_BUDGET;
    grid->points = grid->x.n * grid->y.n;
    grid->open = calloc(wb_grid_places(grid), 1);
    if (!grid->open)
        return WB_NO_MEMORY;
    mark_open(grid, roof);
    return WB_OK;
}

/* Whether no panel can rest against a zone's right side (along), or its back: another zone reaches
 * over all of it. */
static bool hidden(const WbZone *zones, size_t n, size_t i, bool along)
{
    WbZone zone = zones[i];
    for (size_t k = 0; k < n; k++) {
        WbZone other = zones[k];
        if (along ? other.left_mm <= zone.right_mm && other.right_mm > zone.right_mm &&
                        other.front_mm <= zone.front_mm && other.back_mm >= zone.back_mm
                  : other.front_mm <= zone.back_mm && other.back_mm > zone.back_mm &&
                        other.left_mm <= zone.left_mm && other.right_mm >= zone.right_mm)
            return true;
    }
    return false;
}

/* Where panels may rest against zones, along and across; answers how many of each. */
static void find_ends(const WbZone *zones, size_t n, int64_t *ends_mm[2], size_t n_ends[2])
{
    n_ends[0] = n_ends[1] = 0;
    for (size_t i = 0; i < n; i++) {
        if (!hidden(zones, n, i, true))
            ends_mm[0][n_ends[0]++] = zones[i].right_mm;
        if (!hidden(zones, n, i, false))
            ends_mm[1][n_ends[1]++] = zones[i].back_mm;
    }
}

static WbStatus build_axes(WbRoofGrid *grid, const WbRoof *roof, bool thin)
{
    size_t n = roof->n_obstacles;
    int64_t *ends_mm = malloc((2 * n + 1) * sizeof *ends_mm);
    WbZone *zones = malloc((n + 1) * sizeof *zones);
    if (!ends_mm || !zones) {
        free(ends_mm);
        free(zones);
        return WB_NO_MEMORY;
    }
    for (size_t i = 0; i < n; i++)
        zones[i] = wb_obstacle_zone(&roof->obstacles[i]);
    int64_t *end_of[2] = {ends_mm, ends_mm + n};
    size_t n_ends[2];
    find_ends(zones, n, end_of, n_ends);
    WbZone usable = grid->usable;
    Direction along = {usable.left_mm,
                       usable.right_mm - usable.left_mm,
                       {grid->length_mm[0], grid->length_mm[1]},
                       roof->gap_mm,
                       grid->turns};
    Direction across = {usable.front_mm,
                        usable.back_mm - usable.front_mm,
                        {grid->width_mm[0], grid->width_mm[1]},
                        roof->gap_mm,
                        grid->turns};
    WbStatus status = find_lines(&grid->x, &along, end_of[0], n_ends[0], thin);
    if (status == WB_OK)
        status = find_lines(&grid->y, &across, end_of[1], n_ends[1], thin);
    if (status == WB_OK)
        status = link_lines(&grid->x, &along);
    if (status == WB_OK)
        status = link_lines(&grid->y, &across);
    free(ends_mm);
    free(zones);
    return status;
}

WbStatus wb_grid_build(WbRoofGrid *grid, const WbRoof *roof, int64_t panel_length_mm,
                       int64_t panel_width_mm, bool thin)
{
    *grid = (WbRoofGrid){.turns = panel_length_mm == panel_width_mm ? 1 : 2,
                         .length_mm = {panel_length_mm, panel_width_mm},
                         .width_mm = {panel_width_mm, panel_length_mm},
                         .usable = wb_roof_usable(roof)};
    WbStatus status = build_axes(grid, roof, thin);
    if (status == WB_OK)
        status = open_places(grid, roof);
    if (status != WB_OK)
        wb_grid_free(grid);
    return status;
}

void wb_grid_free(WbRoofGrid *grid)
{
    WbAxis *axes[2] = {&grid->x, &grid->y};
    for (int i = 0; i < 2; i++) {
        free(axes[i]->at_mm);
        for (int turn = 0; turn < 2; turn++) {
            free(axes[i]->end[turn]);
            free(axes[i]->from[turn]);
        }
    }
    free(grid->open);
    *grid = (WbRoofGrid){0};
}

WbRect wb_grid_rect(const WbRoofGrid *grid, int place)
{
    int turn = place / grid->points, point = place % grid->points;
    return (WbRect){grid->usable.left_mm + grid->x.at_mm[point % grid->x.n],
                    grid->usable.front_mm + grid->y.at_mm[point / grid->x.n], grid->length_mm[turn],
                    grid->width_mm[turn]};
}

void wb_grid_close(const WbRoofGrid *grid, uint8_t *open, int place)
{
    int turn = place / grid->points, point = place % grid->points;
    int i = point % grid->x.n, j = point / grid->x.n;
    for (int other = 0; other < grid->turns; other++) {
        int column[2] = {grid->x.from[other][i], grid->x.end[turn][i]};
        int row[2] = {grid->y.from[other][j], grid->y.end[turn][j]};
        wb_grid_set_block(grid, open, other, column, row, 0);
    }
}
