#include "choice_list.h"
#include <stdlib.h>

int wb_choice_compare(const WbChoice *a, const WbChoice *b)
{
    for (int s = 0; s < WB_CHOICE_SLOTS; s++)
        if (a->row[s] != b->row[s])
            return a->row[s] < b->row[s] ? -1 : 1;
    return 0;
}

bool wb_choice_before(const WbChoiceBest *a, const WbChoiceBest *b)
{
    if (a->score != b->score)
        return a->score < b->score;
    return wb_choice_compare(&a->choice, &b->choice) < 0;
}

/* The worst of the first n entries sinks to its place from i. */
static void sink(WbChoiceBest *best, size_t i, size_t n)
{
    for (;;) {
        size_t worst = i;
        for (size_t child = 2 * i + 1; child <= 2 * i + 2 && child < n; child++)
            if (wb_choice_before(&best[worst], &best[child]))
                worst = child;
        if (worst == i)
            return;
        WbChoiceBest held = best[i];
        best[i] = best[worst];
        best[worst] = held;
        i = worst;
    }
}

static void rise(WbChoiceBest *best, size_t i)
{
    while (i > 0) {
        size_t parent = (i - 1) / 2;
        if (!wb_choice_before(&best[parent], &best[i]))
            return;
        WbChoiceBest held = best[i];
        best[i] = best[parent];
        best[parent] = held;
        i = parent;
    }
}

static bool grow(WbChoiceHeap *heap)
{
    if (heap->n < heap->room)
        return true;
    size_t room = heap->room ? 2 * heap->room : 16;
    WbChoiceBest *grown = realloc(heap->best, room * sizeof *grown);
    if (!grown)
        return false;
    heap->best = grown;
    heap->room = room;
    return true;
}

bool wb_choice_put(WbChoiceHeap *heap, const WbChoiceBest *offer)
{
    if (heap->n < heap->most) {
        if (!grow(heap))
            return false;
        heap->best[heap->n++] = *offer;
        rise(heap->best, heap->n - 1);
    } else if (heap->n > 0 && wb_choice_before(offer, &heap->best[0])) {
        heap->best[0] = *offer;
        sink(heap->best, 0, heap->n);
    }
    return true;
}

void wb_choice_sort(WbChoiceHeap *heap)
{
    for (size_t n = heap->n; n > 1; n--) {
        WbChoiceBest worst = heap->best[0];
        heap->best[0] = heap->best[n - 1];
        heap->best[n - 1] = worst;
        sink(heap->best, 0, n - 1);
    }
}
