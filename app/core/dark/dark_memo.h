/* Dark hours that were worked out. Kits with the same bank, energy and need have the same, so they
 * are kept by these and not by kit: panels wired otherwise, or of other size and price, share one.
 */
#ifndef WB_DARK_MEMO_H
#define WB_DARK_MEMO_H

#include "kit.h"

/* All that the hourly balance of a kit hangs on, in one problem. Compared by its bytes. */
typedef struct {
    WbArrayLaw law;
    double dcdc_a;
    int storage, bank_series, bank_parallel, inverter;
} WbDarkKey;

WbDarkKey wb_dark_key(const WbProblem *problem, const WbKit *kit);

typedef struct {
    WbDarkKey key;
    double dark_h;
} WbDarkKnown;

/* Hashed, at most this many; what comes after is not kept. */
#define WB_DARK_MEMO_MOST ((size_t)1 << 18)

typedef struct {
    WbDarkKnown *slot; /* free where dark_h is below 0 */
    size_t n, room;
} WbDarkMemo; /* {0}: empty */

/* NaN: not known. */
double wb_dark_memo_find(const WbDarkMemo *memo, const WbDarkKey *key);
/* False: out of memory. */
bool wb_dark_memo_put(WbDarkMemo *memo, const WbDarkKey *key, double dark_h);
bool wb_dark_memo_merge(WbDarkMemo *into, const WbDarkMemo *from);
void wb_dark_memo_free(WbDarkMemo *memo);

/* Exact dark hours of any kits, in their order: what the memo does not know is balanced, once for
 * kits of one key, and kept. WB_STOPPED, WB_NO_MEMORY. */
WbStatus wb_dark_memo_figures(WbDarkMemo *memo, const WbProblem *problem, const WbKit *const *kits,
                              size_t n, WbControl *control, double *dark_h);

#endif
