/* The most usable capacity. A kit whose dark hours were not asked is taken to hold their limit
 * until the curve stands; then all such kits on it are asked at once, those that do not hold it
 * leave the list with all that are outshone by them, and the curve is drawn again until every kit
 * on it is known. What is behind a kit known to be good in both ways leaves the list too, so later
 * rounds look at few kits. */
#include "curve_list.h"
#include <math.h>
#include <stdlib.h>

typedef struct {
    WbCurveList *list;
    WbBright failed; /* kits that do not hold the limit */
    const WbCurveEntry **open;
    size_t n_open;
} Usable;

static double gain_of(const WbCurveEntry *entry)
{
    return -entry->key[1];
}

/* What the kits asked so far say of another. */
static void ask_the_known(Usable *usable, const WbCurveEntry *entry, bool *good, bool *failed)
{
    WbCurveList *list = usable->list;
    WbKit kit = wb_pooled_kit(entry->kit);
    WbBrightKit bright = wb_bright_kit(list->problem, &kit);
    *good = wb_bright_outshines(&list->bright, wb_bright_bank(&list->bright, &kit), &bright);
    *failed = !*good && wb_bright_is_outshone(&usable->failed,
                                              wb_bright_bank(&usable->failed, &kit), &bright);
}

/* Draws the curve with the open kits on it taken for good; the list keeps what may still matter. */
static bool draw(Usable *usable)
{
    WbCurveList *list = usable->list;
    double best = -INFINITY, best_known = -INFINITY;
    size_t left = 0;
    usable->n_open = list->curve.n = 0;
    for (size_t i = 0; i < list->n; i++) {
        WbCurveEntry entry = list->entry[i];
        double gain = gain_of(&entry);
        if (gain <= best_known)
            continue;
        bool good = wb_curve_is_known(list, &entry), failed = false;
        if (gain > best && !good)
            ask_the_known(usable, &entry, &good, &failed);
        if (failed)
            continue;
        list->entry[left] = entry;
        if (gain > best) {
            best = gain;
            if (!good)
                usable->open[usable->n_open++] = &list->entry[left];
            if (!wb_curve_push(list, &entry, gain))
                return false;
        }
        left++;
        if (good)
            best_known = gain;
    }
    list->n = left;
    return true;
}

static bool note(WbBright *where, const WbProblem *problem, const WbCurveEntry *entry)
{
    WbKit kit = wb_pooled_kit(entry->kit);
    WbBrightKit bright = wb_bright_kit(problem, &kit);
    return wb_bright_keep(wb_bright_bank(where, &kit), &bright);
}

static WbStatus ask_open(Usable *usable)
{
    WbCurveList *list = usable->list;
    double *dark_h = malloc((usable->n_open + 1) * sizeof *dark_h);
    WbStatus status =
        dark_h ? wb_curve_dark(list, usable->open, usable->n_open, list->dark_limit, dark_h)
               : WB_NO_MEMORY;
    for (size_t i = 0; i < usable->n_open && status == WB_OK; i++) {
        WbBright *where = dark_h[i] <= list->dark_limit ? &list->bright : &usable->failed;
        if (!note(where, list->problem, usable->open[i]))
            status = WB_NO_MEMORY;
    }
    free(dark_h);
    return status;
}

WbStatus wb_curve_usable(WbCurveList *list)
{
    Usable usable = {.list = list};
    usable.open = malloc((list->n + 1) * sizeof *usable.open);
    bool ready = wb_bright_init(&usable.failed, list->problem) && usable.open;
    WbStatus status = ready ? WB_OK : WB_NO_MEMORY;
    do {
        if (status == WB_OK && wb_control_stopped(list->control))
            status = WB_STOPPED;
        if (status == WB_OK)
            status = draw(&usable) ? ask_open(&usable) : WB_NO_MEMORY;
    } while (status == WB_OK && usable.n_open);
    wb_bright_free(&usable.failed);
    free(usable.open);
    return status;
}
