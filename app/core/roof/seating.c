#include "seating.h"
#include "plain_roof.h"
#include <stdlib.h>
#include <string.h>

WbStatus wb_seating(const WbRoof *roof, const WbRect *layout, int n, int n_pinned,
                    WbSeating *seating)
{
    *seating = (WbSeating){.roof = roof,
                           .rect = malloc((size_t)n * sizeof *seating->rect),
                           .n = n,
                           .n_pinned = n_pinned,
                           .member = calloc((size_t)n, sizeof *seating->member),
                           .is_member = calloc((size_t)n, sizeof *seating->is_member)};
    if (!seating->rect || !seating->member || !seating->is_member) {
        wb_seating_free(seating);
        return WB_NO_MEMORY;
    }
    memcpy(seating->rect, layout, (size_t)n * sizeof *layout);
    return WB_OK;
}

void wb_seating_free(WbSeating *seating)
{
    free(seating->rect);
    free(seating->member);
    free(seating->is_member);
    *seating = (WbSeating){0};
}

/* About the comparisons it takes. */
enum { SCORE_WORK_A_PANEL = 12 };

void wb_seating_score(WbSeating *seating)
{
    seating->work_left -= SCORE_WORK_A_PANEL * (int64_t)seating->n;
    wb_roof_arrangement(seating->roof, seating->rect, seating->n, &seating->score);
}

static bool too_near(const WbRect *a, const WbRect *b, int64_t gap_mm)
{
    return a->x_mm < b->x_mm + b->length_mm + gap_mm && b->x_mm < a->x_mm + a->length_mm + gap_mm &&
           a->y_mm < b->y_mm + b->width_mm + gap_mm && b->y_mm < a->y_mm + a->width_mm + gap_mm;
}

bool wb_seating_clear(WbSeating *seating, const WbRect *rect, int n)
{
    int64_t gap_mm = seating->roof->gap_mm;
    for (int i = 0; i < n; i++)
        if (!seating->is_member[i] && too_near(rect, &seating->rect[i], gap_mm)) {
            seating->work_left -= i + 1;
            return false;
        }
    seating->work_left -=
        n + (int64_t)seating->roof->n_obstacles + 4 * (int64_t)seating->roof->n_corners;
    return wb_roof_place_ok(seating->roof, rect);
}

/* The layout was changed already: keeps it where it is better. */
static bool better(WbSeating *seating)
{
    WbArrangement before = seating->score;
    wb_seating_score(seating);
    if (wb_roof_arrangement_order(&seating->score, &before) < 0)
        return true;
    seating->score = before;
    return false;
}

static void add_to_members(WbSeating *seating, int n_members, int64_t x_mm, int64_t y_mm)
{
    for (int i = 0; i < n_members; i++) {
        seating->rect[seating->member[i]].x_mm += x_mm;
        seating->rect[seating->member[i]].y_mm += y_mm;
    }
}

static bool members_clear(WbSeating *seating, int n_members)
{
    bool clear = true;
    for (int i = 0; i < n_members; i++)
        seating->is_member[seating->member[i]] = true;
    for (int i = 0; i < n_members && clear; i++)
        clear = wb_seating_clear(seating, &seating->rect[seating->member[i]], seating->n);
    for (int i = 0; i < n_members; i++)
        seating->is_member[seating->member[i]] = false;
    return clear;
}

bool wb_seating_shift(WbSeating *seating, int n_members, int64_t x_mm, int64_t y_mm)
{
    if (seating->work_left <= 0 || n_members == 0 || (x_mm == 0 && y_mm == 0))
        return false;
    add_to_members(seating, n_members, x_mm, y_mm);
    if (members_clear(seating, n_members) && better(seating))
        return true;
    add_to_members(seating, n_members, -x_mm, -y_mm);
    return false;
}

bool wb_seating_move(WbSeating *seating, int panel, const WbRect *to)
{
    if (seating->work_left <= 0)
        return false;
    seating->is_member[panel] = true;
    bool clear = wb_seating_clear(seating, to, seating->n);
    seating->is_member[panel] = false;
    if (!clear)
        return false;
    WbRect from = seating->rect[panel];
    seating->rect[panel] = *to;
    if (better(seating))
        return true;
    seating->rect[panel] = from;
    return false;
}
