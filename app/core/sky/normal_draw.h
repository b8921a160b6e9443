/* Normal draws in pairs, by Box & Muller (Annals of Mathematical Statistics 29, 1958, 610), from
 * integer draws. Private to core/sky. */
#ifndef WB_NORMAL_DRAW_H
#define WB_NORMAL_DRAW_H

#include "random.h"

/* Two independent draws of mean 0 and standard deviation 1. With two draws a, b of wb_random_unit,
 * in this order: r = sqrt(-2 ln(1 - a)); first = r cos(2 pi b), second = r sin(2 pi b). */
typedef struct {
    double first, second;
} WbNormalPair;

WbNormalPair wb_normal_pair(WbRandom *random);

#endif
