#include "question.h"
#include <stdlib.h>
#include <string.h>

void wb_mix_question_free(WbMixQuestion *question)
{
    for (int k = 0; question->kind && k < question->n_kinds; k++)
        for (int axis = 0; axis < WB_AXES; axis++)
            free(question->kind[k].at_mm[axis]);
    free(question->kind);
    free(question->piece);
    free(question->zone);
    *question = (WbMixQuestion){0};
}

static void list_zones(WbMixQuestion *question, const WbRoof *plain)
{
    int64_t length_mm = question->room_mm[WB_ALONG] - question->gap_mm;
    int64_t width_mm = question->room_mm[WB_ACROSS] - question->gap_mm;
    for (size_t i = 0; i < plain->n_obstacles; i++) {
        WbZone zone = wb_obstacle_zone(&plain->obstacles[i]);
        zone.left_mm -= question->edge_mm[WB_ALONG];
        zone.right_mm -= question->edge_mm[WB_ALONG];
        zone.front_mm -= question->edge_mm[WB_ACROSS];
        zone.back_mm -= question->edge_mm[WB_ACROSS];
        if (zone.right_mm > 0 && zone.left_mm < length_mm && zone.back_mm > 0 &&
            zone.front_mm < width_mm)
            question->zone[question->n_zones++] = zone;
    }
}

static void list_pieces(WbMixQuestion *question, const WbMixItem *items, size_t n_items)
{
    for (size_t i = 0; i < n_items; i++) {
        if (items[i].count == 0)
            continue;
        bool turns = items[i].turns && items[i].length_mm != items[i].width_mm;
        question->kind[question->n_kinds] =
            (WbMixKind){.item = (int)i,
                        .count = items[i].count,
                        .turns = turns ? 2 : 1,
                        .grown_mm = {items[i].length_mm + question->gap_mm,
                                     items[i].width_mm + question->gap_mm}};
        for (int copy = 0; copy < items[i].count; copy++)
            question->piece[question->n_pieces++] = question->n_kinds;
        question->n_kinds++;
    }
}

WbStatus wb_mix_question(const WbRoof *plain, const WbMixItem *items, size_t n_items,
                         WbMixQuestion *question)
{
    WbZone usable = wb_roof_usable(plain);
    size_t pieces = 0;
    for (size_t i = 0; i < n_items; i++)
        pieces += items[i].count;
    *question = (WbMixQuestion){.room_mm = {usable.right_mm - usable.left_mm + plain->gap_mm,
                                            usable.back_mm - usable.front_mm + plain->gap_mm},
                                .edge_mm = {usable.left_mm, usable.front_mm},
                                .gap_mm = plain->gap_mm,
                                .zone = malloc((plain->n_obstacles + 1) * sizeof *question->zone),
                                .kind = calloc(n_items + 1, sizeof *question->kind),
                                .piece = malloc((pieces + 1) * sizeof *question->piece)};
    if (!question->zone || !question->kind || !question->piece) {
        wb_mix_question_free(question);
        return WB_NO_MEMORY;
    }
    list_zones(question, plain);
    list_pieces(question, items, n_items);
    return WB_OK;
}

/* The sums reached so far, one bit a millimetre. */
typedef struct {
    uint64_t *bits, *before;
    int64_t n_mm;
    size_t words;
} Sums;

static void add_shifted(Sums *sums, int64_t by_mm)
{
    if (by_mm >= sums->n_mm)
        return;
    size_t words = (size_t)(by_mm / 64);
    int bits = (int)(by_mm % 64);
    for (size_t to = words; to < sums->words; to++) {
        uint64_t moved = sums->before[to - words] << bits;
        if (bits && to > words)
            moved |= sums->before[to - words - 1] >> (64 - bits);
        sums->bits[to] |= moved;
    }
}

/* One more panel may stand before. False: nothing new came of it. */
static bool add_panel(Sums *sums, const WbMixKind *kind, int axis)
{
    memcpy(sums->before, sums->bits, sums->words * sizeof *sums->bits);
    for (int turned = 0; turned < kind->turns; turned++)
        add_shifted(sums, wb_mix_size_mm(kind, axis, turned));
    return memcmp(sums->before, sums->bits, sums->words * sizeof *sums->bits) != 0;
}

/* Of what stands left of it (front of it), or right of it, where `mirrored`: then everything is
 * measured from the far end of the room, where a grown panel's end meets an obstacle's near side
 * and one gap. */
