/* Random roofs of vans with rounded or tapered ends, seeded: slanted edges, circles, panels of
 * usual sizes. For tests and benchmarks. */
#ifndef WB_TEST_SLANT_CASES_H
#define WB_TEST_SLANT_CASES_H

#include "random.h"
#include "roof.h"

enum { SLANT_CORNERS = 16, SLANT_OBSTACLES = 4 };

typedef struct {
    WbRoof roof; /* set its pointers anew after a copy */
    WbCorner corner[SLANT_CORNERS];
    WbObstacle obstacle[SLANT_OBSTACLES];
    int64_t panel_a_mm, panel_b_mm;
} SlantCase;

void slant_case(SlantCase *drawn, WbRandom *random);
/* Left and right exchanged. */
void slant_mirror(SlantCase *drawn);
void slant_scale(SlantCase *drawn, int64_t by);

#endif
