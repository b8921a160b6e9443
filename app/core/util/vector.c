#include "vector.h"

bool wb_vector_runs(WbVector vector)
{
#ifdef __x86_64__
    if (vector == WB_VECTOR_AVX2)
        return __builtin_cpu_supports("avx2");
    if (vector == WB_VECTOR_AVX512)
        return __builtin_cpu_supports("avx512f");
#endif
    return vector == WB_VECTOR_PLAIN;
}

WbVector wb_vector_best(void)
{
    WbVector best = WB_VECTOR_PLAIN;
    for (int v = WB_VECTOR_PLAIN; v < WB_N_VECTORS; v++)
        if (wb_vector_runs((WbVector)v))
            best = (WbVector)v;
    return best;
}
