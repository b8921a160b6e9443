#include "runs.h"
#include "kit_year.h"
#include <math.h>
#include <stdlib.h>

static bool same_chargers(const WbKit *a, const WbKit *b)
{
    return a->controller == b->controller && a->n_controllers == b->n_controllers;
}

/* No more runs than arrays. Nothing in it need outlast a growth. */
static bool make_room(WbRuns *runs, size_t n)
{
    if (n <= runs->room)
        return true;
    wb_runs_free(runs);
    *runs = (WbRuns){.half = malloc(n * sizeof(WbHalf *)),
                     .solar_a = malloc(n * sizeof(double)),
                     .parts_minor = malloc(n * sizeof(int64_t)),
                     .weight_g = malloc(n * sizeof(int64_t)),
                     .month_wh = malloc(WB_MONTHS * n * sizeof(double)),
                     .run = malloc(n * sizeof(WbRun)),
                     .found = malloc(n * sizeof(size_t)),
                     .room = n};
    return runs->half && runs->solar_a && runs->parts_minor && runs->weight_g && runs->month_wh &&
           runs->run && runs->found;
}

static void add(WbRuns *runs, WbHalf *half)
{
    size_t i = runs->n_arrays++;
    runs->half[i] = half;
    runs->solar_a[i] = half->solar_a;
    runs->parts_minor[i] = half->bill.parts_minor;
    runs->weight_g[i] = half->bill.weight_g;
    for (size_t m = 0; m < WB_MONTHS; m++)
        runs->month_wh[m * runs->room + i] = INFINITY;
}

/* One run of those among the halves that break just this, in their order. */
static void add_run(WbRuns *runs, WbHalf *half, size_t n, uint64_t broken)
{
    size_t from = runs->n_arrays;
    for (size_t i = 0; i < n; i++)
        if (half[i].broken == broken)
            add(runs, &half[i]);
    runs->run[runs->n_runs++] = (WbRun){runs->n_chargers, broken, from, runs->n_arrays};
}

bool wb_runs_fill(WbRuns *runs, const WbHalves *arrays)
{
    if (!make_room(runs, arrays->n))
        return false;
    runs->n_arrays = runs->n_runs = runs->n_chargers = 0;
    for (size_t from = 0, to; from < arrays->n; from = to) {
        WbHalf *half = &arrays->half[from];
        uint64_t left = 0;
        bool sound = false;
        for (to = from; to < arrays->n && same_chargers(&half->kit, &arrays->half[to].kit); to++) {
            left |= arrays->half[to].broken;
            sound |= arrays->half[to].broken == 0;
        }
        if (sound)
            add_run(runs, half, to - from, 0);
        for (; left; left &= left - 1)
            add_run(runs, half, to - from, left & -left);
        runs->n_chargers++;
    }
    return true;
}

void wb_runs_free(WbRuns *runs)
{
    free(runs->half);
    free(runs->solar_a);
    free(runs->parts_minor);
    free(runs->weight_g);
    free(runs->month_wh);
    free(runs->run);
    free(runs->found);
    *runs = (WbRuns){0};
}

const double *wb_run_months(WbRuns *runs, size_t array, const WbProblem *problem,
                            const WbBankKind *bank)
{
    WbHalf *half = runs->half[array];
    if (isinf(runs->month_wh[array])) {
        WbSupply supply;
        wb_kit_array_months(problem, &half->kit, &bank->volts, &supply);
        for (size_t m = 0; m < WB_MONTHS; m++)
            half->array_wh[m] = runs->month_wh[m * runs->room + array] = supply.day_wh[m];
    }
    return half->array_wh;
}

size_t wb_run_affords(const WbRuns *runs, const WbRun *run, double most_minor)
{
    size_t from = run->from, to = run->to;
    while (from < to) {
        size_t middle = from + (to - from) / 2;
        if ((double)runs->parts_minor[middle] > most_minor)
            to = middle;
        else
            from = middle + 1;
    }
    return from;
}
