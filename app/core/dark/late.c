#include "late.h"
#include "late_bounds.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MOST_WAITING ((size_t)1 << 15) /* kits */
#define MOST_BEATERS ((size_t)1 << 13)
#define BATCH 64

void wb_late_init(WbLate *late, WbCarry *carry, WbDarkMemo *memo)
{
    const WbProblem *problem = carry->problem;
    *late = (WbLate){.problem = problem, .control = carry->control, .carry = carry, .memo = memo};
    late->most_waiting = MOST_WAITING;
    late->orders = wb_rank_asks(problem, WB_CRITERION_DARK);
    late->in_front = problem->brief->front >> WB_CRITERION_DARK & 1;
}

bool wb_late_asked(const WbLate *late)
{
    return late->orders || late->in_front;
}

/* ---- the order ---- */

/* Does a worth of dark hours fall as they rise? The brief may set its ends the other way round. */
static bool fewer_is_worth_more(const WbProblem *problem)
{
    const WbAnchor *anchor = &problem->anchor[WB_CRITERION_DARK];
    return anchor->full <= anchor->none;
}

/* The highest key it can have: the exact one where its dark hours are known. Every key rises or
 * stays as dark hours fall, and each step of a sum rounds the same way up or down, so the bound
 * holds in the last bit too. */
static void fill_highest_key(const WbLate *late, WbLateKit *kit)
{
    double figure[WB_N_CRITERIA];
    memcpy(figure, kit->figure, sizeof figure);
    figure[WB_CRITERION_DARK] = kit->fewest_h;
    wb_rank_key_of(late->problem, figure, kit->order);
    if (!wb_late_known(kit) && !fewer_is_worth_more(late->problem))
        kit->order[0] = INFINITY;
}

static WbTally *tally_of(const WbLate *late, const WbKit *kit)
{
    const WbProblem *problem = late->problem;
    return &late->tally[problem->storage[kit->storage].chemistry - problem->catalogue->chemistries];
}

static bool may_enter(const WbBest *best, const WbLateKit *kit)
{
    return best->n < best->most || wb_rank_key_before(best->n_keys, kit->order, &kit->kit,
                                                      best->heap[0].key, &best->heap[0].kit);
}

static bool put_best(WbLate *late, const WbKit *kit, const double *key)
{
    return wb_best_put(late->best, kit, key) && wb_best_put(&tally_of(late, kit)->best, kit, key);
}

static int by_key(const void *left, const void *right)
{
    const WbLateKit *a = *(WbLateKit *const *)left, *b = *(WbLateKit *const *)right;
    for (int i = 0; i < WB_RANK_KEYS; i++)
        if (a->order[i] != b->order[i])
            return a->order[i] > b->order[i] ? -1 : 1;
    return wb_kit_compare(NULL, &a->kit, &b->kit);
}

/* ---- settling the places ---- */

typedef struct {
    WbLate *late;
    WbLateBank *banks;
    WbLateKit **order;
    WbLateKit *batch[BATCH]; /* to be balanced */
    size_t n_batch;
} Settling;

static bool settle_best(WbLate *late, WbLateKit *kit)
{
    fill_highest_key(late, kit);
    return put_best(late, &kit->kit, kit->order);
}

static bool beaten(const WbLate *late, const WbLateKit *kit)
{
    int n = late->front->n_criteria;
    for (size_t i = 0; i < late->n_beaters; i++) {
        const double *other = late->beaters[i];
        bool better = false, worse = false;
        for (int c = 0; c < n && !worse; c++) {
            worse = other[c] > kit->worse[c];
            better |= other[c] < kit->worse[c];
        }
        if (better && !worse)
            return true;
    }
    return false;
}

/* Its vector for the front, with the fewest dark hours it can have, last. */
static void fill_vector(const WbLate *late, WbLateKit *kit)
{
    int n = 0;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        if (c == WB_CRITERION_DARK || !(late->front->criteria >> c & 1))
            continue;
        bool less = wb_criterion_less_is_better((WbCriterion)c);
        kit->worse[n++] = less ? kit->figure[c] : -kit->figure[c];
    }
    kit->worse[n] = kit->fewest_h;
}

static WbStatus settle_front(WbLate *late, WbLateKit *kit)
{
    kit->worse[late->front->n_criteria - 1] = kit->fewest_h;
    if (beaten(late, kit))
        return WB_OK;
    if (late->n_beaters < MOST_BEATERS)
        memcpy(late->beaters[late->n_beaters++], kit->worse, sizeof kit->worse);
    return wb_front_offer_of(late->front, &kit->kit, kit->figure);
}

static WbStatus settle(WbLate *late, WbLateKit *kit, bool front)
{
    if (front)
        return settle_front(late, kit);
    return settle_best(late, kit) ? WB_OK : WB_NO_MEMORY;
}

static WbStatus settle_batch(Settling *settling, bool front)
{
    WbStatus status =
        wb_late_ask(settling->late, settling->banks, settling->batch, settling->n_batch);
    for (size_t i = 0; i < settling->n_batch && status == WB_OK; i++)
        status = settle(settling->late, settling->batch[i], front);
    settling->n_batch = 0;
    return status;
}

