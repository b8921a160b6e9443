/* Mixes carried as data in tests/published: roof_mixed.csv, packing.csv and squares.csv. */
#ifndef WB_TEST_MIX_CASES_H
#define WB_TEST_MIX_CASES_H

#include "mix.h"
#include <glib.h>

enum { MIX_CASE_OBSTACLES = 8, MIX_CASE_SIZES = 32 };

typedef struct {
    char *name;
    WbRoof roof; /* its obstacles point into `obstacle` */
    WbObstacle obstacle[MIX_CASE_OBSTACLES];
    WbMixItem item[MIX_CASE_SIZES];
    size_t n_items;
    WbFitAnswer answer; /* WB_FIT_UNDECIDED: not known */
} MixCase;

/* Array of MixCase*; the program ends where a file cannot be read or a row is malformed. Lengths
 * are multiplied by unit_mm. */
GPtrArray *mix_cases(const char *file, int64_t unit_mm);
/* The squares of sides 1 .. n in the boxes of least area, as the file lists them. */
GPtrArray *square_cases(void);
/* They are asked of a box. */
void square_case(MixCase *mix_case, int n, int64_t length_mm, int64_t width_mm);

#endif
