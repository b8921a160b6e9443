/* Sums of arrays over one weather, kept: the same law is summed once. Thousands of arrays share few
 * laws, and most changes of a question leave the laws as they are.
 *
 * What a sum depends on is the weather and every member of the law but idle_w, which is taken off
 * afterwards; kept laws are compared by every bit, so an answer is the same by every bit with the
 * sums of earlier questions at hand and without. Any number of threads may ask at a time; sums are
 * made outside the lock. */
#ifndef WB_ARRAY_SUMS_H
#define WB_ARRAY_SUMS_H

#include "array.h"
#include <stddef.h>
#include <stdint.h>

typedef struct WbArraySums WbArraySums;

/* So many laws are kept, in so many bytes; with one more all are forgotten and keeping begins anew.
 */
#define WB_ARRAY_SUMS_MOST 16384
#define WB_ARRAY_SUMS_BYTES ((size_t)4 << 20)

typedef struct {
    uint64_t asked, reused;
    size_t kept; /* now */
} WbArraySumsCount;

/* The weather must outlive it and stay as it is. NULL: out of memory. */
WbArraySums *wb_array_sums_new(const WbPlaneHours *plane);
void wb_array_sums_free(WbArraySums *sums);
WbArraySumsCount wb_array_sums_count(WbArraySums *sums);

/* As wb_array_months. */
void wb_array_sums_months(WbArraySums *sums, const WbArrayLaw *law, WbSupply *supply);

/* A law per watt of peak_w, without limit and own draw, over the whole weather. */
typedef struct {
    double day_wh[WB_MONTHS]; /* Wh a day for each watt */
    double most;              /* in any hour, W for each watt */
} WbArrayUnit;

void wb_array_sums_unit(WbArraySums *sums, const WbArrayLaw *law, WbArrayUnit *unit);

/* As wb_array_months, with the unit of the same law at hand: an array that is never clipped is a
 * multiple of it. */
void wb_array_months_by_unit(const WbArrayLaw *law, const WbArrayUnit *unit, WbArraySums *sums,
                             WbSupply *supply);

#endif
