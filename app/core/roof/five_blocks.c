#include "five_blocks.h"
#include <stdlib.h>

enum { BLOCKS = 5, LINES = WB_ROOM_LINES + 1, STEPS_BETWEEN_POLLS = 1 << 16 };

/* Where a block is cut, lines: the first block ends at x[0] and y[1], the last begins at x[1] and
 * y[0], the middle one lies between. */
typedef struct {
    int x[2], y[2];
} Cut;

typedef struct {
    int most; /* -1: not asked yet */
    bool cut; /* else all panels lie one way */
    Cut at;
} Known;

typedef struct {
    int n;
    int line[LINES];
} Rasters;

/* All lengths are sums of panel sides, told by their number among the sums. */
typedef struct {
    WbRoom *room;
    int64_t *largest_sum_mm;
    int n;
    int64_t sum_mm[LINES];
    int *less;        /* [line][line]: the largest sum in the first less the second */
    Rasters *rasters; /* [line]: where a block of that length is cut */
    Known *known;     /* [longer line][shorter line] */
    uint64_t next_poll;
    WbStatus status;
    WbRect *layout; /* when laid: at most at_most */
    int laid, at_most;
} Five;

typedef struct {
    int x, y; /* lines */
} Block;

static int line_of(const Five *five, int64_t length_mm)
{
    int low = 0, high = five->n - 1;
    while (low < high) {
        int middle = (low + high + 1) / 2;
        if (five->sum_mm[middle] <= length_mm)
            low = middle;
        else
            high = middle - 1;
    }
    return low;
}

static int less(const Five *five, int line, int by)
{
    return five->less[line * five->n + by];
}

/* What is cut off a block leaves a sum on the other side: every other cut does no more (raster
 * points; Terno, Lindemann & Scheithauer 1987, from memory). */
static void find_rasters(Five *five)
{
    for (int line = 0; line < five->n; line++) {
        Rasters *rasters = &five->rasters[line];
        rasters->n = 0;
        for (int by = line; by >= 0; by--) {
            int at = less(five, line, by);
            if (rasters->n == 0 || rasters->line[rasters->n - 1] != at)
                rasters->line[rasters->n++] = at;
        }
    }
}

static WbStatus init_five(Five *five)
{
    WbRoom *room = five->room;
    int64_t longest_mm = room->length_mm > room->width_mm ? room->length_mm : room->width_mm;
    room->steps += longest_mm;
    five->largest_sum_mm = wb_room_sums(room, longest_mm);
    if (!five->largest_sum_mm)
        return WB_NO_MEMORY;
    five->n = wb_room_lines(five->largest_sum_mm, longest_mm + 1, five->sum_mm);
    if (five->n < 0)
        return WB_BUDGET;
    size_t pairs = (size_t)five->n * five->n;
    five->less = malloc(pairs * sizeof *five->less);
    five->rasters = malloc(five->n * sizeof *five->rasters);
    five->known = malloc(pairs * sizeof *five->known);
    if (!five->less || !five->rasters || !five->known)
        return WB_NO_MEMORY;
    for (int line = 0; line < five->n; line++)
        for (int by = 0; by < five->n; by++)
            five->less[line * five->n + by] =
                by > line ? 0 : line_of(five, five->sum_mm[line] - five->sum_mm[by]);
    for (size_t i = 0; i < pairs; i++)
        five->known[i] = (Known){.most = -1};
    find_rasters(five);
    return WB_OK;
}

static void free_five(Five *five)
{
    free(five->largest_sum_mm);
    free(five->less);
    free(five->rasters);
    free(five->known);
}

static bool spend(Five *five)
{
    WbRoom *room = five->room;
    if (++room->steps > room->step_budget)
        five->status = WB_BUDGET;
    if (room->steps >= five->next_poll) {
        five->next_poll = room->steps + STEPS_BETWEEN_POLLS;
        if (wb_control_stopped(room->control))
            five->status = WB_STOPPED;
    }
    return five->status == WB_OK;
}

/* By area. */
static int bound(const Five *five, Block block)
{
    const WbRoom *room = five->room;
    return (int)(five->sum_mm[block.x] * five->sum_mm[block.y] /
                 (room->panel_length_mm * room->panel_width_mm));
}

static int one_way(const Five *five, Block block, bool across)
{
    const WbRoom *room = five->room;
    int64_t along_mm = across ? room->panel_width_mm : room->panel_length_mm,
            other_mm = across ? room->panel_length_mm : room->panel_width_mm;
    return (int)((five->sum_mm[block.x] / along_mm) * (five->sum_mm[block.y] / other_mm));
}

/* The five blocks of a cut. */
static void blocks_of(const Five *five, Block whole, Cut cut, Block block[BLOCKS])
{
    block[0] = (Block){cut.x[0], cut.y[1]};
    block[1] = (Block){less(five, whole.x, cut.x[0]), cut.y[0]};
    block[2] = (Block){less(five, cut.x[1], cut.x[0]), less(five, cut.y[1], cut.y[0])};
    block[3] = (Block){cut.x[1], less(five, whole.y, cut.y[1])};
    block[4] = (Block){less(five, whole.x, cut.x[1]), less(five, whole.y, cut.y[0])};
}

static int most_in(Five *five, Block block);

