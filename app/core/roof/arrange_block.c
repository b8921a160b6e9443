#include "arrange_block.h"
#include <string.h>

/* Obstacles whose far sides a block is laid to. */
enum { OBSTACLES_LOOKED_AT = 6, STARTS = OBSTACLES_LOOKED_AT + 4 };

typedef struct {
    int64_t size_mm[2];
    int64_t start_mm[2][STARTS];
    int n_starts[2];
} Block;

static void add_start(Block *block, int axis, int64_t at_mm)
{
    for (int i = 0; i < block->n_starts[axis]; i++)
        if (block->start_mm[axis][i] == at_mm)
            return;
    block->start_mm[axis][block->n_starts[axis]++] = at_mm;
}

/* At the edge; in the middle of the slack, or right up to the other edge; so that a column begins
 * behind an obstacle, or at the first pinned panel's line. */
static void list_starts(Block *block, const WbSeating *seating, int axis)
{
    const WbRoof *roof = seating->roof;
    int64_t frame_mm = axis == 0 ? roof->length_mm : roof->width_mm;
    int64_t pitch_mm = block->size_mm[axis] + roof->gap_mm;
    int64_t room_mm = frame_mm - 2 * roof->margin_mm + roof->gap_mm;
    int64_t slack_mm = room_mm >= pitch_mm ? room_mm % pitch_mm : 0;
    block->n_starts[axis] = 0;
    add_start(block, axis, roof->margin_mm);
    add_start(block, axis, roof->margin_mm + slack_mm / 2);
    add_start(block, axis, roof->margin_mm + slack_mm);
    for (size_t k = 0; k < roof->n_obstacles && k < OBSTACLES_LOOKED_AT; k++) {
        const WbObstacle *o = &roof->obstacles[k];
        int64_t end_mm =
            o->clearance_mm + (axis == 0 ? o->x_mm + o->length_mm : o->y_mm + o->width_mm);
        if (end_mm > roof->margin_mm && end_mm < frame_mm)
            add_start(block, axis, roof->margin_mm + (end_mm - roof->margin_mm) % pitch_mm);
    }
    if (seating->n_pinned > 0) {
        int64_t at_mm = axis == 0 ? seating->rect[0].x_mm : seating->rect[0].y_mm;
        add_start(block, axis, roof->margin_mm + (at_mm - roof->margin_mm) % pitch_mm);
    }
}

/* Fills line after line along `axis`, from its first place on; false: not all find one. */
static bool fill(WbSeating *seating, const Block *block, const int64_t start_mm[2], int axis)
{
    const WbRoof *roof = seating->roof;
    int64_t frame_mm[2] = {roof->length_mm - roof->margin_mm, roof->width_mm - roof->margin_mm};
    int n = seating->n_pinned;
    int64_t at[2];
    for (at[1 - axis] = start_mm[1 - axis];
         at[1 - axis] + block->size_mm[1 - axis] <= frame_mm[1 - axis];
         at[1 - axis] += block->size_mm[1 - axis] + roof->gap_mm)
        for (at[axis] = start_mm[axis]; at[axis] + block->size_mm[axis] <= frame_mm[axis];
             at[axis] += block->size_mm[axis] + roof->gap_mm) {
            WbRect rect = {at[0], at[1], block->size_mm[0], block->size_mm[1]};
            if (seating->work_left <= 0)
                return false;
            if (!wb_seating_clear(seating, &rect, seating->n_pinned))
                continue;
            seating->rect[n++] = rect;
            if (n == seating->n)
                return true;
        }
    return false;
}

/* The spare's layout is the trial, its score the best so far where `found`. */
static void keep_better(WbSeating *seating, WbSeating *spare, bool *found)
{
    wb_seating_score(spare);
    if (*found && wb_roof_arrangement_order(&spare->score, &seating->score) >= 0)
        return;
    memcpy(seating->rect, spare->rect, (size_t)spare->n * sizeof *spare->rect);
    seating->score = spare->score;
    *found = true;
}

static void try_turned_so(WbSeating *seating, WbSeating *spare, int64_t length_mm, int64_t width_mm,
                          bool *found)
{
    Block block = {.size_mm = {length_mm, width_mm}};
    list_starts(&block, spare, 0);
    list_starts(&block, spare, 1);
    for (int i = 0; i < block.n_starts[0]; i++)
        for (int k = 0; k < block.n_starts[1]; k++)
            for (int axis = 0; axis < 2; axis++) {
                int64_t start_mm[2] = {block.start_mm[0][i], block.start_mm[1][k]};
                if (fill(spare, &block, start_mm, axis))
                    keep_better(seating, spare, found);
            }
}

bool wb_best_block(WbSeating *seating, WbSeating *spare)
{
    bool found = false;
    try_turned_so(seating, spare, spare->panel_length_mm, spare->panel_width_mm, &found);
    if (spare->panel_length_mm != spare->panel_width_mm)
        try_turned_so(seating, spare, spare->panel_width_mm, spare->panel_length_mm, &found);
    return found;
}
