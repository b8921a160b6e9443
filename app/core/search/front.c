#include "front.h"
#include <stdlib.h>
#include <string.h>

#define FRONT_BUFFER 65536 /* offers gathered before a filter pass */
#define FRONT_GLANCE 32    /* members an offer is held against at once */

void wb_front_init(WbFront *front, uint32_t criteria, WbControl *control)
{
    *front = (WbFront){.criteria = criteria, .control = control};
    for (int c = 0; c < WB_N_CRITERIA; c++)
        front->n_criteria += criteria >> c & 1;
}

/* a at least as good everywhere and better somewhere */
static bool beats(const double *a, const double *b, int n)
{
    bool better = false;
    for (int i = 0; i < n; i++) {
        if (a[i] > b[i])
            return false;
        better |= a[i] < b[i];
    }
    return better;
}

static int by_vector(const void *left, const void *right)
{
    const WbFrontKit *a = left, *b = right;
    for (int i = 0; i < WB_N_CRITERIA; i++)
        if (a->worse[i] != b->worse[i])
            return a->worse[i] < b->worse[i] ? -1 : 1;
    return 0;
}

static bool beaten(const WbFront *front, size_t n_kept, const WbFrontKit *kit)
{
    for (size_t i = 0; i < n_kept; i++)
        if (beats(front->kits[i].worse, kit->worse, front->n_criteria))
            return true;
    return false;
}

static WbStatus filter(WbFront *front)
{
    if (front->n > 0) /* an empty front has no array, which qsort may not be given */
        qsort(front->kits, front->n, sizeof *front->kits, by_vector);
    size_t kept = 0;
    for (size_t i = 0; i < front->n; i++) {
        if (i % 1024 == 0 && wb_control_stopped(front->control))
            return WB_STOPPED;
        if (!beaten(front, kept, &front->kits[i])) {
            WbFrontKit kit = front->kits[i];
            front->kits[kept++] = kit;
        }
    }
    front->n = front->n_front = kept;
    return WB_OK;
}

static WbStatus make_room(WbFront *front)
{
    if (front->n < front->room)
        return WB_OK;
    if (front->n >= front->n_front + FRONT_BUFFER) {
        WbStatus status = filter(front);
        if (status != WB_OK)
            return status;
    }
    size_t room = front->n_front + FRONT_BUFFER;
    if (room <= front->room)
        return WB_OK;
    WbFrontKit *grown = realloc(front->kits, room * sizeof *grown);
    if (!grown)
        return WB_NO_MEMORY;
    front->kits = grown;
    front->room = room;
    return WB_OK;
}

WbStatus wb_front_put(WbFront *front, const WbFrontKit *kit)
{
    size_t glance = front->n_front < FRONT_GLANCE ? front->n_front : FRONT_GLANCE;
    if (beaten(front, glance, kit))
        return WB_OK;
    WbStatus status = make_room(front);
    if (status == WB_OK)
        front->kits[front->n++] = *kit;
    return status;
}

WbStatus wb_front_offer(WbFront *front, const WbKit *kit, const WbFigures *figures)
{
    double figure[WB_N_CRITERIA];
    for (int c = 0; c < WB_N_CRITERIA; c++)
        figure[c] = wb_figure(figures, (WbCriterion)c);
    return wb_front_offer_of(front, kit, figure);
}

WbStatus wb_front_offer_of(WbFront *front, const WbKit *kit, const double figure[WB_N_CRITERIA])
{
    WbFrontKit offer = {.kit = *kit};
    int n = 0;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        if (!(front->criteria >> c & 1))
            continue;
        bool less = wb_criterion_less_is_better((WbCriterion)c);
        offer.worse[n++] = less ? figure[c] : -figure[c];
    }
    return wb_front_put(front, &offer);
}

WbStatus wb_front_finish(WbFront *front)
{
    return filter(front);
}

void wb_front_free(WbFront *front)
{
    free(front->kits);
    *front = (WbFront){0};
}
