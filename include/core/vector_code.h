/* How one piece of inline code is compiled for every way of WbVector. For core only. */
#ifndef WB_VECTOR_CODE_H
#define WB_VECTOR_CODE_H

#define WB_INLINE static inline __attribute__((always_inline))

#ifdef __x86_64__
#define WB_FOR_AVX2 __attribute__((target("avx2")))
#define WB_FOR_AVX512 __attribute__((target("avx512f")))
#else
#define WB_FOR_AVX2
#define WB_FOR_AVX512
#endif

/* As the machine's own instructions, so a loop over lanes becomes one of them. */
WB_INLINE double wb_less(double a, double b)
{
    return a < b ? a : b;
}

WB_INLINE double wb_more(double a, double b)
{
    return a > b ? a : b;
}

WB_INLINE double wb_or_0(double a)
{
    return wb_more(a, 0);
}

#endif
