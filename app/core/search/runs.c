#include "runs.h"
#include "kit_year.h"
#include <stdlib.h>
#include <string.h>

static bool same_chargers(const WbKit *a, const WbKit *b)
{
    return a->controller == b->controller && a->n_controllers == b->n_controllers;
}

static bool make_room(WbRuns *runs, size_t n)
{
    /* No more runs than arrays. */
    if (n <= runs->arrays_room)
        return true;
    WbRunArray *array = realloc(runs->array, n * sizeof *array);
    if (array)
        runs->array = array;
    WbRun *run = realloc(runs->run, n * sizeof *run);
    if (run)
        runs->run = run;
    if (array && run)
        runs->arrays_room = n;
    return array && run;
}

static void add(WbRuns *runs, WbHalf *half)
{
    runs->array[runs->n_arrays++] = (WbRunArray){
        .half = half,
        .solar_a = half->solar_a,
        .parts_minor = half->bill.parts_minor,
        .weight_g = half->bill.weight_g,
    };
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
    runs->n_arrays = runs->n_runs = runs->n_chargers = 0;
    if (!make_room(runs, arrays->n))
        return false;
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
    free(runs->array);
    free(runs->run);
    *runs = (WbRuns){0};
}

const double *wb_run_months(WbRunArray *array, const WbProblem *problem, const WbBankKind *bank)
{
    if (!array->summed) {
        WbSupply supply;
        wb_kit_array_months(problem, &array->half->kit, &bank->volts, &supply);
        memcpy(array->array_wh, supply.day_wh, sizeof array->array_wh);
        memcpy(array->half->array_wh, supply.day_wh, sizeof array->half->array_wh);
        array->summed = true;
    }
    return array->array_wh;
}
