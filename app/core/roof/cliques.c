#include "cliques.h"
#include <stdlib.h>
#include <string.h>

enum { BITS = 64 };

/* All places over a point have a rectangle in common; it is told by its left front corner. There a
 * place begins at its column and one at its row. Such a corner matters only where, going right, a
 * place ends before another begins, and going back likewise: else a point there has all its places
 * and more. */
enum { BEGINS_X = 1, ENDS_X = 2, BEGINS_Y = 4, ENDS_Y = 8, FULL_X = 16, FULL_Y = 32 };
enum { MATTERS = BEGINS_X | BEGINS_Y | FULL_X | FULL_Y };

static void mark(uint8_t *marks, int columns, WbGridBlock block)
{
    for (int j = block.front; j < block.back; j++) {
        marks[(size_t)j * columns + block.left] |= BEGINS_X;
        marks[(size_t)j * columns + block.right - 1] |= ENDS_X;
    }
    for (int i = block.left; i < block.right; i++) {
        marks[(size_t)block.front * columns + i] |= BEGINS_Y;
        marks[(size_t)(block.back - 1) * columns + i] |= ENDS_Y;
    }
}

/* From the far end of a row or column of points to its begin. */
static void mark_full(uint8_t *marks, size_t n, size_t step, uint8_t begins, uint8_t ends,
                      uint8_t full)
{
    bool end_next = true;
    for (size_t k = n; k-- > 0;) {
        uint8_t *at = &marks[k * step];
        end_next = end_next || (*at & ends);
        if (end_next)
            *at |= full;
        if (*at & begins)
            end_next = false;
    }
}

static void mark_all_full(uint8_t *marks, const WbRoofGrid *grid)
{
    size_t columns = (size_t)grid->x.n, rows = (size_t)grid->y.n;
    for (size_t j = 0; j < rows; j++)
        mark_full(marks + j * columns, columns, 1, BEGINS_X, ENDS_X, FULL_X);
    for (size_t i = 0; i < columns; i++)
        mark_full(marks + i, rows, columns, BEGINS_Y, ENDS_Y, FULL_Y);
}

/* Numbers the points that matter, into `number` by point, -1 for the others. */
static WbStatus number_points(WbCliques *cliques, const WbRoofGrid *grid, int *number)
{
    uint8_t *marks = calloc(grid->points, 1);
    if (!marks)
        return WB_NO_MEMORY;
    for (int p = 0; p < cliques->n; p++)
        mark(marks, grid->x.n, wb_grid_block(grid, cliques->place[p]));
    mark_all_full(marks, grid);
    for (int k = 0; k < grid->points; k++)
        number[k] = (marks[k] & MATTERS) == MATTERS ? cliques->m++ : -1;
    free(marks);
    return WB_OK;
}

/* Points under every place; with `point` NULL they are only counted. */
static int list_points(const WbCliques *cliques, const WbRoofGrid *grid, const int *number,
                       int *point)
{
    int n = 0;
    for (int p = 0; p < cliques->n; p++) {
        WbGridBlock block = wb_grid_block(grid, cliques->place[p]);
        cliques->first_point[p] = n;
        for (int j = block.front; j < block.back; j++)
            for (int i = block.left; i < block.right; i++) {
                int at = number[(size_t)j * grid->x.n + i];
                if (at < 0)
                    continue;
                if (point)
                    point[n] = at;
                n++;
            }
    }
    cliques->first_point[cliques->n] = n;
    return n;
}

static void list_over(WbCliques *cliques)
{
    memset(cliques->first_over, 0, (size_t)(cliques->m + 1) * sizeof *cliques->first_over);
    for (int k = 0; k < cliques->first_point[cliques->n]; k++)
        cliques->first_over[cliques->point[k] + 1]++;
    for (int c = 0; c < cliques->m; c++)
        cliques->first_over[c + 1] += cliques->first_over[c];
    for (int p = 0; p < cliques->n; p++)
        for (int k = cliques->first_point[p]; k < cliques->first_point[p + 1]; k++)
            cliques->over[cliques->first_over[cliques->point[k]]++] = p;
    for (int c = cliques->m; c > 0; c--)
        cliques->first_over[c] = cliques->first_over[c - 1];
    cliques->first_over[0] = 0;
}

/* Bits low .. high - 1. */
static void set_range(uint64_t *set, int low, int high)
{
    for (int p = low; p < high;) {
        int w = p / BITS, end = (w + 1) * BITS < high ? (w + 1) * BITS : high;
        uint64_t ones = end - p == BITS ? ~(uint64_t)0 : ((uint64_t)1 << (end - p)) - 1;
        set[w] |= ones << (p % BITS);
        p = end;
    }
}

/* before[place]: open places of lower numbers. Those that meet one lie row by row side by side. */
static void list_meets(WbCliques *cliques, const WbRoofGrid *grid, const int *before)
{
    for (int p = 0; p < cliques->n; p++) {
        int turn = cliques->place[p] / grid->points, point = cliques->place[p] % grid->points;
        int i = point % grid->x.n, j = point / grid->x.n;
        uint64_t *meets = cliques->meets + (size_t)p * cliques->words;
        for (int other = 0; other < grid->turns; other++)
            for (int row = grid->y.from[other][j]; row < grid->y.end[turn][j]; row++) {
                const int *at = before + other * grid->points + row * grid->x.n;
                set_range(meets, at[grid->x.from[other][i]], at[grid->x.end[turn][i]]);
            }
    }
}

/* ---- the graph ---- */

