/* Vectors gathered to tell quickly whether one of them beats a new one: at most as much in every
 * number and less in one. They stand in blocks, rounded to float, and a block is compared at once:
 * rounding keeps order, so what passes rounded is compared in full, and nothing else need be. The
 * least numbers of a block stand in blocks of their own: a block none of whose members can be
 * nowhere more is not even asked. */
#ifndef WB_SIEVE_H
#define WB_SIEVE_H

#include "vector.h"
#include <stddef.h>
#include <stdint.h>

#define WB_SIEVE_MOST 48 /* numbers in a vector */
#define WB_SIEVE_LANES 32

typedef struct {
    int n_numbers;
    int n_deciding; /* "less in one" means one of the first so many; more may be equal or less */
    float *block;   /* [block][number][lane] */
    float *corner;  /* [32 blocks][number][lane]: the least of a block's members */
    double *full;   /* [member][number] */
    size_t n, room;
    size_t n_near; /* so many were last put beside those like them */
    size_t last;   /* the block that beat the last one is asked first */
    WbVector vector;
} WbSieve;

void wb_sieve_init(WbSieve *sieve, int n_numbers, int n_deciding);
/* Does a member beat them? */
bool wb_sieve_beats(WbSieve *sieve, const double *numbers);
/* False: out of memory. */
bool wb_sieve_add(WbSieve *sieve, const double *numbers);
/* These and no others; false: out of memory. */
bool wb_sieve_fill(WbSieve *sieve, const double *numbers, size_t n);
void wb_sieve_clear(WbSieve *sieve); /* keeps the memory */
void wb_sieve_free(WbSieve *sieve);

/* An order of n members of so many numbers each, in which any 32 from a multiple of 32 on are
 * alike: halved again and again in the number they differ most in. `order` holds 0 .. n-1 before.
 */
void wb_sieve_order(const double *full, size_t n_numbers, uint32_t *order, size_t n);

#endif
