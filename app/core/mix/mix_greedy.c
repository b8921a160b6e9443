#include "mix_greedy.h"
#include <stdlib.h>

/* Rules: what is laid first, along which axis corners are met first, which way is tried first. */
enum { BY_AREA, BY_LONG_SIDE, BY_SHORT_SIDE, ORDERS, WAYS = 4 };

typedef struct {
    const WbMixQuestion *question;
    WbZone *laid; /* grown panels, from the usable corner */
    int n_laid;
    int64_t *corner[WB_AXES]; /* candidates, ascending */
    int n_corner[WB_AXES];
    int *order; /* kinds */
    uint64_t *steps;
} Greedy;

static int64_t key_of(const WbMixKind *kind, int by)
{
    int64_t a = kind->grown_mm[0], b = kind->grown_mm[1];
    if (by == BY_AREA)
        return a * b;
    return (by == BY_LONG_SIDE) == (a > b) ? a : b;
}

static void sort_kinds(Greedy *greedy, int by)
{
    const WbMixKind *kind = greedy->question->kind;
    for (int i = 0; i < greedy->question->n_kinds; i++) {
        int k = i;
        for (; k > 0 && key_of(&kind[greedy->order[k - 1]], by) < key_of(&kind[i], by); k--)
            greedy->order[k] = greedy->order[k - 1];
        greedy->order[k] = i;
    }
}

static void add_corner(Greedy *greedy, int axis, int64_t at_mm)
{
    int64_t *corner = greedy->corner[axis];
    int k = greedy->n_corner[axis];
    while (k > 0 && corner[k - 1] > at_mm)
        k--;
    if (k > 0 && corner[k - 1] == at_mm)
        return;
    for (int j = greedy->n_corner[axis]++; j > k; j--)
        corner[j] = corner[j - 1];
    corner[k] = at_mm;
}

static void start(Greedy *greedy)
{
    greedy->n_laid = 0;
    for (int axis = 0; axis < WB_AXES; axis++) {
        greedy->n_corner[axis] = 0;
        add_corner(greedy, axis, 0);
    }
    for (int i = 0; i < greedy->question->n_zones; i++) {
        const WbZone *zone = &greedy->question->zone[i];
        if (zone->right_mm > 0)
            add_corner(greedy, WB_ALONG, zone->right_mm);
        if (zone->back_mm > 0)
            add_corner(greedy, WB_ACROSS, zone->back_mm);
    }
}

static bool meet(const WbZone *a, const WbZone *b, int64_t less_mm)
{
    return a->left_mm < b->right_mm && b->left_mm < a->right_mm - less_mm &&
           a->front_mm < b->back_mm && b->front_mm < a->back_mm - less_mm;
}

static bool may_stand(Greedy *greedy, const WbZone *grown)
{
    const WbMixQuestion *question = greedy->question;
    for (int i = 0; i < greedy->n_laid; i++, ++*greedy->steps)
        if (meet(grown, &greedy->laid[i], 0))
            return false;
    for (int i = 0; i < question->n_zones; i++, ++*greedy->steps)
        if (meet(grown, &question->zone[i], question->gap_mm))
            return false;
    return true;
}

/* Corners in order: all of one line along `inner` before the next. */
static bool lay(Greedy *greedy, const WbMixKind *kind, int inner, int turned)
{
    const WbMixQuestion *question = greedy->question;
    int64_t length_mm = wb_mix_size_mm(kind, WB_ALONG, turned);
    int64_t width_mm = wb_mix_size_mm(kind, WB_ACROSS, turned);
    for (int outer = 0; outer < greedy->n_corner[!inner]; outer++)
        for (int at = 0; at < greedy->n_corner[inner]; at++) {
            int64_t x = greedy->corner[WB_ALONG][inner == WB_ALONG ? at : outer];
            int64_t y = greedy->corner[WB_ACROSS][inner == WB_ALONG ? outer : at];
            WbZone grown = {x, y, x + length_mm, y + width_mm};
            ++*greedy->steps;
            if (grown.right_mm > question->room_mm[WB_ALONG] ||
                grown.back_mm > question->room_mm[WB_ACROSS] || !may_stand(greedy, &grown))
                continue;
            greedy->laid[greedy->n_laid++] = grown;
            add_corner(greedy, WB_ALONG, grown.right_mm);
            add_corner(greedy, WB_ACROSS, grown.back_mm);
            return true;
        }
    return false;
}

static void note_place(const Greedy *greedy, const WbMixKind *kind, WbMixPlace *place)
{
    const WbMixQuestion *question = greedy->question;
    WbZone grown = greedy->laid[greedy->n_laid - 1];
    *place = (WbMixPlace){{grown.left_mm + question->edge_mm[WB_ALONG],
                           grown.front_mm + question->edge_mm[WB_ACROSS],
                           grown.right_mm - grown.left_mm - question->gap_mm,
                           grown.back_mm - grown.front_mm - question->gap_mm},
                          kind->item};
}

static bool lay_all(Greedy *greedy, int way, uint64_t step_budget, WbMixPlace *place)
{
    const WbMixQuestion *question = greedy->question;
    start(greedy);
    for (int k = 0; k < question->n_kinds; k++) {
        const WbMixKind *kind = &question->kind[greedy->order[k]];
        for (int copy = 0; copy < kind->count; copy++) {
            bool laid = false;
            for (int turn = 0; turn < kind->turns && !laid; turn++)
                laid = lay(greedy, kind, way & 1, kind->turns == 2 ? turn ^ (way >> 1) : 0);
            if (!laid || *greedy->steps > step_budget)
                return false;
            note_place(greedy, kind, &place[greedy->n_laid - 1]);
        }
    }
    return true;
}

static bool try_orders(Greedy *greedy, uint64_t step_budget, const WbControl *control,
                       WbMixPlace *place)
{
    for (int by = 0; by < ORDERS; by++) {
        sort_kinds(greedy, by);
        for (int way = 0; way < WAYS; way++) {
            if (*greedy->steps > step_budget || wb_control_stopped(control))
                return false;
            if (lay_all(greedy, way, step_budget, place))
                return true;
        }
    }
    return false;
}

WbStatus wb_mix_greedy(const WbMixQuestion *question, uint64_t step_budget, WbControl *control,
                       uint64_t *steps, WbMixPlace *place, bool *found)
{
    size_t corners = (size_t)question->n_pieces + question->n_zones + 1;
    Greedy greedy = {
        .question = question,
        .laid = malloc(corners * sizeof *greedy.laid),
        .corner = {malloc(corners * sizeof(int64_t)), malloc(corners * sizeof(int64_t))},
        .order = malloc((question->n_kinds + 1) * sizeof *greedy.order),
        .steps = steps};
    WbStatus status = WB_NO_MEMORY;
    if (greedy.laid && greedy.corner[0] && greedy.corner[1] && greedy.order) {
        *found = try_orders(&greedy, step_budget, control, place);
        status = wb_control_stopped(control) ? WB_STOPPED : WB_OK;
    }
    free(greedy.laid);
    free(greedy.corner[0]);
    free(greedy.corner[1]);
    free(greedy.order);
    return status;
}
