/* Answers of the roof fit, kept: the same question is searched once. The same question has the same
 * answer by every bit, so with a cache and without one everything comes out the same.
 *
 * What a question is: frame, corners, margin, gap, the obstacles that block (where, how large,
 * round, clearance; in their order), panels that stand pinned, panel size, at_most and node budget.
 * Names, gland, load and height limits, shade areas and what panels pass over are not in it, nor
 * anything of the rest of a brief: after a change of weights every answer is there already. Kept
 * questions are compared in full; a hash only says where to look.
 *
 * Any number of threads may use one cache at a time; searches run outside its lock. */
#ifndef WB_FIT_CACHE_H
#define WB_FIT_CACHE_H

#include "roof.h"

typedef struct WbFitCache WbFitCache;

/* Room for some thousands of answers of usual roofs. */
#define WB_FIT_CACHE_BYTES ((size_t)16 << 20)

typedef struct {
    uint64_t asked, reused; /* questions that could be asked of a roof, since it was made */
    size_t kept, bytes;     /* now */
} WbFitCacheCount;

/* The answers used longest ago go where more than most_bytes (or 4096 answers) would be kept; one
 * that is larger by itself is not kept. NULL: out of memory. Counted: one reference for each who
 * may outlive the others. */
WbFitCache *wb_fit_cache_new(size_t most_bytes);
WbFitCache *wb_fit_cache_ref(WbFitCache *cache); /* here and there NULL: nothing happens */
void wb_fit_cache_unref(WbFitCache *cache);
WbFitCacheCount wb_fit_cache_count(WbFitCache *cache);

/* As wb_roof_most_around in everything; cache NULL: just that. Only WB_OK is kept. */
WbStatus wb_fit_cache_most(WbFitCache *cache, const WbRoof *roof, int64_t panel_length_mm,
                           int64_t panel_width_mm, const WbRect *pinned, int n_pinned, int at_most,
                           uint64_t node_budget, WbControl *control, WbRoofFit *fit);

#endif