static void start_sums(Sums *sums, const WbMixQuestion *question, int axis, bool mirrored)
{
    memset(sums->bits, 0, sums->words * sizeof *sums->bits);
    sums->bits[0] = 1;
    for (int i = 0; i < question->n_zones; i++) {
        const WbZone *zone = &question->zone[i];
        int64_t far_mm = axis == WB_ALONG ? zone->right_mm : zone->back_mm;
        int64_t near_mm = axis == WB_ALONG ? zone->left_mm : zone->front_mm;
        int64_t end_mm = mirrored ? question->room_mm[axis] - question->gap_mm - near_mm : far_mm;
        if (end_mm < sums->n_mm)
            sums->bits[end_mm / 64] |= (uint64_t)1 << end_mm % 64;
    }
}

static void sum_others(const WbMixQuestion *question, Sums *sums, int which, int axis,
                       bool mirrored)
{
    start_sums(sums, question, axis, mirrored);
    for (int k = 0; k < question->n_kinds; k++)
        for (int copy = k == which; copy < question->kind[k].count; copy++)
            if (!add_panel(sums, &question->kind[k], axis))
                break;
}

static bool reached(const Sums *sums, int64_t at_mm)
{
    return sums->bits[at_mm / 64] >> at_mm % 64 & 1;
}

/* Whether it may stand there: its middle in the near half and pushed to the near end, or in the far
 * half and pushed to the far end. */
static bool is_position(const Sums side[2], const WbMixKind *kind, int axis, int64_t at_mm)
{
    for (int turned = 0; turned < kind->turns; turned++) {
        int64_t spare_mm = side[0].n_mm - wb_mix_size_mm(kind, axis, turned);
        if (at_mm <= spare_mm && (2 * at_mm <= spare_mm ? reached(&side[0], at_mm)
                                                        : reached(&side[1], spare_mm - at_mm)))
            return true;
    }
    return false;
}

static WbStatus find_positions(WbMixQuestion *question, Sums side[2], int which, int axis)
{
    WbMixKind *kind = &question->kind[which];
    int n = 0;
    for (int mirrored = 0; mirrored < 2; mirrored++)
        sum_others(question, &side[mirrored], which, axis, mirrored);
    for (int64_t at = 0; at < question->room_mm[axis]; at++)
        n += is_position(side, kind, axis, at);
    kind->at_mm[axis] = malloc((n + 1) * sizeof *kind->at_mm[axis]);
    if (!kind->at_mm[axis])
        return WB_NO_MEMORY;
    for (int64_t at = 0; at < question->room_mm[axis]; at++)
        if (is_position(side, kind, axis, at))
            kind->at_mm[axis][kind->n_at[axis]++] = at;
    return WB_OK;
}

WbStatus wb_mix_positions(WbMixQuestion *question)
{
    WbStatus status = WB_OK;
    for (int axis = 0; axis < WB_AXES && status == WB_OK; axis++) {
        Sums side[2];
        for (int mirrored = 0; mirrored < 2; mirrored++) {
            Sums *sums = &side[mirrored];
            *sums = (Sums){.n_mm = question->room_mm[axis],
                           .words = (size_t)question->room_mm[axis] / 64 + 1};
            sums->bits = malloc(sums->words * sizeof *sums->bits);
            sums->before = malloc(sums->words * sizeof *sums->before);
            if (!sums->bits || !sums->before)
                status = WB_NO_MEMORY;
        }
        for (int k = 0; k < question->n_kinds && status == WB_OK; k++)
            status = find_positions(question, side, k, axis);
        for (int mirrored = 0; mirrored < 2; mirrored++) {
            free(side[mirrored].bits);
            free(side[mirrored].before);
        }
    }
    return status;
}

static bool enters(const WbMixQuestion *question, const WbMixKind *kind, int turned)
{
    return wb_mix_size_mm(kind, WB_ALONG, turned) <= question->room_mm[WB_ALONG] &&
           wb_mix_size_mm(kind, WB_ACROSS, turned) <= question->room_mm[WB_ACROSS];
}

bool wb_mix_too_large(const WbMixQuestion *question)
{
    for (int k = 0; k < question->n_kinds; k++) {
        const WbMixKind *kind = &question->kind[k];
        if (!enters(question, kind, 0) && !(kind->turns == 2 && enters(question, kind, 1)))
            return true;
    }
    return false;
}

WbStatus wb_mix_spare(const WbRoof *plain, const WbMixQuestion *question, int64_t *spare_mm2)
{
    WbZone within = wb_roof_usable(plain);
    within.right_mm += plain->gap_mm;
    within.back_mm += plain->gap_mm;
    int64_t left_mm2 = wb_roof_area_left_mm2(plain, within, plain->gap_mm), wanted_mm2 = 0;
    for (int k = 0; k < question->n_kinds; k++)
        wanted_mm2 +=
            question->kind[k].count * question->kind[k].grown_mm[0] * question->kind[k].grown_mm[1];
    *spare_mm2 = left_mm2 - wanted_mm2;
    return left_mm2 < 0 ? WB_NO_MEMORY : WB_OK;
}
