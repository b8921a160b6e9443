#include "bound.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { STALL_MAX = 60 };
static const double STEP_DECAY = 0.9, LEAN = 1.5;
static const float SHARE_RATE = 0.04f;

WbStatus wb_weights_init(WbWeights *weights, const WbRoofGrid *grid)
{
    size_t corners = (size_t)(grid->x.n + 1) * (grid->y.n + 1);
    *weights = (WbWeights){.grid = grid,
                           .prefix = calloc(corners, sizeof *weights->prefix),
                           .cover = calloc(corners, sizeof *weights->cover),
                           .course = calloc(grid->points, sizeof *weights->course),
                           .share = calloc(wb_grid_places(grid), sizeof *weights->share)};
    if (weights->prefix && weights->cover && weights->course && weights->share)
        return WB_OK;
    wb_weights_free(weights);
    return WB_NO_MEMORY;
}

void wb_weights_free(WbWeights *weights)
{
    free(weights->prefix);
    free(weights->cover);
    free(weights->course);
    free(weights->share);
    *weights = (WbWeights){0};
}

static void sum_prefixes(WbWeights *weights)
{
    int columns = weights->grid->x.n, rows = weights->grid->y.n;
    for (int j = 0; j < rows; j++) {
        const int64_t *weight = weights->weight + (size_t)j * columns;
        const int64_t *before = weights->prefix + (size_t)j * (columns + 1);
        int64_t *after = weights->prefix + (size_t)(j + 1) * (columns + 1), row = 0;
        for (int i = 0; i < columns; i++) {
            row += weight[i];
            after[i + 1] = before[i + 1] + row;
        }
    }
}

static void cover_block(WbWeights *weights, WbGridBlock block)
{
    int columns = weights->grid->x.n + 1;
    int32_t *front = weights->cover + (size_t)block.front * columns;
    int32_t *back = weights->cover + (size_t)block.back * columns;
    front[block.left]++;
    front[block.right]--;
    back[block.left]--;
    back[block.right]++;
}

/* Turns the corners left by cover_block into the number of places over each point. */
static void sum_cover(WbWeights *weights)
{
    int columns = weights->grid->x.n + 1, rows = weights->grid->y.n;
    for (int j = 0; j < rows; j++) {
        int32_t *cover = weights->cover + (size_t)j * columns, row = 0;
        for (int i = 0; i < columns; i++) {
            row += cover[i];
            cover[i] = row + (j ? cover[i - columns] : 0);
        }
    }
}

static void clear_cover(WbWeights *weights)
{
    size_t corners = (size_t)(weights->grid->x.n + 1) * (weights->grid->y.n + 1);
    memset(weights->cover, 0, corners * sizeof *weights->cover);
}

void wb_weights_restart(WbWeights *weights, int64_t *weight, uint8_t *open)
{
    const WbRoofGrid *grid = weights->grid;
    weights->weight = weight;
    weights->open = open;
    weights->best = INT64_MAX;
    weights->step = 1;
    weights->stalled = 0;
    memset(weights->course, 0, grid->points * sizeof *weights->course);
    memset(weights->share, 0, wb_grid_places(grid) * sizeof *weights->share);
    clear_cover(weights);
    for (int place = 0; place < wb_grid_places(grid); place++)
        if (open[place])
            cover_block(weights, wb_grid_block(grid, place));
    sum_cover(weights);
    for (int j = 0; j < grid->y.n; j++)
        for (int i = 0; i < grid->x.n; i++)
            if (weights->cover[(size_t)j * (grid->x.n + 1) + i] == 0)
                weight[(size_t)j * grid->x.n + i] = 0;
}

/* Distance from a line to the next, from the last to the edge one gap beyond the usable one. */
static int64_t pitch_mm(const WbAxis *axis, int line, int64_t room_mm)
{
    return (line + 1 < axis->n ? axis->at_mm[line + 1] : room_mm) - axis->at_mm[line];
}

void wb_weights_from_area(const WbRoofGrid *grid, const WbRoof *roof, int64_t *weight)
{
    WbZone usable = grid->usable;
    int64_t gap_mm = roof->gap_mm;
    int64_t panel_mm2 = (grid->length_mm[0] + gap_mm) * (grid->width_mm[0] + gap_mm);
    for (int j = 0; j < grid->y.n; j++) {
        int64_t across_mm = pitch_mm(&grid->y, j, usable.back_mm - usable.front_mm + gap_mm);
        for (int i = 0; i < grid->x.n; i++) {
            int64_t along_mm = pitch_mm(&grid->x, i, usable.right_mm - usable.left_mm + gap_mm);
            double share = (double)(along_mm * across_mm) / (double)panel_mm2;
            weight[(size_t)j * grid->x.n + i] =
                share < 1 ? (int64_t)ceil(share * (double)WB_WEIGHT_ONE) : WB_WEIGHT_ONE;
        }
    }
}

