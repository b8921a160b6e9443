/* Seeded integer generator without global state: splitmix64 (Steele, Lea & Flood, OOPSLA 2014).
 * The same seed gives the same draws on every machine and compiler. */
#ifndef WB_RANDOM_H
#define WB_RANDOM_H

#include <stdint.h>

typedef struct {
    uint64_t state;
} WbRandom;

void wb_random_seed(WbRandom *random, uint64_t seed);
uint64_t wb_random_next(WbRandom *random);
/* Uniform in 0 .. below-1, without bias; below > 0. */
uint64_t wb_random_below(WbRandom *random, uint64_t below);
/* Uniform in [0, 1), 53 bits. */
double wb_random_unit(WbRandom *random);

#endif
