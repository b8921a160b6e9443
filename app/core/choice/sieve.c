/* A member that beats later vectors tends to beat the next one too, so its block is asked first.
 * NaN counts as neither less nor more, as in a comparison of doubles. */
#include "sieve.h"
#include "vector_code.h"
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#ifdef __x86_64__
#include <immintrin.h>
#endif

#define NEAR_AFTER 1024 /* members are put beside those like them after so many at least */

void wb_sieve_init(WbSieve *sieve, int n_numbers, int n_deciding)
{
    *sieve =
        (WbSieve){.n_numbers = n_numbers, .n_deciding = n_deciding, .vector = wb_vector_best()};
}

/* ---- which lanes of a block are nowhere more than v ---- */

static uint32_t nowhere_more_plain(const float *block, const float *v, int n)
{
    int more[WB_SIEVE_LANES] = {0};
    for (int i = 0; i < n; i++)
        for (int lane = 0; lane < WB_SIEVE_LANES; lane++)
            more[lane] |= block[i * WB_SIEVE_LANES + lane] > v[i];
    uint32_t lanes = 0;
    for (int lane = 0; lane < WB_SIEVE_LANES; lane++)
        lanes |= (uint32_t)(more[lane] == 0) << lane;
    return lanes;
}

#ifdef __x86_64__

WB_FOR_AVX2 static uint32_t nowhere_more_avx2(const float *block, const float *v, int n)
{
    __m256 more[4];
    for (int part = 0; part < 4; part++)
        more[part] = _mm256_setzero_ps();
    for (int i = 0; i < n; i++) {
        __m256 most = _mm256_set1_ps(v[i]);
        for (int part = 0; part < 4; part++) {
            __m256 x = _mm256_loadu_ps(block + i * WB_SIEVE_LANES + 8 * part);
            more[part] = _mm256_or_ps(more[part], _mm256_cmp_ps(x, most, _CMP_GT_OQ));
        }
    }
    uint32_t lanes = 0;
    for (int part = 0; part < 4; part++)
        lanes |= (uint32_t)_mm256_movemask_ps(more[part]) << (8 * part);
    return ~lanes;
}

WB_FOR_AVX512 static uint32_t nowhere_more_avx512(const float *block, const float *v, int n)
{
    __mmask16 low = 0xffff, high = 0xffff;
    for (int i = 0; i < n && (low | high); i++) {
        __m512 most = _mm512_set1_ps(v[i]);
        const float *x = block + i * WB_SIEVE_LANES;
        low = _mm512_mask_cmp_ps_mask(low, _mm512_loadu_ps(x), most, _CMP_NGT_UQ);
        high = _mm512_mask_cmp_ps_mask(high, _mm512_loadu_ps(x + 16), most, _CMP_NGT_UQ);
    }
    return (uint32_t)low | (uint32_t)high << 16;
}

#endif

/* Of block i of these. */
static uint32_t nowhere_more(const WbSieve *sieve, const float *blocks, size_t i, const float *v)
{
    const float *x = blocks + i * (size_t)sieve->n_numbers * WB_SIEVE_LANES;
#ifdef __x86_64__
    if (sieve->vector == WB_VECTOR_AVX512)
        return nowhere_more_avx512(x, v, sieve->n_numbers);
    if (sieve->vector == WB_VECTOR_AVX2)
        return nowhere_more_avx2(x, v, sieve->n_numbers);
#endif
    return nowhere_more_plain(x, v, sieve->n_numbers);
}

/* ---- the vectors themselves ---- */

static bool beats_in_full(const WbSieve *sieve, const double *a, const double *b)
{
    bool better = false;
    for (int i = 0; i < sieve->n_numbers; i++) {
        if (a[i] > b[i])
            return false;
        better |= i < sieve->n_deciding && a[i] < b[i];
    }
    return better;
}

static bool block_beats(const WbSieve *sieve, size_t block, const float *v, const double *numbers)
{
    uint32_t lanes = nowhere_more(sieve, sieve->block, block, v);
    for (; lanes; lanes &= lanes - 1) {
        size_t member = block * WB_SIEVE_LANES + (size_t)__builtin_ctz(lanes);
        if (member >= sieve->n)
            return false;
        if (beats_in_full(sieve, sieve->full + member * (size_t)sieve->n_numbers, numbers))
            return true;
    }
    return false;
}

static size_t blocks_of(size_t n)
{
    return (n + WB_SIEVE_LANES - 1) / WB_SIEVE_LANES;
}

static void round_all(const WbSieve *sieve, const double *numbers, float *v)
{
    for (int i = 0; i < sieve->n_numbers; i++)
        v[i] = (float)numbers[i];
}

