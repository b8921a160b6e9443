#include "fit_job.h"
#include "five_blocks.h"
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

/* A skyline over the shorter side has fewer columns and is nearly always the quickest to fill; but
 * a layout is often found at once in one way and very late in the others: they take turns, each
 * time with more of the budget. The last round has what is left. */
typedef struct {
    bool over_longer; /* side of the room */
    bool across;      /* panels are first tried with their width along that side */
    int parts_of_1024;
} Round;

static const Round rounds[] = {
    {false, false, 1}, {false, true, 1},  {true, false, 1}, {true, true, 1},     {false, false, 32},
    {false, true, 32}, {true, false, 32}, {true, true, 32}, {false, false, 446}, {false, true, 446},
};

enum { N_ROUNDS = sizeof rounds / sizeof *rounds };

static void mirror(WbRect *rects, int n)
{
    for (int i = 0; i < n; i++)
        rects[i] = (WbRect){rects[i].y_mm, rects[i].x_mm, rects[i].width_mm, rects[i].length_mm};
}

static WbRoom room_of(const WbFitJob *job)
{
    WbZone usable = wb_roof_usable(job->roof);
    int64_t gap_mm = job->roof->gap_mm;
    return (WbRoom){.length_mm = usable.right_mm - usable.left_mm + gap_mm,
                    .width_mm = usable.back_mm - usable.front_mm + gap_mm,
                    .panel_length_mm = job->panel_length_mm + gap_mm,
                    .panel_width_mm = job->panel_width_mm + gap_mm,
                    .control = job->control,
                    .steps = job->steps,
                    .step_budget = job->step_budget};
}

static void exchange(int64_t *a, int64_t *b)
{
    int64_t kept = *a;
    *a = *b;
    *b = kept;
}

static WbStatus try_round(WbFitJob *job, const Round *round, int n, uint64_t steps_max,
                          WbRect *grown, bool *found)
{
    WbRoom room = room_of(job);
    bool mirrored = (room.length_mm > room.width_mm) != round->over_longer;
    if (mirrored)
        exchange(&room.length_mm, &room.width_mm);
    if (round->across)
        exchange(&room.panel_length_mm, &room.panel_width_mm);
    room.step_budget = job->steps + steps_max;
    WbStatus status = wb_skyline_search(&room, n, grown, found);
    if (status == WB_OK && *found && mirrored)
        mirror(grown, n);
    job->steps = room.steps;
    return status;
}

static WbStatus try_rectangle(WbFitJob *job, int n, uint64_t steps_max, WbRect *grown, bool *found)
{
    WbStatus status = WB_BUDGET;
    for (int k = 0; status == WB_BUDGET && k < N_ROUNDS; k++) {
        uint64_t share = steps_max / 1024 * rounds[k].parts_of_1024;
        if (share > 0)
            status = try_round(job, &rounds[k], n, share, grown, found);
    }
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

WbStatus wb_fit_blocks(WbFitJob *job)
{
    WbRoom room = room_of(job);
    WbRect *grown = malloc(job->found.bound * sizeof *grown);
    int n = 0;
    WbStatus status = grown ? wb_five_blocks(&room, job->found.bound, grown, &n) : WB_NO_MEMORY;
    job->steps = room.steps;
    if ((status == WB_OK || status == WB_BUDGET) && n > job->found.most)
        status = keep_rectangle(job, grown, n);
    free(grown);
    return status == WB_BUDGET ? WB_OK : status;
}
