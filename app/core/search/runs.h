/* The arrays of one kind of bank in runs: behind the same controllers and breaking the same rule of
 * their own, if any. What all of a run share is asked once, and of a run that cannot matter nothing
 * is. Within a run the parts cost ever more, so that one too dear ends it. */
#ifndef WB_RUNS_H
#define WB_RUNS_H

#include "halves.h"

/* What is asked of an array again and again, close together: halves are large. */
typedef struct {
    WbHalf *half;
    double solar_a;
    int64_t parts_minor, weight_g; /* of its bill */
    bool summed;                   /* array_wh is told, here and in the half */
    double array_wh[WB_MONTHS];
} WbRunArray;

typedef struct {
    size_t
        chargers; /* the same number for runs behind the same controllers; these stand together */
    uint64_t broken; /* 0, or the bit of one rule */
    size_t from, to;
} WbRun;

typedef struct {
    WbRunArray *array;
    WbRun *run;
    size_t n_arrays, n_runs, n_chargers;
    size_t arrays_room;
} WbRuns;

/* Of halves in the order of wb_arrays_list. False: out of memory. */
bool wb_runs_fill(WbRuns *runs, const WbHalves *arrays);
void wb_runs_free(WbRuns *runs);

/* The months of the array's year, summed when they are first asked for. */
const double *wb_run_months(WbRunArray *array, const WbProblem *problem, const WbBankKind *bank);

#endif
