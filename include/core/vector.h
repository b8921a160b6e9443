/* Which vector code runs: chosen from what the machine can do, never by how the program was built.
 * Every way gives the same bits; the ways are told apart here so that tests can compare them. */
#ifndef WB_VECTOR_H
#define WB_VECTOR_H

#include <stdbool.h>

typedef enum {
    WB_VECTOR_PLAIN, /* what the compiler takes for granted */
    WB_VECTOR_AVX2,
    WB_VECTOR_AVX512,
    WB_N_VECTORS,
} WbVector;

bool wb_vector_runs(WbVector vector);
WbVector wb_vector_best(void);

#endif
