#include "kit_filter.h"
#include <math.h>
#include <string.h>

WbKitFilter wb_kit_filter_none(void)
{
    WbKitFilter filter = {0};
    for (int c = 0; c < WB_N_CRITERIA; c++)
        filter.bound[c] = NAN;
    return filter;
}

void wb_kit_filter_copy(WbKitFilter *to, const WbKitFilter *from)
{
    *to = *from;
    to->chemistry = g_strdup(from->chemistry);
    to->part = g_strdup(from->part);
}

void wb_kit_filter_clear(WbKitFilter *filter)
{
    g_free(filter->chemistry);
    g_free(filter->part);
    *filter = wb_kit_filter_none();
}

static gboolean same_range(const WbKitRange *a, const WbKitRange *b)
{
    return a->criterion == b->criterion && a->low == b->low && a->high == b->high;
}

gboolean wb_kit_filter_equal(const WbKitFilter *a, const WbKitFilter *b)
{
    for (int c = 0; c < WB_N_CRITERIA; c++)
        if (isnan(a->bound[c]) ? !isnan(b->bound[c]) : a->bound[c] != b->bound[c])
            return FALSE;
    gboolean same_brush = !a->brushed || (same_range(&a->brush[0], &b->brush[0]) &&
                                          same_range(&a->brush[1], &b->brush[1]));
    return g_strcmp0(a->chemistry, b->chemistry) == 0 && g_strcmp0(a->part, b->part) == 0 &&
           !a->front_only == !b->front_only && a->system_v == b->system_v &&
           !a->brushed == !b->brushed && same_brush;
}

int wb_kit_system_v(const WbProblem *problem, const WbKit *kit)
{
    return wb_bank_volts(problem->storage[kit->storage].storage,
                         problem->storage[kit->storage].chemistry, kit->bank_series)
        .system_v;
}

const WbPart *wb_kit_part(const WbProblem *problem, const char *id)
{
#define LOOK(choices, member)                                                                      \
    for (size_t i = 0; i < problem->n_##choices; i++)                                              \
        if (problem->choices[i].member != NULL &&                                                  \
            strcmp(problem->choices[i].member->part.id, id) == 0)                                  \
            return &problem->choices[i].member->part;
    LOOK(panels, panel)
    LOOK(controllers, controller)
    LOOK(storage, storage)
    LOOK(inverters, inverter)
    LOOK(dcdc, dcdc)
#undef LOOK
    return NULL;
}

static gboolean holds(const WbProblem *problem, const WbKit *kit, const char *id)
{
    const WbInverter *inverter = problem->inverters[kit->inverter].inverter;
    const WbDcdc *dcdc = problem->dcdc[kit->dcdc].dcdc;
    return strcmp(problem->panels[kit->panel].panel->part.id, id) == 0 ||
           strcmp(problem->controllers[kit->controller].controller->part.id, id) == 0 ||
           strcmp(problem->storage[kit->storage].storage->part.id, id) == 0 ||
           (inverter != NULL && strcmp(inverter->part.id, id) == 0) ||
           (dcdc != NULL && strcmp(dcdc->part.id, id) == 0);
}

static gboolean within(const WbKitRange *range, const WbFigures *figures)
{
    double value = wb_figure(figures, range->criterion);
    return value >= range->low && value <= range->high;
}

static gboolean within_bounds(const WbKitFilter *filter, const WbFigures *figures)
{
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++) {
        double value = wb_figure(figures, c);
        if (isnan(filter->bound[c]))
            continue;
        if (!(wb_criterion_less_is_better(c) ? value <= filter->bound[c]
                                             : value >= filter->bound[c]))
            return FALSE;
    }
    return TRUE;
}

gboolean wb_kit_filter_passes(const WbKitFilter *filter, const WbProblem *problem,
                              const WbRanked *ranked)
{
    if (filter->front_only && !ranked->on_front)
        return FALSE;
    if (filter->chemistry != NULL &&
        strcmp(problem->storage[ranked->kit.storage].chemistry->id, filter->chemistry) != 0)
        return FALSE;
    if (filter->brushed && !(within(&filter->brush[0], &ranked->figures) &&
                             within(&filter->brush[1], &ranked->figures)))
        return FALSE;
    if (filter->system_v != 0 && wb_kit_system_v(problem, &ranked->kit) != filter->system_v)
        return FALSE;
    if (filter->part != NULL && !holds(problem, &ranked->kit, filter->part))
        return FALSE;
    return within_bounds(filter, &ranked->figures);
}
