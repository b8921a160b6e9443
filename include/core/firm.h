/* How firmly a kit stands first: over which weights it stays there, what dethrones it, and in which
 * share of all weightings it is first (rank acceptability, Lahdelma, Hokkanen & Salminen 1998). */
#ifndef WB_FIRM_H
#define WB_FIRM_H

#include "brief.h"
#include "control.h"
#include "status.h"

/* Of one weight while the others keep their proportions. */
typedef struct {
    double low, high; /* of the sum 1: stays first within */
    int below, above; /* row that takes over beyond; -1: none, the range ends at 0 or 1 */
} WbWeightRange;

typedef struct {
    WbWeightRange range[WB_N_CRITERIA]; /* of the criteria asked for; else 0, 0, -1, -1 */
    /* The least weight that has to be taken from some criteria and given to others until another
     * row is level; NaN, by -1: no row ever is. */
    double moved;
    double weight[WB_N_CRITERIA]; /* the weights then, sum 1 */
    int by;
    double share;       /* of all weightings of the criteria that weigh now */
    double share_error; /* 0: exact; else half of the 95 % interval */
} WbFirmness;

/* Rows of worths (WbRanked.u), `first` the one in question, which no row beats at `weight` (sum 1).
 * A row that could be first somewhere must be among them: give the front. criteria: bits of those
 * whose weights may change; all that weigh are among them. share: exact for up to three that weigh
 * (interval; polygon), else from 40,000 seeded draws of the simplex, +-0.005 at 95 %. Equal scores
 * count as staying first. WB_STOPPED; WB_BAD_INPUT: nothing weighs, or `first` is beaten. */
WbStatus wb_firmness(const double (*u)[WB_N_CRITERIA], size_t n, size_t first,
                     const double weight[WB_N_CRITERIA], uint32_t criteria, uint64_t seed,
                     WbControl *control, WbFirmness *firmness);

/* The share alone, of any row: of all weightings of the criteria that weigh, those in which no row
 * beats it. */
WbStatus wb_first_share(const double (*u)[WB_N_CRITERIA], size_t n, size_t row,
                        const double weight[WB_N_CRITERIA], uint64_t seed, WbControl *control,
                        double *share, double *share_error);

#endif
