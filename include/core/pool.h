/* Every kit that works, kept with what ranks it, and those beyond the limit of money or weight
 * alone: what is ranked anew under other weights, and what more money or weight would buy. Shared
 * by counting references and never changed once the ranking is made. */
#ifndef WB_POOL_H
#define WB_POOL_H

#include "kit.h"
#include <stdatomic.h>

/* Choices beyond 65,535 of a kind or counts beyond 255 do not fit: see `whole`. */
typedef struct {
    uint16_t panel, controller, storage, inverter, dcdc;
    uint8_t n_series, n_parallel, n_controllers, bank_series, bank_parallel;
    uint8_t stop; /* WB_N_RULES: it works; else WB_RULE_MONEY or WB_RULE_WEIGHT: that alone stops
                     it, by at most WB_POOL_BEYOND of the limit; its dark hours were not asked */
} WbPooled;

#define WB_POOL_MOST ((size_t)1 << 20) /* kits; 80 bytes each */
#define WB_POOL_BEYOND 1.5

typedef struct WbPool {
    bool whole;  /* false: there are more kits than WB_POOL_MOST, and none is kept */
    bool beyond; /* whether those beyond money or weight are in it */
    size_t n;
    WbPooled *kit; /* the same order with any number of workers */
    /* figure[c][i]: wb_figure of kit i; dark hours NaN where they were not worked out. */
    double *figure[WB_N_CRITERIA];
    size_t room;
    atomic_int references;
    atomic_size_t *shared; /* kits of all pools that will be one, in blocks; NULL: just this one */
} WbPool;

WbKit wb_pooled_kit(const WbPooled *pooled);

/* Empty and whole, one reference. shared: a count that all pools to be appended to each other keep
 * together, so that none outgrows them; NULL: its own. NULL: out of memory. */
WbPool *wb_pool_new(atomic_size_t *shared);
WbPool *wb_pool_ref(WbPool *pool);
void wb_pool_unref(WbPool *pool); /* NULL is in order */

/* Adds a kit; a full pool gives up all it has. False: out of memory. */
bool wb_pool_add(WbPool *pool, const WbKit *kit, int stop, const WbFigures *figures);
/* Moves all of another behind its own; the other is of no more use. */
bool wb_pool_append(WbPool *pool, WbPool *other);

/* The kits that work, best first as wb_rank orders them: indices into the pool, *order to be freed.
 * O(n log n). WB_BAD_INPUT: the pool is not whole, or the order needs dark hours not worked out. */
WbStatus wb_pool_order(const WbProblem *problem, const WbPool *pool, uint32_t **order, size_t *n);

#endif