/* Is its place still open, whatever its dark hours are? */
static bool still_matters(WbLate *late, WbLateKit *kit, bool front)
{
    if (front && late->front->too_many)
        return false;
    if (front) {
        kit->worse[late->front->n_criteria - 1] = kit->fewest_h;
        return !beaten(late, kit);
    }
    fill_highest_key(late, kit);
    return may_enter(late->best, kit) || may_enter(&tally_of(late, &kit->kit)->best, kit);
}

static WbStatus settle_one(Settling *settling, WbLateKit *kit, bool front)
{
    WbLate *late = settling->late;
    if (!still_matters(late, kit, front))
        return WB_OK;
    double fewest_h = kit->fewest_h;
    if (!wb_late_tighten(late, settling->banks, kit))
        return WB_NO_MEMORY;
    if (kit->fewest_h != fewest_h && !still_matters(late, kit, front))
        return WB_OK;
    if (wb_late_known(kit))
        return settle(late, kit, front);
    settling->batch[settling->n_batch++] = kit;
    return settling->n_batch == BATCH ? settle_batch(settling, front) : WB_OK;
}

static WbStatus settle_in_order(Settling *settling, bool front)
{
    WbStatus status = WB_OK;
    for (size_t i = 0; i < settling->late->n && status == WB_OK; i++) {
        if (i % BATCH == 0 && wb_control_stopped(settling->late->control))
            return WB_STOPPED;
        status = settle_one(settling, settling->order[i], front);
    }
    return status == WB_OK ? settle_batch(settling, front) : status;
}

/* By all but the dark hours, so that a kit is never beaten by one that comes later. */
static int by_vector(const void *left, const void *right)
{
    const WbLateKit *a = *(WbLateKit *const *)left, *b = *(WbLateKit *const *)right;
    for (int c = 0; c < WB_N_CRITERIA; c++)
        if (a->worse[c] != b->worse[c])
            return a->worse[c] < b->worse[c] ? -1 : 1;
    return wb_kit_compare(NULL, &a->kit, &b->kit);
}

static WbStatus settle_by(Settling *settling, bool front)
{
    WbLate *late = settling->late;
    for (size_t i = 0; i < late->n; i++) {
        settling->order[i] = &late->kit[i];
        if (front)
            fill_vector(late, &late->kit[i]);
        else
            fill_highest_key(late, &late->kit[i]);
    }
    qsort(settling->order, late->n, sizeof *settling->order, front ? by_vector : by_key);
    return settle_in_order(settling, front);
}

static WbStatus settle_all(WbLate *late)
{
    if (late->n == 0)
        return WB_OK;
    Settling settling = {.late = late, .banks = wb_late_banks(late)};
    settling.order = malloc(late->n * sizeof *settling.order);
    if (late->in_front && !late->beaters)
        late->beaters = malloc(MOST_BEATERS * sizeof *late->beaters);
    bool room = settling.banks && settling.order && (!late->in_front || late->beaters);
    WbStatus status = room ? WB_OK : WB_NO_MEMORY;
    if (status == WB_OK && late->orders)
        status = settle_by(&settling, false);
    if (status == WB_OK && late->in_front)
        status = settle_by(&settling, true);
    free(settling.order);
    free(settling.banks);
    late->n = 0;
    return status;
}

/* ---- taking ---- */

static WbStatus wait_for(WbLate *late, const WbKit *kit, const double figure[WB_N_CRITERIA])
{
    if (late->n == late->room) {
        size_t room = late->room ? 2 * late->room : 256;
        WbLateKit *more = realloc(late->kit, room * sizeof *more);
        if (!more)
            return WB_NO_MEMORY;
        late->kit = more;
        late->room = room;
    }
    WbLateKit *to = &late->kit[late->n++];
    *to = (WbLateKit){.kit = *kit, .key = wb_dark_key(late->problem, kit), .most_h = INFINITY};
    memcpy(to->figure, figure, sizeof to->figure);
    double dark_h = figure[WB_CRITERION_DARK];
    if (isnan(dark_h))
        dark_h = wb_dark_memo_find(late->memo, &to->key);
    if (!isnan(dark_h))
        to->fewest_h = to->most_h = to->figure[WB_CRITERION_DARK] = dark_h;
    return late->n >= late->most_waiting ? settle_all(late) : WB_OK;
}

WbStatus wb_late_take(WbLate *late, const WbKit *kit, const double figure[WB_N_CRITERIA])
{
    if (!late->orders) {
        double key[WB_RANK_KEYS];
        wb_rank_key_of(late->problem, figure, key);
        if (!put_best(late, kit, key))
            return WB_NO_MEMORY;
    }
    if (!late->in_front && late->front) {
        WbStatus status = wb_front_offer_of(late->front, kit, figure);
        if (status != WB_OK)
            return status;
    }
    return wb_late_asked(late) ? wait_for(late, kit, figure) : WB_OK;
}

WbStatus wb_late_finish(WbLate *late)
{
    return settle_all(late);
}

void wb_late_free(WbLate *late)
{
    free(late->kit);
    free(late->beaters);
    late->kit = NULL;
    late->beaters = NULL;
    late->n = late->room = late->n_beaters = 0;
}
