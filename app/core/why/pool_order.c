#include "pool.h"
#include "rank_by.h"
#include <math.h>
#include <stdlib.h>

typedef struct {
    double key[WB_RANK_KEYS];
    const WbPooled *pooled;
    int n_keys;
} Keyed;

static int compare(const void *a, const void *b)
{
    const Keyed *x = a, *y = b;
    WbKit kit_x = wb_pooled_kit(x->pooled), kit_y = wb_pooled_kit(y->pooled);
    if (wb_rank_key_before(x->n_keys, x->key, &kit_x, y->key, &kit_y))
        return -1;
    return wb_rank_key_before(x->n_keys, y->key, &kit_y, x->key, &kit_x) ? 1 : 0;
}

/* False: the place of a kit is not known. */
static bool key_all(const WbProblem *problem, const WbPool *pool, Keyed *keyed, size_t *n)
{
    int n_keys = wb_rank_keys(problem);
    *n = 0;
    for (size_t i = 0; i < pool->n; i++) {
        if (pool->kit[i].stop != WB_N_RULES)
            continue;
        double figure[WB_N_CRITERIA];
        for (int c = 0; c < WB_N_CRITERIA; c++)
            figure[c] = pool->figure[c][i];
        Keyed *kit = &keyed[(*n)++];
        *kit = (Keyed){.pooled = &pool->kit[i], .n_keys = n_keys};
        wb_rank_key_of(problem, figure, kit->key);
        for (int k = 0; k < n_keys; k++)
            if (isnan(kit->key[k]))
                return false;
    }
    return true;
}

WbStatus wb_pool_order(const WbProblem *problem, const WbPool *pool, uint32_t **order, size_t *n)
{
    if (!pool->whole)
        return WB_BAD_INPUT;
    size_t n_keyed = 0;
    Keyed *keyed = malloc((pool->n + 1) * sizeof *keyed);
    uint32_t *found = malloc((pool->n + 1) * sizeof *found);
    WbStatus status = keyed && found ? WB_OK : WB_NO_MEMORY;
    if (status == WB_OK && !key_all(problem, pool, keyed, &n_keyed))
        status = WB_BAD_INPUT;
    if (status == WB_OK) {
        qsort(keyed, n_keyed, sizeof *keyed, compare);
        for (size_t i = 0; i < n_keyed; i++)
            found[i] = (uint32_t)(keyed[i].pooled - pool->kit);
        *order = found;
        *n = n_keyed;
        found = NULL;
    }
    free(found);
    free(keyed);
    return status;
}
