/* Made mixes: two or three sizes on roofs as vans, boats and cabins have them, up to four
 * obstacles. The same seed makes the same mix on every machine. */
#ifndef WB_TEST_MIX_GEN_H
#define WB_TEST_MIX_GEN_H

#include "mix_cases.h"
#include "random.h"

typedef struct {
    WbMixPlace place[WB_MIX_PANELS];
    int n;
} MixGenLayout;

/* Counts drawn until the panels have about a drawn share (50 to 98 %) of the clear area. Whether
 * they fit is not known. */
void mix_gen_drawn(MixCase *mix_case, WbRandom *random);
/* A rectangle cut from edge to edge again and again, a panel in the corner of each part; the waste
 * at the far sides is cut off and obstacles stand in what is left. `layout`: how they lie. */
void mix_gen_cut(MixCase *mix_case, WbRandom *random, MixGenLayout *layout);

/* Panels' area by the roof's clear area. */
double mix_gen_fullness(const MixCase *mix_case);

#endif