/* The places of one turn starting in one row. */
static int64_t evaluate_row(WbWeights *weights, int turn, int row)
{
    const WbRoofGrid *grid = weights->grid;
    int columns = grid->x.n, back = grid->y.end[turn][row];
    const uint8_t *open = weights->open + (size_t)turn * grid->points + (size_t)row * columns;
    const int64_t *front_sum = weights->prefix + (size_t)row * (columns + 1);
    const int64_t *back_sum = weights->prefix + (size_t)back * (columns + 1);
    const int *end = grid->x.end[turn];
    float *share = weights->share + (open - weights->open);
    int64_t excess = 0;
    for (int i = 0; i < columns; i++) {
        if (!open[i])
            continue;
        int right = end[i];
        int64_t under = back_sum[right] - back_sum[i] - front_sum[right] + front_sum[i];
        share[i] += SHARE_RATE * ((under < WB_WEIGHT_ONE) - share[i]);
        if (under >= WB_WEIGHT_ONE)
            continue;
        excess += WB_WEIGHT_ONE - under;
        cover_block(weights, (WbGridBlock){i, right, row, back});
    }
    return excess;
}

void wb_weights_evaluate(WbWeights *weights)
{
    const WbRoofGrid *grid = weights->grid;
    sum_prefixes(weights);
    clear_cover(weights);
    int64_t total = weights->prefix[(size_t)(grid->x.n + 1) * (grid->y.n + 1) - 1];
    for (int turn = 0; turn < grid->turns; turn++)
        for (int row = 0; row < grid->y.n; row++)
            total += evaluate_row(weights, turn, row);
    sum_cover(weights);
    weights->total = total;
    if (total < weights->best) {
        weights->best = total;
        weights->stalled = 0;
    } else if (++weights->stalled >= STALL_MAX) {
        weights->step *= STEP_DECAY;
        weights->stalled = 0;
    }
}

/* The new course leans on the last one where the two disagree (Camerini, Fratta & Maffioli 1975,
 * from memory): zigzags cancel. */
static double lean_of(const WbWeights *weights)
{
    int columns = weights->grid->x.n, rows = weights->grid->y.n;
    double along = 0, length2 = 0;
    for (int j = 0; j < rows; j++) {
        const int32_t *cover = weights->cover + (size_t)j * (columns + 1);
        const double *course = weights->course + (size_t)j * columns;
        for (int i = 0; i < columns; i++) {
            along += course[i] * (cover[i] - 1);
            length2 += course[i] * course[i];
        }
    }
    return along < 0 ? -LEAN * along / length2 : 0;
}

/* Weights follow the course, which is (cover - 1) and what it leans on, kept within 0..1: only what
 * can move counts in the length. */
static double set_course(WbWeights *weights)
{
    int columns = weights->grid->x.n, rows = weights->grid->y.n;
    double lean = lean_of(weights), length2 = 0;
    for (int j = 0; j < rows; j++) {
        const int32_t *cover = weights->cover + (size_t)j * (columns + 1);
        const int64_t *weight = weights->weight + (size_t)j * columns;
        double *course = weights->course + (size_t)j * columns;
        for (int i = 0; i < columns; i++) {
            course[i] = cover[i] - 1 + lean * course[i];
            if (course[i] < 0 && weight[i] == 0)
                course[i] = 0;
            length2 += course[i] * course[i];
        }
    }
    return length2;
}

bool wb_weights_step(WbWeights *weights, int need)
{
    double length2 = set_course(weights);
    double above = (double)weights->total - ((double)need - 0.1) * (double)WB_WEIGHT_ONE;
    double unit = length2 > 0 ? weights->step * above / length2 : 0;
    if (unit < 1)
        return false;
    for (int point = 0; point < weights->grid->points; point++) {
        int64_t moved = weights->weight[point] + (int64_t)(unit * weights->course[point]);
        moved = moved < 0 ? 0 : moved;
        weights->weight[point] = moved > WB_WEIGHT_ONE ? WB_WEIGHT_ONE : moved;
    }
    return true;
}

int64_t wb_weights_under(const WbWeights *weights, int place)
{
    int columns = weights->grid->x.n + 1;
    WbGridBlock block = wb_grid_block(weights->grid, place);
    const int64_t *front = weights->prefix + (size_t)block.front * columns;
    const int64_t *back = weights->prefix + (size_t)block.back * columns;
    return back[block.right] - back[block.left] - front[block.right] + front[block.left];
}

int wb_weights_close(WbWeights *weights, int need)
{
    int64_t spare = weights->total - need * WB_WEIGHT_ONE;
    int closed = 0;
    for (int place = 0; place < wb_grid_places(weights->grid); place++)
        if (weights->open[place] && wb_weights_under(weights, place) - WB_WEIGHT_ONE > spare) {
            weights->open[place] = 0;
            closed++;
        }
    return closed;
}
