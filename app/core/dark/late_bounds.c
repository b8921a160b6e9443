#include "late_bounds.h"
#include "kit_year.h"
#include <stdlib.h>

#define MOST_ASKED 64  /* at once */
#define MOST_CHAIN 256 /* known kits of one bank that others are held against */

static int by_bank(const void *left, const void *right)
{
    const WbKit *a = &((const WbLateKit *)left)->kit, *b = &((const WbLateKit *)right)->kit;
    if (a->storage != b->storage)
        return a->storage - b->storage;
    if (a->bank_series != b->bank_series)
        return a->bank_series - b->bank_series;
    if (a->bank_parallel != b->bank_parallel)
        return a->bank_parallel - b->bank_parallel;
    return wb_kit_compare(NULL, a, b);
}

static bool same_bank(const WbKit *a, const WbKit *b)
{
    return a->storage == b->storage && a->bank_series == b->bank_series &&
           a->bank_parallel == b->bank_parallel;
}

WbLateBank *wb_late_banks(WbLate *late)
{
    WbLateBank *banks = calloc(late->n + 1, sizeof *banks);
    if (!banks)
        return NULL;
    qsort(late->kit, late->n, sizeof *late->kit, by_bank);
    uint32_t bank = 0;
    for (size_t i = 0; i < late->n; i++) {
        if (i > 0 && !same_bank(&late->kit[i - 1].kit, &late->kit[i].kit))
            bank++;
        late->kit[i].bank = bank;
        late->kit[i].next = late->kit[i].seen = 0;
    }
    return banks;
}

static bool is_monotone(const WbLate *late, WbLateBank *bank, const WbKit *kit)
{
    if (!bank->judged) {
        WbYearKit year_kit;
        wb_kit_year_fill(late->problem, kit, &year_kit);
        bank->monotone = wb_year_is_monotone(&year_kit);
        bank->judged = true;
    }
    return bank->monotone;
}

static bool never_darker(const WbLate *late, const WbLateKit *a, const WbLateKit *b)
{
    const WbFeed feed_a = {&a->key.law, a->key.dcdc_a, a->kit.inverter};
    const WbFeed feed_b = {&b->key.law, b->key.dcdc_a, b->kit.inverter};
    return wb_feed_never_less(&late->carry->needs, &feed_a, &feed_b);
}

bool wb_late_tighten(WbLate *late, WbLateBank *banks, WbLateKit *kit)
{
    WbLateBank *bank = &banks[kit->bank];
    if (wb_late_known(kit) || bank->known == kit->seen || !is_monotone(late, bank, &kit->kit))
        return true;
    for (uint32_t i = bank->known; i != kit->seen; i = late->kit[i - 1].next) {
        const WbLateKit *known = &late->kit[i - 1];
        if (known->fewest_h > kit->fewest_h && never_darker(late, known, kit))
            kit->fewest_h = known->fewest_h;
        if (known->fewest_h < kit->most_h && never_darker(late, kit, known))
            kit->most_h = known->fewest_h;
    }
    kit->seen = bank->known;
    if (!wb_late_known(kit))
        return true;
    kit->figure[WB_CRITERION_DARK] = kit->fewest_h;
    return wb_dark_memo_put(late->memo, &kit->key, kit->fewest_h);
}

static void join_chain(WbLate *late, WbLateBank *bank, WbLateKit *kit)
{
    if (bank->n_known == MOST_CHAIN)
        return;
    bank->n_known++;
    kit->next = bank->known;
    bank->known = (uint32_t)(kit - late->kit) + 1;
}

static WbStatus ask_some(WbLate *late, WbLateBank *banks, WbLateKit *const *kits, size_t n)
{
    const WbKit *asked[MOST_ASKED];
    double dark_h[MOST_ASKED];
    for (size_t i = 0; i < n; i++)
        asked[i] = &kits[i]->kit;
    WbStatus status =
        wb_dark_memo_figures(late->memo, late->problem, asked, n, late->control, dark_h);
    for (size_t i = 0; i < n && status == WB_OK; i++) {
        kits[i]->fewest_h = kits[i]->most_h = kits[i]->figure[WB_CRITERION_DARK] = dark_h[i];
        join_chain(late, &banks[kits[i]->bank], kits[i]);
    }
    return status;
}

WbStatus wb_late_ask(WbLate *late, WbLateBank *banks, WbLateKit *const *kits, size_t n)
{
    WbStatus status = WB_OK;
    for (size_t i = 0; i < n && status == WB_OK; i += MOST_ASKED)
        status = ask_some(late, banks, kits + i, n - i < MOST_ASKED ? n - i : MOST_ASKED);
    return status;
}
