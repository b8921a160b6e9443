/* A place that is in the way of all that another one is in the way of, and of more, is not needed:
 * in any layout the other one can stand for it. So a place goes where, shifted to the next open one
 * along or across the roof, it would meet no open place that it does not meet now. */
#include "roof_grid.h"
#include <stdlib.h>
#include <string.h>

enum { PASSES_MAX = 8 };

typedef struct {
    WbRoofGrid *grid;
    int *sum[2]; /* by turn: open places further left and in front, (columns + 1) x (rows + 1) */
} Counts;

static void count_open(Counts *counts)
{
    const WbRoofGrid *grid = counts->grid;
    int columns = grid->x.n;
    for (int turn = 0; turn < grid->turns; turn++) {
        const uint8_t *open = grid->open + (size_t)turn * grid->points;
        for (int j = 0; j < grid->y.n; j++) {
            const int *before = counts->sum[turn] + (size_t)j * (columns + 1);
            int *after = counts->sum[turn] + (size_t)(j + 1) * (columns + 1), row = 0;
            for (int i = 0; i < columns; i++) {
                row += open[(size_t)j * columns + i];
                after[i + 1] = before[i + 1] + row;
            }
        }
    }
}

static bool none_open(const Counts *counts, int turn, const int column[2], const int row[2])
{
    if (column[0] >= column[1] || row[0] >= row[1])
        return true;
    int columns = counts->grid->x.n + 1;
    const int *front = counts->sum[turn] + (size_t)row[0] * columns;
    const int *back = counts->sum[turn] + (size_t)row[1] * columns;
    return back[column[1]] - back[column[0]] == front[column[1]] - front[column[0]];
}

/* Lines at which a panel of the other turn starts and meets one at `to`, but not one at `at`. */
static void newly_met(const WbAxis *axis, int turn, int other, int at, int to, int line[2])
{
    if (to > at) {
        line[0] = axis->end[turn][at] > axis->from[other][to] ? axis->end[turn][at]
                                                              : axis->from[other][to];
        line[1] = axis->end[turn][to];
    } else {
        line[0] = axis->from[other][to];
        line[1] = axis->from[other][at] < axis->end[turn][to] ? axis->from[other][at]
                                                              : axis->end[turn][to];
    }
}

/* Whether a place may stand for the one at column i and row j; it is at another column, or row. */
static bool stands_for(const Counts *counts, int turn, const int at[2], int to, bool along)
{
    const WbRoofGrid *grid = counts->grid;
    const WbAxis *axis = along ? &grid->x : &grid->y, *side = along ? &grid->y : &grid->x;
    int here = at[along ? 0 : 1], aside = at[along ? 1 : 0];
    for (int other = 0; other < grid->turns; other++) {
        int shifted[2], kept[2] = {side->from[other][aside], side->end[turn][aside]};
        newly_met(axis, turn, other, here, to, shifted);
        if (!none_open(counts, other, along ? shifted : kept, along ? kept : shifted))
            return false;
    }
    return true;
}

/* The next open place that way which meets this one. -1: none. */
static int next_open(const WbRoofGrid *grid, int turn, const int at[2], bool along, int step)
{
    const WbAxis *axis = along ? &grid->x : &grid->y;
    int here = at[along ? 0 : 1], end = axis->end[turn][here], from = axis->from[turn][here];
    const uint8_t *open = grid->open + (size_t)turn * grid->points;
    for (int to = here + step; to >= from && to < end; to += step)
        if (open[along ? (size_t)at[1] * grid->x.n + to : (size_t)to * grid->x.n + at[0]])
            return to;
    return -1;
}

static bool dominated(const Counts *counts, int turn, const int at[2])
{
    for (int way = 0; way < 4; way++) {
        bool along = way < 2;
        int to = next_open(counts->grid, turn, at, along, way & 1 ? -1 : 1);
        if (to >= 0 && stands_for(counts, turn, at, to, along))
            return true;
    }
    return false;
}

/* Answers whether any place went. The counts are those of the pass's begin: never too few. */
static bool pass(Counts *counts)
{
    WbRoofGrid *grid = counts->grid;
    bool any = false;
    count_open(counts);
    uint8_t *open = grid->open;
    for (int turn = 0; turn < grid->turns; turn++)
        for (int j = 0; j < grid->y.n; j++, open += grid->x.n)
            for (int i = 0; i < grid->x.n; i++) {
                int at[2] = {i, j};
                if (!open[i] || !dominated(counts, turn, at))
                    continue;
                open[i] = 0;
                any = true;
            }
    return any;
}

WbStatus wb_grid_dominate(WbRoofGrid *grid, const WbRoof *roof)
{
    size_t corners = (size_t)(grid->x.n + 1) * (grid->y.n + 1);
    Counts counts = {
        grid, {calloc(corners, sizeof *counts.sum[0]), calloc(corners, sizeof *counts.sum[1])}};
    WbStatus status = counts.sum[0] && counts.sum[1] ? WB_OK : WB_NO_MEMORY;
    for (int k = 0; status == WB_OK && k < PASSES_MAX && pass(&counts); k++)
        ;
    free(counts.sum[0]);
    free(counts.sum[1]);
    return status == WB_OK ? wb_grid_drop_lines(grid, roof->gap_mm) : status;
}
