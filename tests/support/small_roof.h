/* Small drawn roofs without corners, for tests that count every place or look for symmetries. Every
 * obstacle blocks; `obstacle` is what roof->obstacles points to. */
#ifndef WB_TEST_SMALL_ROOF_H
#define WB_TEST_SMALL_ROOF_H

#include "random.h"
#include "roof.h"

/* low .. high, each as likely. */
int64_t between(WbRandom *random, int64_t low, int64_t high);

/* n of them on, and partly beside, a roof of about `size`. */
void small_roof_draw_obstacles(WbRoof *roof, WbObstacle *obstacle, size_t n, int64_t size,
                               WbRandom *random);

/* Do they overlap, or come closer than `apart` along and across? */
bool small_roof_meet(WbRect a, WbRect b, int64_t apart);
/* Does an obstacle with its clearance reach it? */
bool small_roof_blocks(const WbRoof *roof, WbRect rect);

void small_roof_mirror(WbRoof *roof, WbObstacle *obstacle); /* left for right */
void small_roof_transpose(WbRoof *roof, WbObstacle *obstacle);
void small_roof_scale(WbRoof *roof, WbObstacle *obstacle, int64_t by);

#endif