static bool meets_no_more(const WbCliques *cliques, const uint64_t *open, int q, int p,
                          uint64_t *visits)
{
    const uint64_t *meets_q = wb_clique_meets(cliques, q), *meets_p = wb_clique_meets(cliques, p);
    for (int w = 0; w < cliques->words; w++)
        if (meets_q[w] & open[w] & ~meets_p[w]) {
            *visits += (uint64_t)w;
            return false;
        }
    return true;
}

static bool can_be_stood_for(const WbCliques *cliques, const uint64_t *open, int p,
                             uint64_t *visits)
{
    const uint64_t *meets = wb_clique_meets(cliques, p);
    for (int w = 0; w < cliques->words; w++)
        for (uint64_t left = meets[w] & open[w]; left; left &= left - 1) {
            int q = w * BITS + __builtin_ctzll(left);
            ++*visits;
            if (q != p && meets_no_more(cliques, open, q, p, visits))
                return true;
        }
    return false;
}

uint64_t wb_cliques_dominate(const WbCliques *cliques, uint64_t *open)
{
    uint64_t visits = 0;
    for (bool any = true; any;) {
        any = false;
        for (int w = 0; w < cliques->words; w++)
            for (uint64_t left = open[w]; left; left &= left - 1) {
                int p = w * BITS + __builtin_ctzll(left);
                if (!can_be_stood_for(cliques, open, p, &visits))
                    continue;
                open[w] &= ~((uint64_t)1 << (p % BITS));
                any = true;
            }
    }
    return visits;
}

static int count_before(const WbRoofGrid *grid, int *before)
{
    int n = 0;
    for (int place = 0; place < wb_grid_places(grid); place++) {
        before[place] = n;
        n += grid->open[place];
    }
    before[wb_grid_places(grid)] = n;
    return n;
}

static WbStatus make_with(WbCliques *cliques, const WbRoofGrid *grid, int places_max, int *before)
{
    int n = count_before(grid, before);
    cliques->words = (n + BITS - 1) / BITS;
    if (n > places_max)
        return WB_BUDGET;
    cliques->place = malloc((size_t)(n + 1) * sizeof *cliques->place);
    cliques->meets = calloc((size_t)n * (size_t)cliques->words + 1, sizeof *cliques->meets);
    if (!cliques->place || !cliques->meets)
        return WB_NO_MEMORY;
    for (int place = 0; place < wb_grid_places(grid); place++)
        if (grid->open[place])
            cliques->place[cliques->n++] = place;
    list_meets(cliques, grid, before);
    return WB_OK;
}

static WbStatus make_graph(WbCliques *cliques, const WbRoofGrid *grid, int places_max)
{
    int *before = malloc(((size_t)wb_grid_places(grid) + 1) * sizeof *before);
    *cliques = (WbCliques){0};
    WbStatus status = before ? make_with(cliques, grid, places_max, before) : WB_NO_MEMORY;
    free(before);
    return status;
}

static WbStatus close_dominated(const WbCliques *cliques, WbRoofGrid *grid, int64_t gap_mm,
                                uint64_t *visits)
{
    uint64_t *open = calloc((size_t)cliques->words + 1, sizeof *open);
    if (!open)
        return WB_NO_MEMORY;
    for (int p = 0; p < cliques->n; p++)
        open[p / BITS] |= (uint64_t)1 << (p % BITS);
    *visits += wb_cliques_dominate(cliques, open);
    for (int p = 0; p < cliques->n; p++)
        if (!(open[p / BITS] >> (p % BITS) & 1))
            grid->open[cliques->place[p]] = 0;
    free(open);
    return wb_grid_drop_lines(grid, gap_mm);
}

static WbStatus make_points(WbCliques *cliques, const WbRoofGrid *grid)
{
    int *number = malloc((size_t)(grid->points + 1) * sizeof *number);
    WbStatus status = number ? number_points(cliques, grid, number) : WB_NO_MEMORY;
    cliques->at = malloc((size_t)(cliques->m + 1) * sizeof *cliques->at);
    cliques->first_point = malloc((size_t)(cliques->n + 1) * sizeof *cliques->first_point);
    cliques->first_over = malloc((size_t)(cliques->m + 1) * sizeof *cliques->first_over);
    if (status == WB_OK && cliques->at && cliques->first_point && cliques->first_over) {
        for (int k = 0; k < grid->points; k++)
            if (number[k] >= 0)
                cliques->at[number[k]] = k;
        int n = list_points(cliques, grid, number, NULL);
        cliques->point = malloc((size_t)(n + 1) * sizeof *cliques->point);
        cliques->over = malloc((size_t)(n + 1) * sizeof *cliques->over);
        status = cliques->point && cliques->over ? WB_OK : WB_NO_MEMORY;
    } else {
        status = WB_NO_MEMORY;
    }
    if (status == WB_OK) {
        list_points(cliques, grid, number, cliques->point);
        list_over(cliques);
    }
    free(number);
    return status;
}

WbStatus wb_cliques_make(WbCliques *cliques, WbRoofGrid *grid, int64_t gap_mm, int places_max,
                         uint64_t *visits)
{
    WbStatus status = make_graph(cliques, grid, places_max);
    if (status == WB_OK)
        status = close_dominated(cliques, grid, gap_mm, visits);
    if (status == WB_OK) {
        wb_cliques_free(cliques);
        status = make_graph(cliques, grid, places_max);
    }
    if (status == WB_OK)
        status = make_points(cliques, grid);
    if (status != WB_OK)
        wb_cliques_free(cliques);
    return status;
}

void wb_cliques_free(WbCliques *cliques)
{
    free(cliques->place);
    free(cliques->at);
    free(cliques->first_point);
    free(cliques->point);
    free(cliques->first_over);
    free(cliques->over);
    free(cliques->meets);
    *cliques = (WbCliques){0};
}
