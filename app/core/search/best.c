#include "best.h"
#include <stdlib.h>

void wb_best_init(WbBest *best, const WbProblem *problem, size_t most)
{
    *best = (WbBest){.problem = problem, .most = most};
}

bool wb_best_before(const WbProblem *problem, const WbBestKit *a, const WbBestKit *b)
{
    if (a->score != b->score)
        return a->score > b->score;
    return wb_kit_compare(problem, &a->kit, &b->kit) < 0;
}

/* The worst of the first n entries sinks to its place from i. */
static void sink(const WbBest *best, size_t i, size_t n)
{
    WbBestKit *heap = best->heap;
    for (;;) {
        size_t worst = i;
        for (size_t child = 2 * i + 1; child <= 2 * i + 2 && child < n; child++)
            if (wb_best_before(best->problem, &heap[worst], &heap[child]))
                worst = child;
        if (worst == i)
            return;
        WbBestKit held = heap[i];
        heap[i] = heap[worst];
        heap[worst] = held;
        i = worst;
    }
}

static void rise(const WbBest *best, size_t i)
{
    WbBestKit *heap = best->heap;
    while (i > 0) {
        size_t parent = (i - 1) / 2;
        if (!wb_best_before(best->problem, &heap[parent], &heap[i]))
            return;
        WbBestKit held = heap[i];
        heap[i] = heap[parent];
        heap[parent] = held;
        i = parent;
    }
}

static bool grow(WbBest *best)
{
    if (best->n < best->room)
        return true;
    size_t room = best->room ? 2 * best->room : 256;
    WbBestKit *grown = realloc(best->heap, room * sizeof *grown);
    if (!grown)
        return false;
    best->heap = grown;
    best->room = room;
    return true;
}

bool wb_best_put(WbBest *best, const WbKit *kit, double score)
{
    WbBestKit offer = {.kit = *kit, .score = score};
    if (best->n < best->most) {
        if (!grow(best))
            return false;
        best->heap[best->n++] = offer;
        rise(best, best->n - 1);
    } else if (wb_best_before(best->problem, &offer, &best->heap[0])) {
        best->heap[0] = offer;
        sink(best, 0, best->n);
    }
    return true;
}

void wb_best_sort(WbBest *best)
{
    for (size_t n = best->n; n > 1; n--) {
        WbBestKit worst = best->heap[0];
        best->heap[0] = best->heap[n - 1];
        best->heap[n - 1] = worst;
        sink(best, 0, n - 1);
    }
}

void wb_best_free(WbBest *best)
{
    free(best->heap);
    *best = (WbBest){0};
}
