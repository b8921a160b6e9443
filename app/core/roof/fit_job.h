/* One question to the roof, on its way through the methods. */
#ifndef WB_ROOF_FIT_JOB_H
#define WB_ROOF_FIT_JOB_H

#include "roof_outline.h"

typedef struct {
    const WbRoof *roof;
    int64_t panel_length_mm, panel_width_mm;
    uint64_t step_budget, steps; /* see WB_ROOF_NODE_STEPS */
    WbControl *control;
    bool unobstructed; /* no obstacle's zone meets the usable one */
    WbRoofFit found;   /* most, bound and layout so far */
} WbFitJob;

static inline bool wb_fit_proved(const WbFitJob *job)
{
    return job->found.most >= job->found.bound;
}

/* For an unobstructed roof. The first only raises `most`, soon; the other raises it and lowers
 * `bound` as far as it gets. */
WbStatus wb_fit_blocks(WbFitJob *job);
WbStatus wb_fit_rectangle(WbFitJob *job);

#endif
