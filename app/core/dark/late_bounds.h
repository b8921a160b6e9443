/* What the known dark hours of some waiting kits say of the others on their bank. */
#ifndef WB_LATE_BOUNDS_H
#define WB_LATE_BOUNDS_H

#include "late.h"

/* The waiting kits on one bank. */
typedef struct {
    uint32_t known; /* the last one that became known, +1; 0: none */
    uint32_t n_known;
    bool judged, monotone;
} WbLateBank;

/* Sorts the waiting kits by bank; room for a bank each. NULL: out of memory; for free(). */
WbLateBank *wb_late_banks(WbLate *late);
static inline bool wb_late_known(const WbLateKit *kit)
{
    return kit->fewest_h == kit->most_h;
}
/* Narrows fewest and most by what became known since it was last asked. False: out of memory. */
bool wb_late_tighten(WbLate *late, WbLateBank *banks, WbLateKit *kit);
/* Balances kits; they are known then. WB_STOPPED, WB_NO_MEMORY. */
WbStatus wb_late_ask(WbLate *late, WbLateBank *banks, WbLateKit *const *kits, size_t n);

#endif
