/* The share of all weightings in which a row is first. Private to core. */
#ifndef WB_FIRM_SHARE_H
#define WB_FIRM_SHARE_H

#include "firm.h"

typedef struct {
    const double (*u)[WB_N_CRITERIA];
    size_t n, first;
    int d;
    int criterion[WB_N_CRITERIA]; /* the d that weigh */
} WbShareQuestion;

WbStatus wb_share_of_weightings(const WbShareQuestion *question, uint64_t seed, WbControl *control,
                                double *share, double *share_error);

#endif
