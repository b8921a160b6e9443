/* The best choices seen so far: a heap with the worst of them on top. */
#ifndef WB_CHOICE_LIST_H
#define WB_CHOICE_LIST_H

#include "choice.h"

typedef struct {
    WbChoiceBest *best;
    size_t n, most, room;
} WbChoiceHeap;

/* By score, then by rows. */
bool wb_choice_before(const WbChoiceBest *a, const WbChoiceBest *b);
/* Rows of a against those of b, the first slot first: below, at or above 0. */
int wb_choice_compare(const WbChoice *a, const WbChoice *b);
/* False: out of memory. */
bool wb_choice_put(WbChoiceHeap *heap, const WbChoiceBest *offer);
/* Best first; the heap is spent. */
void wb_choice_sort(WbChoiceHeap *heap);

#endif
