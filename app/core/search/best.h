/* The best so many kits seen so far: a heap with the worst kept kit on top. O(log n) an offer. */
#ifndef WB_BEST_H
#define WB_BEST_H

#include "kit.h"

typedef struct {
    WbKit kit;
    double score;
} WbBestKit;

typedef struct {
    const WbProblem *problem;
    WbBestKit *heap;
    size_t n, most, room;
} WbBest;

/* Of one chemistry. */
typedef struct {
    WbBest best; /* just the one */
    uint64_t feasible;
} WbTally;

void wb_best_init(WbBest *best, const WbProblem *problem, size_t most);
/* Higher score first; equal scores by wb_kit_compare. False: out of memory. */
bool wb_best_put(WbBest *best, const WbKit *kit, double score);
/* Best first; the heap is spent. */
void wb_best_sort(WbBest *best);
void wb_best_free(WbBest *best);
/* Is a listed before b? */
bool wb_best_before(const WbProblem *problem, const WbBestKit *a, const WbBestKit *b);

#endif
