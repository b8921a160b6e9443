#include "random.h"

void wb_random_seed(WbRandom *random, uint64_t seed)
{
    random->state = seed;
}

uint64_t wb_random_next(WbRandom *random)
{
    uint64_t z = (random->state += 0x9e3779b97f4a7c15u);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

uint64_t wb_random_below(WbRandom *random, uint64_t below)
{
    uint64_t limit = UINT64_MAX - UINT64_MAX % below;
    uint64_t draw;
    do {
        draw = wb_random_next(random);
    } while (draw >= limit);
    return draw % below;
}

double wb_random_unit(WbRandom *random)
{
    return (double)(wb_random_next(random) >> 11) * 0x1p-53;
}
