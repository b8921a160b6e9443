/* The arrays of one kind of bank in runs: behind the same controllers and breaking the same rule of
 * their own, if any. What all of a run share is asked once, and of a run that cannot matter nothing
 * is. Within a run the parts cost ever more, so that one too dear ends it. */
#ifndef WB_RUNS_H
#define WB_RUNS_H

#include "halves.h"

typedef struct {
    size_t chargers; /* a number for runs behind the same controllers; these stand together */
    uint64_t broken; /* 0, or the bit of one rule */
    size_t from, to;
} WbRun;

/* What is asked of arrays again and again stands in rows of its own, for halves are large. */
typedef struct {
    WbHalf **half;
    double *solar_a;
    int64_t *parts_minor, *weight_g; /* of their bills */
    double *month_wh;                /* [month x room + array]; infinite before it is summed */
    WbRun *run;
    size_t *found; /* room for who looks through a run */
    size_t n_arrays, n_runs, n_chargers, room;
} WbRuns;

/* Of halves in the order of wb_arrays_list. False: out of memory. */
bool wb_runs_fill(WbRuns *runs, const WbHalves *arrays);
void wb_runs_free(WbRuns *runs);

/* The months of one array, summed when they are first asked for, and told to its half. */
const double *wb_run_months(WbRuns *runs, size_t array, const WbProblem *problem,
                            const WbBankKind *bank);
/* What all arrays give in one month. */
static inline const double *wb_runs_month(const WbRuns *runs, int month)
{
    return &runs->month_wh[(size_t)month * runs->room];
}

/* The first of the run whose parts cost more, or its end. */
size_t wb_run_affords(const WbRuns *runs, const WbRun *run, double most_minor);

#endif
