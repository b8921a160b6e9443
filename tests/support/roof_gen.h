/* Random roofs, seeded: vans, boats, cabins and trailers with obstacles of the sizes vents, hatches
 * and racks have, and one panel of a usual size. The same seed is the same roof everywhere. */
#ifndef WB_TEST_ROOF_GEN_H
#define WB_TEST_ROOF_GEN_H

#include "roof_cases.h"
#include <stdio.h>

/* 0 to 6 obstacles. `most` is 0: not known. */
RoofCase *roof_gen(uint64_t seed);
/* About n_panels fit by area; up to 4 obstacles. */
RoofCase *roof_gen_for(uint64_t seed, int n_panels);
/* name, roof, panel and obstacles as a row of roof.csv, most and methods 0. */
void roof_gen_print(FILE *file, const RoofCase *roof_case);

#endif
