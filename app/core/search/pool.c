#include "pool.h"
#include <stdlib.h>
#include <string.h>

#define BLOCK 256                    /* kits counted at a time among pools that share a count */
#define SLACK ((size_t)1024 * BLOCK) /* so many pools may each have a block begun */

WbKit wb_pooled_kit(const WbPooled *pooled)
{
    return (WbKit){
        .panel = pooled->panel,
        .n_series = pooled->n_series,
        .n_parallel = pooled->n_parallel,
        .controller = pooled->controller,
        .n_controllers = pooled->n_controllers,
        .storage = pooled->storage,
        .bank_series = pooled->bank_series,
        .bank_parallel = pooled->bank_parallel,
        .inverter = pooled->inverter,
        .dcdc = pooled->dcdc,
    };
}

static bool fits(const WbKit *kit)
{
    return kit->panel <= UINT16_MAX && kit->controller <= UINT16_MAX &&
           kit->storage <= UINT16_MAX && kit->inverter <= UINT16_MAX && kit->dcdc <= UINT16_MAX &&
           kit->n_series <= UINT8_MAX && kit->n_parallel <= UINT8_MAX &&
           kit->n_controllers <= UINT8_MAX && kit->bank_series <= UINT8_MAX &&
           kit->bank_parallel <= UINT8_MAX;
}

static WbPooled pack(const WbKit *kit, int stop)
{
    return (WbPooled){
        .panel = (uint16_t)kit->panel,
        .controller = (uint16_t)kit->controller,
        .storage = (uint16_t)kit->storage,
        .inverter = (uint16_t)kit->inverter,
        .dcdc = (uint16_t)kit->dcdc,
        .n_series = (uint8_t)kit->n_series,
        .n_parallel = (uint8_t)kit->n_parallel,
        .n_controllers = (uint8_t)kit->n_controllers,
        .bank_series = (uint8_t)kit->bank_series,
        .bank_parallel = (uint8_t)kit->bank_parallel,
        .stop = (uint8_t)stop,
    };
}

WbPool *wb_pool_new(atomic_size_t *shared)
{
    WbPool *pool = calloc(1, sizeof *pool);
    if (!pool)
        return NULL;
    pool->whole = true;
    pool->shared = shared;
    atomic_init(&pool->references, 1);
    return pool;
}

WbPool *wb_pool_ref(WbPool *pool)
{
    atomic_fetch_add(&pool->references, 1);
    return pool;
}

static void empty(WbPool *pool)
{
    free(pool->kit);
    pool->kit = NULL;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        free(pool->figure[c]);
        pool->figure[c] = NULL;
    }
    pool->n = pool->room = 0;
}

void wb_pool_unref(WbPool *pool)
{
    if (!pool || atomic_fetch_sub(&pool->references, 1) != 1)
        return;
    empty(pool);
    free(pool);
}

static void give_up(WbPool *pool)
{
    empty(pool);
    pool->whole = false;
}

static bool grow(WbPool *pool, size_t room)
{
    WbPooled *kit = realloc(pool->kit, room * sizeof *kit);
    if (!kit)
        return false;
    pool->kit = kit;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        double *figure = realloc(pool->figure[c], room * sizeof *figure);
        if (!figure)
            return false;
        pool->figure[c] = figure;
    }
    pool->room = room;
    return true;
}

/* More than all pools together may hold? */
static bool full(WbPool *pool)
{
    if (!pool->shared)
        return pool->n == WB_POOL_MOST;
    return pool->n % BLOCK == 0 && atomic_fetch_add(pool->shared, BLOCK) >= WB_POOL_MOST + SLACK;
}

/* By doubling while small, then by quarters, so that little stays unused. */
static size_t next_room(const WbPool *pool)
{
    if (pool->room < BLOCK)
        return BLOCK;
    return pool->room < 1024 * BLOCK ? 2 * pool->room : pool->room + pool->room / 4;
}

bool wb_pool_add(WbPool *pool, const WbKit *kit, int stop, const WbFigures *figures)
{
    if (!pool->whole)
        return true;
    if (full(pool) || !fits(kit)) {
        give_up(pool);
        return true;
    }
    if (pool->n == pool->room && !grow(pool, next_room(pool)))
        return false;
    pool->kit[pool->n] = pack(kit, stop);
    for (int c = 0; c < WB_N_CRITERIA; c++)
        pool->figure[c][pool->n] = wb_figure(figures, (WbCriterion)c);
    pool->n++;
    return true;
}

static void take_over(WbPool *pool, WbPool *other)
{
    empty(pool);
    pool->kit = other->kit;
    memcpy(pool->figure, other->figure, sizeof pool->figure);
    pool->n = other->n;
    pool->room = other->room;
    other->kit = NULL;
    memset(other->figure, 0, sizeof other->figure);
    other->n = other->room = 0;
}

bool wb_pool_append(WbPool *pool, WbPool *other)
{
    if (!pool->whole)
        return true;
    if (!other->whole || pool->n + other->n > WB_POOL_MOST) {
        give_up(pool);
        return true;
    }
    if (other->n == 0)
        return true;
    if (pool->n == 0) {
        take_over(pool, other);
        return true;
    }
    if (pool->n + other->n > pool->room && !grow(pool, pool->n + other->n))
        return false;
    memcpy(&pool->kit[pool->n], other->kit, other->n * sizeof *pool->kit);
    for (int c = 0; c < WB_N_CRITERIA; c++)
        memcpy(&pool->figure[c][pool->n], other->figure[c], other->n * sizeof(double));
    pool->n += other->n;
    return true;
}
