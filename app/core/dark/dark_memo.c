#include "dark_memo.h"
#include "carry.h"
#include "kit_year.h"
#include "sides.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define FIRST_ROOM 256
#define FREE_H (-1.0)

WbDarkKey wb_dark_key(const WbProblem *problem, const WbKit *kit)
{
    WbBankKind bank = wb_bank_kind(problem, kit->storage, kit->bank_series);
    const WbDcdc *dcdc = problem->dcdc[kit->dcdc].dcdc;
    WbDarkKey key;
    memset(&key, 0, sizeof key); /* compared by its bytes */
    key.law = wb_kit_array_law(problem, kit, &bank.volts);
    key.dcdc_a = dcdc ? dcdc->output_a : 0;
    key.storage = kit->storage;
    key.bank_series = kit->bank_series;
    key.bank_parallel = kit->bank_parallel;
    key.inverter = kit->inverter;
    return key;
}

/* FNV-1a by words of 32 bits, its high bits folded in: the room is a power of 2. */
static size_t hash(const WbDarkKey *key)
{
    uint32_t word[sizeof *key / sizeof(uint32_t)];
    uint64_t h = UINT64_C(0xcbf29ce484222325);
    memcpy(word, key, sizeof word);
    for (size_t i = 0; i < sizeof word / sizeof *word; i++)
        h = (h ^ word[i]) * UINT64_C(0x100000001b3);
    return (size_t)(h ^ h >> 32);
}

/* The key's slot, or the free one where it belongs. Some slots are always free. */
static WbDarkKnown *slot_of(const WbDarkMemo *memo, const WbDarkKey *key)
{
    for (size_t i = hash(key);; i++) {
        WbDarkKnown *slot = &memo->slot[i & (memo->room - 1)];
        if (slot->dark_h < 0 || memcmp(&slot->key, key, sizeof *key) == 0)
            return slot;
    }
}

static bool grow(WbDarkMemo *memo)
{
    WbDarkMemo more = {.n = memo->n, .room = memo->room ? 2 * memo->room : FIRST_ROOM};
    more.slot = malloc(more.room * sizeof *more.slot);
    if (!more.slot)
        return false;
    for (size_t i = 0; i < more.room; i++)
        more.slot[i].dark_h = FREE_H;
    for (size_t i = 0; i < memo->room; i++)
        if (!(memo->slot[i].dark_h < 0))
            *slot_of(&more, &memo->slot[i].key) = memo->slot[i];
    free(memo->slot);
    *memo = more;
    return true;
}

double wb_dark_memo_find(const WbDarkMemo *memo, const WbDarkKey *key)
{
    if (memo->n == 0)
        return WB_MISSING;
    const WbDarkKnown *slot = slot_of(memo, key);
    return slot->dark_h < 0 ? WB_MISSING : slot->dark_h;
}

bool wb_dark_memo_put(WbDarkMemo *memo, const WbDarkKey *key, double dark_h)
{
    if (memo->n >= WB_DARK_MEMO_MOST)
        return true;
    if (2 * memo->n >= memo->room && !grow(memo))
        return false;
    WbDarkKnown *slot = slot_of(memo, key);
    memo->n += slot->dark_h < 0;
    *slot = (WbDarkKnown){*key, dark_h};
    return true;
}

bool wb_dark_memo_merge(WbDarkMemo *into, const WbDarkMemo *from)
{
    for (size_t i = 0; i < from->room; i++)
        if (!(from->slot[i].dark_h < 0) &&
            !wb_dark_memo_put(into, &from->slot[i].key, from->slot[i].dark_h))
            return false;
    return true;
}

void wb_dark_memo_free(WbDarkMemo *memo)
{
    free(memo->slot);
    *memo = (WbDarkMemo){0};
}

/* ---- any kits ---- */

typedef struct {
    WbDarkKey *key;      /* of every kit */
    uint32_t *first;     /* of every kit: the first one of its key */
    const WbKit **asked; /* the first of each key that is not known */
    double *answer;      /* of the asked */
    size_t n_asked;
} Asking;

static bool make_room(Asking *asking, size_t n)
{
    asking->key = malloc((n + 1) * sizeof *asking->key);
    asking->first = malloc((n + 1) * sizeof *asking->first);
    asking->asked = malloc((n + 1) * sizeof *asking->asked);
    asking->answer = malloc((n + 1) * sizeof *asking->answer);
    return asking->key && asking->first && asking->asked && asking->answer;
}

static void free_room(Asking *asking)
{
    free(asking->key);
    free(asking->first);
    free(asking->asked);
    free(asking->answer);
}

/* Figures that are known; of the others each key once. The keys met first are kept in a memo of
 * their own, its figures the kits' places. */
static bool sort_out(const WbDarkMemo *memo, const WbProblem *problem, const WbKit *const *kits,
                     size_t n, Asking *asking, double *dark_h)
{
    WbDarkMemo met = {0};
    bool room = true;
    for (size_t i = 0; i < n && room; i++) {
        asking->key[i] = wb_dark_key(problem, kits[i]);
        asking->first[i] = (uint32_t)i;
        dark_h[i] = wb_dark_memo_find(memo, &asking->key[i]);
        if (!isnan(dark_h[i]))
            continue;
        double before = wb_dark_memo_find(&met, &asking->key[i]);
        if (!isnan(before)) {
            asking->first[i] = (uint32_t)before;
            continue;
        }
        asking->asked[asking->n_asked++] = kits[i];
        room = wb_dark_memo_put(&met, &asking->key[i], (double)i);
    }
    wb_dark_memo_free(&met);
    return room;
}

static bool keep_answers(WbDarkMemo *memo, size_t n, const Asking *asking, double *dark_h)
{
    size_t a = 0;
    for (size_t i = 0; i < n; i++) {
        if (!isnan(dark_h[i]))
            continue;
        if (asking->first[i] != i) {
            dark_h[i] = dark_h[asking->first[i]];
            continue;
        }
        dark_h[i] = asking->answer[a++];
        if (!wb_dark_memo_put(memo, &asking->key[i], dark_h[i]))
            return false;
    }
    return true;
}

WbStatus wb_dark_memo_figures(WbDarkMemo *memo, const WbProblem *problem, const WbKit *const *kits,
                              size_t n, WbControl *control, double *dark_h)
{
    Asking asking = {0};
    WbStatus status = make_room(&asking, n) && sort_out(memo, problem, kits, n, &asking, dark_h)
                          ? WB_OK
                          : WB_NO_MEMORY;
    if (status == WB_OK)
        status = wb_carry_figures(problem, asking.asked, asking.n_asked, control, asking.answer);
    if (status == WB_OK && !keep_answers(memo, n, &asking, dark_h))
        status = WB_NO_MEMORY;
    free_room(&asking);
    return status;
}