bool wb_sieve_beats(WbSieve *sieve, const double *numbers)
{
    float v[WB_SIEVE_MOST];
    size_t n_blocks = blocks_of(sieve->n);
    round_all(sieve, numbers, v);
    if (sieve->last < n_blocks && block_beats(sieve, sieve->last, v, numbers))
        return true;
    for (size_t first = 0; first < n_blocks; first += WB_SIEVE_LANES) {
        uint32_t blocks = nowhere_more(sieve, sieve->corner, first / WB_SIEVE_LANES, v);
        for (; blocks; blocks &= blocks - 1) {
            size_t block = first + (size_t)__builtin_ctz(blocks);
            if (block < n_blocks && block_beats(sieve, block, v, numbers)) {
                sieve->last = block;
                return true;
            }
        }
    }
    return false;
}

/* ---- new members ---- */

static bool grow(WbSieve *sieve)
{
    size_t room = sieve->room ? 2 * sieve->room : WB_SIEVE_LANES * WB_SIEVE_LANES;
    size_t numbers = room * (size_t)sieve->n_numbers;
    float *block = realloc(sieve->block, (numbers + 1) * sizeof *block);
    if (!block)
        return false;
    sieve->block = block;
    float *corner = realloc(sieve->corner, (numbers / WB_SIEVE_LANES + 1) * sizeof *corner);
    if (!corner)
        return false;
    sieve->corner = corner;
    double *full = realloc(sieve->full, (numbers + 1) * sizeof *full);
    if (!full)
        return false;
    sieve->full = full;
    sieve->room = room;
    return true;
}

/* Lane i of blocks laid out like block and corner; the first lane of a block empties the others. */
static float *lane_of(const WbSieve *sieve, float *blocks, size_t i)
{
    size_t n_numbers = (size_t)sieve->n_numbers;
    float *block = blocks + i / WB_SIEVE_LANES * n_numbers * WB_SIEVE_LANES;
    for (size_t k = 0; i % WB_SIEVE_LANES == 0 && k < n_numbers * WB_SIEVE_LANES; k++)
        block[k] = INFINITY;
    return block + i % WB_SIEVE_LANES;
}

/* The member's rounded numbers, and what they change at the corner of its block. */
static void place_member(WbSieve *sieve, size_t member)
{
    const double *numbers = sieve->full + member * (size_t)sieve->n_numbers;
    float *lane = lane_of(sieve, sieve->block, member);
    size_t block = member / WB_SIEVE_LANES;
    float *corner = member % WB_SIEVE_LANES == 0
                        ? lane_of(sieve, sieve->corner, block)
                        : sieve->corner +
                              block / WB_SIEVE_LANES * (size_t)sieve->n_numbers * WB_SIEVE_LANES +
                              block % WB_SIEVE_LANES;
    for (int i = 0; i < sieve->n_numbers; i++) {
        float x = (float)numbers[i], *least = &corner[i * WB_SIEVE_LANES];
        lane[i * WB_SIEVE_LANES] = x;
        x = isnan(x) ? -INFINITY : x; /* beats like the least */
        *least = x < *least ? x : *least;
    }
}

/* Members like each other beside each other, so that corners tell more. */
static bool bring_near(WbSieve *sieve)
{
    size_t n = sieve->n, n_numbers = (size_t)sieve->n_numbers;
    uint32_t *order = malloc(n * sizeof *order);
    double *full = malloc((sieve->room * n_numbers + 1) * sizeof *full);
    if (!order || !full) {
        free(order);
        free(full);
        return false;
    }
    for (size_t i = 0; i < n; i++)
        order[i] = (uint32_t)i;
    wb_sieve_order(sieve->full, n_numbers, order, n);
    for (size_t i = 0; i < n; i++)
        memcpy(full + i * n_numbers, sieve->full + order[i] * n_numbers, n_numbers * sizeof *full);
    free(sieve->full);
    sieve->full = full;
    for (size_t i = 0; i < n; i++)
        place_member(sieve, i);
    free(order);
    sieve->n_near = n;
    return true;
}

bool wb_sieve_fill(WbSieve *sieve, const double *numbers, size_t n)
{
    wb_sieve_clear(sieve);
    while (sieve->room < n)
        if (!grow(sieve))
            return false;
    if (n == 0)
        return true;
    memcpy(sieve->full, numbers, n * (size_t)sieve->n_numbers * sizeof *numbers);
    sieve->n = n;
    return bring_near(sieve);
}

bool wb_sieve_add(WbSieve *sieve, const double *numbers)
{
    if (sieve->n == sieve->room && !grow(sieve))
        return false;
    size_t n_numbers = (size_t)sieve->n_numbers;
    memcpy(sieve->full + sieve->n * n_numbers, numbers, n_numbers * sizeof *numbers);
    place_member(sieve, sieve->n);
    sieve->n++;
    size_t far = sieve->n - sieve->n_near;
    return far < NEAR_AFTER || 2 * far < sieve->n || bring_near(sieve);
}

void wb_sieve_clear(WbSieve *sieve)
{
    sieve->n = sieve->n_near = sieve->last = 0;
}

void wb_sieve_free(WbSieve *sieve)
{
    free(sieve->block);
    free(sieve->corner);
    free(sieve->full);
    *sieve = (WbSieve){0};
}
