/* The best so many kits seen so far: a heap with the worst kept kit on top. O(log n) an offer. */
#ifndef WB_BEST_H
#define WB_BEST_H

#include "rank_by.h"

typedef struct {
    WbKit kit;
    double key[WB_RANK_KEYS]; /* the first n_keys */
} WbBestKit;

typedef struct {
    int n_keys;
    WbBestKit *heap;
    size_t n, most, room;
} WbBest;

/* Of one chemistry. */
typedef struct {
    WbBest best; /* just the one */
    uint64_t feasible;
} WbTally;

void wb_best_init(WbBest *best, const WbProblem *problem, size_t most);
/* By wb_rank_key_before; the key is of wb_rank_key. False: out of memory. */
bool wb_best_put(WbBest *best, const WbKit *kit, const double *key);
/* Best first; the heap is spent. */
void wb_best_sort(WbBest *best);
void wb_best_free(WbBest *best);

#endif