/* Panels that the cut holds, where they are more than `best`; else any number not above it. */
static int most_of_cut(Five *five, Block whole, Cut cut, int best)
{
    Block block[BLOCKS];
    int bounds[BLOCKS], total = 0;
    blocks_of(five, whole, cut, block);
    for (int k = 0; k < BLOCKS; k++) {
        if (block[k].x == whole.x && block[k].y == whole.y)
            return 0;
        bounds[k] = bound(five, block[k]);
        total += bounds[k];
    }
    for (int k = 0; k < BLOCKS && total > best; k++)
        if (bounds[k] > 0)
            total += most_in(five, block[k]) - bounds[k];
    return total;
}

/* False: no better one is left to find, or the budget ran out. */
static bool try_cuts_across(Five *five, Block whole, Cut cut, Known *best, int at_most)
{
    const Rasters *across = &five->rasters[whole.y];
    for (int k = 0; k < across->n; k++) {
        cut.y[0] = across->line[k];
        for (int m = k; m < across->n; m++) {
            cut.y[1] = across->line[m];
            if (!spend(five))
                return false;
            int most = most_of_cut(five, whole, cut, best->most);
            if (most > best->most && five->status == WB_OK)
                *best = (Known){most, true, cut};
            if (best->most >= at_most || five->status != WB_OK)
                return false;
        }
    }
    return true;
}

/* A cut and the one turned by half a circle hold the same, so the first block is not the longer of
 * the two at the front. */
static void try_cuts(Five *five, Block whole, Known *best, int at_most)
{
    const Rasters *along = &five->rasters[whole.x];
    for (int i = 0; i < along->n; i++)
        for (int j = i; j < along->n; j++) {
            Cut cut = {.x = {along->line[i], along->line[j]}};
            if (!try_cuts_across(five, whole, cut, best, at_most))
                return;
        }
}

static Known *known_of(Five *five, Block block)
{
    return &five->known[block.x >= block.y ? block.x * five->n + block.y
                                           : block.y * five->n + block.x];
}

static Block upright(Block block)
{
    return block.x >= block.y ? block : (Block){block.y, block.x};
}

/* Of what is found when the budget ends, what holds is kept. */
static int most_in(Five *five, Block block)
{
    Known *known = known_of(five, block);
    if (known->most >= 0)
        return known->most;
    block = upright(block);
    int along = one_way(five, block, false), across = one_way(five, block, true);
    Known best = {.most = along > across ? along : across};
    int at_most = bound(five, block);
    if (best.most < at_most && five->status == WB_OK)
        try_cuts(five, block, &best, at_most);
    *known = best;
    return best.most;
}

static void mirror(WbRect *rects, int n)
{
    for (int i = 0; i < n; i++)
        rects[i] = (WbRect){rects[i].y_mm, rects[i].x_mm, rects[i].width_mm, rects[i].length_mm};
}

static void lay_one_way(Five *five, Block block, int64_t x_mm, int64_t y_mm)
{
    const WbRoom *room = five->room;
    bool across = one_way(five, block, true) > one_way(five, block, false);
    int64_t along_mm = across ? room->panel_width_mm : room->panel_length_mm,
            other_mm = across ? room->panel_length_mm : room->panel_width_mm;
    for (int64_t y = 0; y + other_mm <= five->sum_mm[block.y]; y += other_mm)
        for (int64_t x = 0; x + along_mm <= five->sum_mm[block.x]; x += along_mm)
            if (five->laid < five->at_most)
                five->layout[five->laid++] = (WbRect){x_mm + x, y_mm + y, along_mm, other_mm};
}

static void lay(Five *five, Block block, int64_t x_mm, int64_t y_mm)
{
    int before = five->laid;
    if (block.x < block.y) {
        lay(five, upright(block), y_mm, x_mm);
        mirror(five->layout + before, five->laid - before);
        return;
    }
    const Known *known = known_of(five, block);
    if (!known->cut) {
        lay_one_way(five, block, x_mm, y_mm);
        return;
    }
    const int *x = known->at.x, *y = known->at.y;
    Block part[BLOCKS];
    blocks_of(five, block, known->at, part);
    int64_t from_x_mm[BLOCKS] = {0, five->sum_mm[x[0]], five->sum_mm[x[0]], 0, five->sum_mm[x[1]]},
            from_y_mm[BLOCKS] = {0, 0, five->sum_mm[y[0]], five->sum_mm[y[1]], five->sum_mm[y[0]]};
    for (int k = 0; k < BLOCKS; k++)
        if (bound(five, part[k]) > 0)
            lay(five, part[k], x_mm + from_x_mm[k], y_mm + from_y_mm[k]);
}

WbStatus wb_five_blocks(WbRoom *room, int at_most, WbRect *layout, int *n)
{
    Five *five = calloc(1, sizeof *five);
    if (!five)
        return WB_NO_MEMORY;
    five->room = room;
    five->layout = layout;
    five->at_most = at_most;
    WbStatus status = init_five(five);
    *n = 0;
    if (status == WB_OK) {
        Block whole = {line_of(five, room->length_mm), line_of(five, room->width_mm)};
        most_in(five, whole);
        lay(five, whole, 0, 0);
        *n = five->laid;
        status = five->status;
    }
    free_five(five);
    free(five);
    return status;
}
