/* The step over lanes, compiled once for each way of WbVector. */
#include "lanes.h"
#include "array_watts.h"
#ifdef __x86_64__
#include <immintrin.h>
#endif

#ifdef __x86_64__

/* ---- SSE2, which every such machine has: two ---- */

#define WB_NUM __m128d
#define WB_OF(name) name##_2
#define WB_LESS(a, b) _mm_min_pd(a, b)
#define WB_MORE(a, b) _mm_max_pd(a, b)
#define WB_OR_0(a) _mm_max_pd(a, _mm_setzero_pd())
#define WB_CODE
#define WB_WIDTH 2
#define WB_LOAD _mm_loadu_pd
#define WB_STORE _mm_storeu_pd
#define WB_DARK(a, b) _mm_and_pd(_mm_cmpgt_pd(a, b), _mm_set1_pd(1))
#include "lanes_of.h"

/* ---- AVX2: four ---- */

#define WB_NUM __m256d
#define WB_OF(name) name##_4
#define WB_LESS(a, b) _mm256_min_pd(a, b)
#define WB_MORE(a, b) _mm256_max_pd(a, b)
#define WB_OR_0(a) _mm256_max_pd(a, _mm256_setzero_pd())
#define WB_CODE WB_FOR_AVX2
#define WB_WIDTH 4
#define WB_LOAD _mm256_loadu_pd
#define WB_STORE _mm256_storeu_pd
#define WB_DARK(a, b) _mm256_and_pd(_mm256_cmp_pd(a, b, _CMP_GT_OQ), _mm256_set1_pd(1))
#include "lanes_of.h"

/* ---- AVX-512: eight; all lanes named, for gcc 12 warns of its own header without ---- */

#define ALL_LANES ((__mmask8)0xff)

#define WB_NUM __m512d
#define WB_OF(name) name##_8
#define WB_LESS(a, b) _mm512_maskz_min_pd(ALL_LANES, a, b)
#define WB_MORE(a, b) _mm512_maskz_max_pd(ALL_LANES, a, b)
#define WB_OR_0(a) _mm512_maskz_max_pd(ALL_LANES, a, _mm512_setzero_pd())
#define WB_CODE WB_FOR_AVX512
#define WB_WIDTH 8
#define WB_LOAD _mm512_loadu_pd
#define WB_STORE _mm512_storeu_pd
#define WB_DARK(a, b) _mm512_maskz_mov_pd(_mm512_cmp_pd_mask(a, b, _CMP_GT_OQ), _mm512_set1_pd(1))
#include "lanes_of.h"

#else

/* ---- one number at a time ---- */

static double is_dark(double missing_wh, double above_wh)
{
    return missing_wh > above_wh ? 1 : 0;
}

#define WB_NUM double
#define WB_OF(name) name##_1
#define WB_LESS wb_less
#define WB_MORE wb_more
#define WB_OR_0 wb_or_0
#define WB_CODE
#define WB_WIDTH 1
#define WB_LOAD(from) (*(from))
#define WB_STORE(to, number) (*(to) = (number))
#define WB_DARK is_dark
#include "lanes_of.h"

#endif

void wb_lanes_set(WbLanes *lanes, int lane, const WbYearKit *kit)
{
    WbStepKit step = wb_step_kit(kit);
    lanes->peak_w[lane] = kit->array.peak_w;
    lanes->power_coeff_k[lane] = kit->array.power_coeff_k;
    lanes->heating_k_m2_w[lane] = kit->array.heating_k_m2_w;
    lanes->low_light_loss[lane] = kit->array.low_light_loss;
    lanes->limit_w[lane] = kit->array.limit_w;
    lanes->keep[lane] = step.keep;
    lanes->capacity_wh[lane] = step.capacity_wh;
    lanes->from_wh[lane] = step.from_wh;
    lanes->most_charge_w[lane] = step.most_charge_w;
    lanes->taper_w[lane] = step.taper_w;
    lanes->taper_per_wh[lane] = step.taper_per_wh;
    lanes->efficiency[lane] = step.efficiency;
    lanes->efficiency_full[lane] = step.efficiency_full;
    lanes->fall_per_wh[lane] = step.fall_per_wh;
    lanes->half_fall_per_wh[lane] = step.half_fall_per_wh;
    lanes->most_discharge_w[lane] = step.most_discharge_w;
    lanes->depth[lane] = kit->depth;
    lanes->cold_before_charging_w[lane] = wb_step_before_charging_w(kit, true);
    lanes->charge_wh[lane] = kit->capacity_wh;
    lanes->dark_h[lane] = 0;
}

void wb_lanes_year(WbVector vector, WbLanes *lanes,
                   const WbLaneKind *const kind[WB_MONTHS][WB_WEEK], const WbBankDays *days,
                   const WbPlaneHours *plane, int year)
{
#ifdef __x86_64__
    if (vector == WB_VECTOR_AVX512) {
        year_8(lanes, kind, days, plane, year);
        return;
    }
    if (vector == WB_VECTOR_AVX2) {
        year_4(lanes, kind, days, plane, year);
        return;
    }
    year_2(lanes, kind, days, plane, year);
#else
    (void)vector;
    year_1(lanes, kind, days, plane, year);
#endif
}
