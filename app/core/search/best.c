#include "best.h"
#include <stdlib.h>

void wb_best_init(WbBest *best, const WbProblem *problem, size_t most)
{
    *best = (WbBest){.n_keys = wb_rank_keys(problem), .most = most};
}

static bool before(const WbBest *best, const WbBestKit *a, const WbBestKit *b)
{
    return wb_rank_key_before(best->n_keys, a->key, &a->kit, b->key, &b->kit);
}

/* The worst of the first n entries sinks to its place from i. */
static void sink(const WbBest *best, size_t i, size_t n)
{
    WbBestKit *heap = best->heap;
    for (;;) {
        size_t worst = i;
        for (size_t child = 2 * i + 1; child <= 2 * i + 2 && child < n; child++)
            if (before(best, &heap[worst], &heap[child]))
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
        if (!before(best, &heap[parent], &heap[i]))
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

static void fill(const WbBest *best, WbBestKit *entry, const WbKit *kit, const double *key)
{
    entry->kit = *kit;
    for (int i = 0; i < best->n_keys; i++)
        entry->key[i] = key[i];
}

bool wb_best_put(WbBest *best, const WbKit *kit, const double *key)
{
    if (best->n < best->most) {
        if (!grow(best))
            return false;
        fill(best, &best->heap[best->n++], kit, key);
        rise(best, best->n - 1);
        return true;
    }
    const WbBestKit *worst = &best->heap[0];
    if (!wb_rank_key_before(best->n_keys, key, kit, worst->key, &worst->kit))
        return true;
    fill(best, &best->heap[0], kit, key);
    sink(best, 0, best->n);
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
