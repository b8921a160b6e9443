/* The fewest dark hours. Of the kits on one bank only those matter that no kit before them in the
 * list outshines: that one needs no more and is never darker. The rest is worked out in the order
 * of the list, some at a time, and each is left as soon as it is sure to have more dark hours than
 * the fewest so far. */
#include "curve_list.h"
#include <math.h>

#define BATCH 64
#define ASK_EVERY 4096

static WbStatus sift(WbCurveList *list)
{
    size_t left = 0;
    for (size_t i = 0; i < list->n; i++) {
        if (i % ASK_EVERY == 0 && wb_control_stopped(list->control))
            return WB_STOPPED;
        WbKit kit = wb_pooled_kit(list->entry[i].kit);
        WbBrightBank *bank = wb_bright_bank(&list->bright, &kit);
        WbBrightKit bright = wb_bright_kit(list->problem, &kit);
        if (wb_bright_is_outshone(&list->bright, bank, &bright))
            continue;
        wb_bright_drop_outshone(&list->bright, bank, &bright);
        if (!wb_bright_keep(bank, &bright))
            return WB_NO_MEMORY;
        list->entry[left++] = list->entry[i];
    }
    list->n = left;
    return WB_OK;
}

static void tell_progress(const WbCurveList *list, size_t done)
{
    if (!list->control)
        return;
    atomic_store(&list->control->todo, list->n);
    atomic_store(&list->control->done, done);
}

static double fewest(const WbCurveList *list)
{
    const WbMoreCurve *curve = &list->curve;
    return curve->n ? curve->step[curve->n - 1].gain : list->dark_limit;
}

static bool none_is_left(const WbCurveList *list)
{
    return list->curve.n > 0 && fewest(list) <= 0;
}

/* The first may be as dark as the limit; each later one has fewer dark hours than that before. */
static WbStatus take(WbCurveList *list, const WbCurveEntry *entry, double dark_h)
{
    bool better = list->curve.n ? dark_h < fewest(list) : dark_h <= list->dark_limit;
    return !better || wb_curve_push(list, entry, dark_h) ? WB_OK : WB_NO_MEMORY;
}

WbStatus wb_curve_dark_hours(WbCurveList *list)
{
    WbStatus status = sift(list);
    for (size_t i = 0; i < list->n && status == WB_OK && !none_is_left(list); i += BATCH) {
        const WbCurveEntry *some[BATCH];
        double dark_h[BATCH];
        size_t n = list->n - i < BATCH ? list->n - i : BATCH;
        for (size_t j = 0; j < n; j++)
            some[j] = &list->entry[i + j];
        tell_progress(list, i);
        if (wb_control_stopped(list->control))
            return WB_STOPPED;
        status = wb_curve_dark(list, some, n, fewest(list), dark_h);
        for (size_t j = 0; j < n && status == WB_OK; j++)
            status = take(list, some[j], dark_h[j]);
    }
    tell_progress(list, list->n);
    return status;
}
