#include "front.h"
#include <stdlib.h>
#include <string.h>

/* Offers gathered before a filter pass: as many as the front has, so that passes stay few; not so
 * many that they leave the near memory while the front is small. */
#define BUFFER_LEAST 1024
#define BUFFER_MOST 65536

void wb_front_init(WbFront *front, uint32_t criteria, WbControl *control)
{
    *front = (WbFront){.criteria = criteria, .control = control};
    for (int c = 0; c < WB_N_CRITERIA; c++)
        front->n_criteria += criteria >> c & 1;
    wb_sieve_init(&front->sieve, front->n_criteria, front->n_criteria);
}

static int by_vector(const void *left, const void *right)
{
    const WbFrontKit *a = left, *b = right;
    for (int i = 0; i < WB_N_CRITERIA; i++)
        if (a->worse[i] != b->worse[i])
            return a->worse[i] < b->worse[i] ? -1 : 1;
    return 0;
}

static void sort(WbFrontKit *kits, size_t n)
{
    if (n > 0) /* an empty front has no array, which qsort may not be given */
        qsort(kits, n, sizeof *kits, by_vector);
}

/* Leaves out those of kits[from .. to) that the sieve beats, moves the others to `into` and, where
 * they are new, puts them into it. Where they end. */
static WbStatus keep_unbeaten(WbFront *front, WbSieve *sieve, size_t from, size_t to, bool new,
                              size_t *into)
{
    for (size_t i = from; i < to; i++) {
        WbFrontKit kit = front->kits[i];
        if (i % 1024 == 0 && wb_control_stopped(front->control))
            return WB_STOPPED;
        if (wb_sieve_beats(sieve, kit.worse))
            continue;
        if (new && !wb_sieve_add(sieve, kit.worse))
            return WB_NO_MEMORY;
        front->kits[(*into)++] = kit;
    }
    return WB_OK;
}

/* The sieve anew, of the whole front. */
static WbStatus refill(WbFront *front)
{
    wb_sieve_clear(&front->sieve);
    for (size_t i = 0; i < front->n; i++)
        if (!wb_sieve_add(&front->sieve, front->kits[i].worse))
            return WB_NO_MEMORY;
    return WB_OK;
}

/* What the front kept before has been held against what came since already; so only what came since
 * is held against itself, and the front against what is left of that. */
static WbStatus filter(WbFront *front)
{
    WbSieve sieve;
    size_t n_new = front->n_front, n_old = 0;
    wb_sieve_init(&sieve, front->n_criteria, front->n_criteria);
    if (front->n == front->n_front)
        return WB_OK;
    sort(front->kits + front->n_front, front->n - front->n_front);
    WbStatus status = keep_unbeaten(front, &sieve, front->n_front, front->n, true, &n_new);
    if (status == WB_OK)
        status = keep_unbeaten(front, &sieve, 0, front->n_front, false, &n_old);
    wb_sieve_free(&sieve);
    if (status != WB_OK)
        return status;
    memmove(front->kits + n_old, front->kits + front->n_front,
            (n_new - front->n_front) * sizeof *front->kits);
    front->n = front->n_front = n_old + n_new - front->n_front;
    sort(front->kits, front->n);
    return refill(front);
}

/* Too many only once there is more than a front may have. */
static WbStatus filter_or_give_up(WbFront *front)
{
    WbStatus status = filter(front);
    if (status == WB_OK && front->n_front > WB_RANK_FRONT_MOST)
        wb_front_give_up(front);
    return status;
}

static size_t buffer_of(const WbFront *front)
{
    if (front->n_front < BUFFER_LEAST)
        return BUFFER_LEAST;
    return front->n_front < BUFFER_MOST ? front->n_front : BUFFER_MOST;
}

static WbStatus make_room(WbFront *front)
{
    if (front->n < front->room)
        return WB_OK;
    if (front->n >= front->n_front + buffer_of(front)) {
        WbStatus status = filter_or_give_up(front);
        if (status != WB_OK || front->too_many)
            return status;
    }
    size_t room = front->n_front + buffer_of(front);
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
    /* First the room: that may filter, and then there is more to hold this kit against. */
    WbStatus status = front->too_many ? WB_OK : make_room(front);
    if (status == WB_OK && !front->too_many && !wb_sieve_beats(&front->sieve, kit->worse))
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
    return front->too_many ? WB_OK : filter_or_give_up(front);
}

void wb_front_give_up(WbFront *front)
{
    free(front->kits);
    front->kits = NULL;
    front->n_front = front->n = front->room = 0;
    wb_sieve_free(&front->sieve);
    front->too_many = true;
}

void wb_front_free(WbFront *front)
{
    free(front->kits);
    wb_sieve_free(&front->sieve);
    *front = (WbFront){0};
}
