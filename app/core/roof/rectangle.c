#include "fit_job.h"
#include "skyline.h"
#include <stdlib.h>

/* From grown rectangles at the usable edge to true outlines on the roof. */
static WbStatus keep_rectangle(WbFitJob *job, const WbRect *grown, int n)
{
    WbZone usable = wb_roof_usable(job->roof);
    int64_t gap_mm = job->roof->gap_mm;
    WbRect *layout = malloc(n * sizeof *layout);
    if (!layout)
        return WB_NO_MEMORY;
    for (int i = 0; i < n; i++)
        layout[i] = (WbRect){usable.left_mm + grown[i].x_mm, usable.front_mm + grown[i].y_mm,
                             grown[i].length_mm - gap_mm, grown[i].width_mm - gap_mm};
    free(job->found.layout);
    job->found.layout = layout;
    job->found.most = n;
    return WB_OK;
}

/* A layout is often found at once in one of the two orders and very late in the other: they take
 * turns, each time with more of the budget. The last share is what the others leave of steps_max.
 */
static uint64_t share_of(uint64_t steps_max, int round)
{
    static const int parts_of_1024[] = {1, 1, 32, 32, 192, 192};
    int rounds = sizeof parts_of_1024 / sizeof *parts_of_1024, left = 1024;
    if (round < rounds)
        return steps_max / 1024 * parts_of_1024[round];
    for (int k = 0; k < rounds; k++)
        left -= parts_of_1024[k];
    return round == rounds ? steps_max / 1024 * left : 0;
}

static WbStatus try_rectangle(WbFitJob *job, int n, uint64_t steps_max, WbRect *grown, bool *found)
{
    WbZone usable = wb_roof_usable(job->roof);
    int64_t gap_mm = job->roof->gap_mm;
    WbSkylineJob skyline = {.room_length_mm = usable.right_mm - usable.left_mm + gap_mm,
                            .room_width_mm = usable.back_mm - usable.front_mm + gap_mm,
                            .control = job->control,
                            .steps = job->steps};
    int64_t sides[2] = {job->panel_length_mm + gap_mm, job->panel_width_mm + gap_mm};
    WbStatus status = WB_BUDGET;
    for (int round = 0; status == WB_BUDGET && share_of(steps_max, round) > 0; round++) {
        skyline.panel_length_mm = sides[round % 2];
        skyline.panel_width_mm = sides[!(round % 2)];
        skyline.step_budget = skyline.steps + share_of(steps_max, round);
        status = wb_skyline_search(&skyline, n, grown, found);
    }
    job->steps = skyline.steps;
    return status;
}

/* From the bound down: what is refuted lowers the bound, what is found ends the search. Each count
 * may use three quarters of what is left. */
WbStatus wb_fit_rectangle(WbFitJob *job)
{
    WbRect *grown = malloc(job->found.bound * sizeof *grown);
    WbStatus status = grown ? WB_OK : WB_NO_MEMORY;
    for (int n = job->found.bound; status == WB_OK && n > job->found.most; n--) {
        if (job->steps >= job->step_budget)
            break;
        bool found = false;
        uint64_t left = job->step_budget - job->steps;
        status = try_rectangle(job, n, left / 4 * 3, grown, &found);
        if (status == WB_OK && found)
            status = keep_rectangle(job, grown, n);
        else if (status == WB_OK && n == job->found.bound)
            job->found.bound = n - 1;
        else if (status == WB_BUDGET)
            status = WB_OK;
    }
    free(grown);
    return status;
}
