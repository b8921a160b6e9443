/* Roofs carried as data in tests/published: roof.csv and pallet.csv. */
#ifndef WB_TEST_ROOF_CASES_H
#define WB_TEST_ROOF_CASES_H

#include "roof.h"
#include <glib.h>

enum { ROOF_CASE_OBSTACLES = 8 };

typedef struct {
    char *name, *source;
    WbRoof roof; /* its obstacles point into `obstacle` */
    WbObstacle obstacle[ROOF_CASE_OBSTACLES];
    int64_t panel_a_mm, panel_b_mm;
    int most;
    bool sure; /* the value stands on two methods; a pallet row is expected to be proved */
} RoofCase;

/* Array of RoofCase*; the program ends where a file cannot be read or a row is malformed. */
GPtrArray *roof_cases(void);
GPtrArray *pallet_cases(void);
void roof_case_free(gpointer roof_case);

#endif
