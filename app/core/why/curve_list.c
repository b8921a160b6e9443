#include "curve_list.h"
#include "carry.h"
#include <math.h>
#include <stdlib.h>

static const double *figures_of(const WbCurveList *list, WbCriterion criterion)
{
    return list->pool->figure[criterion];
}

/* The rule that the limit of the resource is; the area of the roof has none of its own. */
static int rule_of(WbCriterion resource)
{
    if (resource == WB_CRITERION_COST)
        return WB_RULE_MONEY;
    return resource == WB_CRITERION_WEIGHT ? WB_RULE_WEIGHT : WB_N_RULES;
}

static int by_keys(const void *left, const void *right)
{
    const WbCurveEntry *a = left, *b = right;
    for (int k = 0; k < WB_CURVE_KEYS; k++)
        if (a->key[k] != b->key[k])
            return a->key[k] < b->key[k] ? -1 : 1;
    WbKit x = wb_pooled_kit(a->kit), y = wb_pooled_kit(b->kit);
    return wb_kit_compare(NULL, &x, &y);
}

static void add(WbCurveList *list, size_t i, bool by_gain)
{
    const WbMoreCurve *curve = &list->curve;
    double gain = figures_of(list, curve->gain)[i];
    WbCurveEntry *entry = &list->entry[list->n++];
    entry->kit = &list->pool->kit[i];
    entry->key[0] = figures_of(list, curve->resource)[i];
    entry->key[1] = !by_gain ? 0 : wb_criterion_less_is_better(curve->gain) ? gain : -gain;
    entry->key[2] = figures_of(list, WB_CRITERION_COST)[i];
    entry->key[3] = figures_of(list, WB_CRITERION_WEIGHT)[i];
}

WbStatus wb_curve_list_fill(WbCurveList *list, bool by_gain)
{
    const WbPool *pool = list->pool;
    int rule = rule_of(list->curve.resource);
    list->entry = malloc((pool->n + 1) * sizeof *list->entry);
    if (!list->entry)
        return WB_NO_MEMORY;
    for (size_t i = 0; i < pool->n; i++)
        if (pool->kit[i].stop == WB_N_RULES || pool->kit[i].stop == rule)
            add(list, i, by_gain);
    if (wb_control_stopped(list->control))
        return WB_STOPPED;
    qsort(list->entry, list->n, sizeof *list->entry, by_keys);
    return WB_OK;
}

static size_t index_of(const WbCurveList *list, const WbCurveEntry *entry)
{
    return (size_t)(entry->kit - list->pool->kit);
}

bool wb_curve_is_known(const WbCurveList *list, const WbCurveEntry *entry)
{
    return isinf(list->dark_limit) || (list->settled && entry->kit->stop == WB_N_RULES);
}

bool wb_curve_push(WbCurveList *list, const WbCurveEntry *entry, double gain)
{
    WbMoreCurve *curve = &list->curve;
    if (curve->n && curve->step[curve->n - 1].resource == entry->key[0])
        curve->n--;
    if (curve->n == list->room) {
        size_t room = list->room ? 2 * list->room : 64;
        WbCurveStep *more = realloc(curve->step, room * sizeof *more);
        if (!more)
            return false;
        curve->step = more;
        list->room = room;
    }
    curve->step[curve->n++] =
        (WbCurveStep){index_of(list, entry), wb_pooled_kit(entry->kit), entry->key[0], gain};
    return true;
}

/* Those known from the ranking are not worked out again. */
WbStatus wb_curve_dark(WbCurveList *list, const WbCurveEntry *const *entries, size_t n,
                       double enough, double *dark_h)
{
    const double *known = figures_of(list, WB_CRITERION_DARK);
    WbKit *kits = calloc(n + 1, sizeof *kits);
    const WbKit **open = calloc(n + 1, sizeof *open);
    double *found = calloc(n + 1, sizeof *found);
    WbStatus status = kits && open && found ? WB_OK : WB_NO_MEMORY;
    size_t n_open = 0;
    for (size_t i = 0; i < n && status == WB_OK; i++) {
        dark_h[i] = known[index_of(list, entries[i])];
        if (!isnan(dark_h[i]))
            continue;
        kits[n_open] = wb_pooled_kit(entries[i]->kit);
        open[n_open] = &kits[n_open];
        n_open++;
    }
    if (status == WB_OK)
        status = wb_carry_within(list->problem, open, n_open, enough, list->control, found);
    n_open = 0;
    for (size_t i = 0; i < n && status == WB_OK; i++)
        if (isnan(dark_h[i]))
            dark_h[i] = found[n_open++];
    list->curve.balanced += n_open;
    free(kits);
    free(open);
    free(found);
    return status;
}
