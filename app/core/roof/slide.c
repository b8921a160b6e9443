/* A panel that runs into a slant or a circle goes along the roof or across it until it is clear, by
 * halving; those it then meets are pushed before it, the way in which they stood behind it. Tried
 * into each of the four directions and by four rules which way a panel goes. A heuristic: what it
 * answers is compared with the true roof by the caller's checker or here, place by place. */
#include "slide.h"
#include "plain_roof.h"
#include <stdlib.h>
#include <string.h>

enum { MOVES_OF_EACH = 12, SHIFT_MAX_MM = 1024, DIRECTIONS = 4, RULES = 4 };

typedef enum { SHORTER, ALONG, ACROSS, BOTH } Rule;

typedef struct {
    const WbRoof *roof;
    const WbRect *fixed;
    int n_fixed;
    const WbRect *before; /* the layout as it was */
    WbRect *rect;
    int n;
    int64_t along, across; /* +1 or -1: the direction */
    Rule rule;
    int moves_left, good; /* those before this one stand well */
} Slide;

static bool apart_x(const WbRect *a, const WbRect *b, int64_t gap_mm)
{
    return a->x_mm + a->length_mm + gap_mm <= b->x_mm || b->x_mm + b->length_mm + gap_mm <= a->x_mm;
}

static bool apart_y(const WbRect *a, const WbRect *b, int64_t gap_mm)
{
    return a->y_mm + a->width_mm + gap_mm <= b->y_mm || b->y_mm + b->width_mm + gap_mm <= a->y_mm;
}

static bool apart(const WbRect *a, const WbRect *b, int64_t gap_mm)
{
    return apart_x(a, b, gap_mm) || apart_y(a, b, gap_mm);
}

static bool place_ok(const Slide *slide, const WbRect *rect)
{
    for (int i = 0; i < slide->n_fixed; i++)
        if (!apart(&slide->fixed[i], rect, slide->roof->gap_mm))
            return false;
    return wb_roof_place_ok(slide->roof, rect);
}

static WbRect moved(const Slide *slide, WbRect rect, int64_t along_mm, int64_t across_mm)
{
    rect.x_mm += slide->along * along_mm;
    rect.y_mm += slide->across * across_mm;
    return rect;
}

/* A shift to a good place whose next shorter one is not: doubled, then halved. -1: none found. */
static int64_t shift_to_good(const Slide *slide, WbRect rect, bool along)
{
    int64_t bad_mm = 0, good_mm = 1;
    for (;; bad_mm = good_mm, good_mm *= 2) {
        WbRect at = moved(slide, rect, along ? good_mm : 0, along ? 0 : good_mm);
        if (place_ok(slide, &at))
            break;
        if (good_mm >= SHIFT_MAX_MM)
            return -1;
    }
    while (good_mm - bad_mm > 1) {
        int64_t middle_mm = (good_mm + bad_mm) / 2;
        WbRect at = moved(slide, rect, along ? middle_mm : 0, along ? 0 : middle_mm);
        if (place_ok(slide, &at))
            good_mm = middle_mm;
        else
            bad_mm = middle_mm;
    }
    return good_mm;
}

static bool move_clear(const Slide *slide, WbRect *rect)
{
    int64_t along_mm = shift_to_good(slide, *rect, true);
    int64_t across_mm = shift_to_good(slide, *rect, false);
    if (along_mm < 0 && across_mm < 0)
        return false;
    if (slide->rule == BOTH && along_mm > 1 && across_mm > 1) {
        WbRect half = moved(slide, *rect, along_mm / 2, 0);
        int64_t rest_mm = shift_to_good(slide, half, false);
        if (rest_mm >= 0) {
            *rect = moved(slide, half, 0, rest_mm);
            return true;
        }
    }
    bool along = along_mm >= 0;
    if (along && across_mm >= 0)
        along = slide->rule == ALONG || (slide->rule != ACROSS && along_mm <= across_mm);
    *rect = moved(slide, *rect, along ? along_mm : 0, along ? 0 : across_mm);
    return true;
}

/* Panel k is met by panel i: it goes on the way in which it stood behind it. False: it stood
 * before it. */
static bool push(const Slide *slide, int i, int k)
{
    const WbRect *a = &slide->before[i], *b = &slide->before[k];
    int64_t gap_mm = slide->roof->gap_mm;
    WbRect *at = &slide->rect[k];
    const WbRect *by = &slide->rect[i];
    if (apart_x(a, b, gap_mm) && (a->x_mm < b->x_mm) == (slide->along > 0)) {
        at->x_mm = slide->along > 0 ? by->x_mm + by->length_mm + gap_mm
                                    : by->x_mm - gap_mm - at->length_mm;
        return true;
    }
    if (apart_y(a, b, gap_mm) && (a->y_mm < b->y_mm) == (slide->across > 0)) {
        at->y_mm =
            slide->across > 0 ? by->y_mm + by->width_mm + gap_mm : by->y_mm - gap_mm - at->width_mm;
        return true;
    }
    return false;
}

static bool push_others(Slide *slide, int i)
{
    for (int k = 0; k < slide->n; k++) {
        if (k == i || apart(&slide->rect[i], &slide->rect[k], slide->roof->gap_mm))
            continue;
        if (slide->moves_left-- <= 0 || !push(slide, i, k) || !push_others(slide, k))
            return false;
        slide->good = k < slide->good ? k : slide->good;
    }
    return true;
}

static int first_bad(Slide *slide)
{
    for (; slide->good < slide->n; slide->good++)
        if (!place_ok(slide, &slide->rect[slide->good]))
            return slide->good;
    return -1;
}

static bool keep_apart(const Slide *slide)
{
    for (int i = 0; i < slide->n; i++)
        for (int k = 0; k < i; k++)
            if (!apart(&slide->rect[i], &slide->rect[k], slide->roof->gap_mm))
                return false;
    return true;
}

static bool slide_one_way(Slide *slide)
{
    memcpy(slide->rect, slide->before, (size_t)slide->n * sizeof *slide->rect);
    slide->moves_left = MOVES_OF_EACH * slide->n;
    slide->good = 0;
    for (int bad; (bad = first_bad(slide)) >= 0;)
        if (slide->moves_left-- <= 0 || !move_clear(slide, &slide->rect[bad]) ||
            !push_others(slide, bad))
            return false;
    return keep_apart(slide);
}

bool wb_slide(const WbRoof *roof, const WbRect *fixed, int n_fixed, WbRect *layout, int n,
              WbRect *scratch)
{
    Slide slide = {.roof = roof,
                   .fixed = fixed,
                   .n_fixed = n_fixed,
                   .before = layout,
                   .rect = scratch,
                   .n = n};
    for (int way = 0; way < DIRECTIONS * RULES; way++) {
        slide.along = way & 1 ? -1 : 1;
        slide.across = way & 2 ? -1 : 1;
        slide.rule = (Rule)(way / DIRECTIONS);
        if (!slide_one_way(&slide))
            continue;
        memcpy(layout, scratch, (size_t)n * sizeof *layout);
        return true;
    }
    return false;
}
