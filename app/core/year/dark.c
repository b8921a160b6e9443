/* Dark hours of many kits: blocks of lanes through all years. Days on which nothing differs for any
 * lane share one table, so a block works out few of them. */
#include "day_kind.h"
#include "lanes.h"
#include <stdlib.h>

typedef struct {
    const WbYearKit *kit[WB_LANES]; /* a short block repeats its last kit */
    size_t n;
    WbLanes lanes;
    WbLaneKind *kinds;
    int n_kinds;
    const WbLaneKind *kind[WB_MONTHS][WB_WEEK];
} Block;

static bool same_shore(const WbYearKit *kit, int a, int b)
{
    for (int h = 0; h < WB_HOURS; h++)
        if (kit->other.shore_wh[a][h] != kit->other.shore_wh[b][h])
            return false;
    return true;
}

static bool same_day(const Block *block, int month, int weekday, int other_month, int other_weekday)
{
    for (int l = 0; l < WB_LANES; l++) {
        const WbYearKit *kit = block->kit[l];
        const WbDemand *demand = kit->demand;
        if (demand->kind[month][weekday] != demand->kind[other_month][other_weekday] ||
            wb_step_in_use(kit, month) != wb_step_in_use(kit, other_month) ||
            !same_shore(kit, weekday, other_weekday))
            return false;
    }
    return true;
}

/* Costs of a lane: worked out, or those of an earlier weekday with the same loads. */
static void fill_cost(const Block *block, int lane, int month, int weekday, WbLaneKind *to)
{
    int like = wb_day_like(block->kit[lane]->demand, month, weekday);
    if (like >= 0) {
        const WbLaneKind *from = block->kind[month][like];
        for (int h = 0; h < WB_HOURS; h++) {
            to->cost[h][lane] = from->cost[h][lane];
            to->per_cost[h][lane] = from->per_cost[h][lane];
        }
        return;
    }
    WbDayKind kind;
    wb_day_cost(block->kit[lane], month, weekday, &kind);
    for (int h = 0; h < WB_HOURS; h++) {
        to->cost[h][lane] = kind.cost[h];
        to->per_cost[h][lane] = kind.per_cost[h];
    }
}

static void fill_kind(const Block *block, int month, int weekday, WbLaneKind *to)
{
    for (int l = 0; l < WB_LANES; l++) {
        WbDayKind kind;
        wb_day_net(block->kit[l], month, weekday, &kind);
        for (int h = 0; h < WB_HOURS; h++)
            to->net_wh[h][l] = kind.net_wh[h];
        fill_cost(block, l, month, weekday, to);
        to->dark_above_wh[l] = wb_step_dark_above_wh(block->kit[l], month);
    }
}

static const WbLaneKind *kind_before(const Block *block, int month, int weekday)
{
    for (int i = 0; i < month * WB_WEEK + weekday; i++)
        if (same_day(block, month, weekday, i / WB_WEEK, i % WB_WEEK))
            return block->kind[i / WB_WEEK][i % WB_WEEK];
    return NULL;
}

/* kinds: room for every month and weekday. */
static void fill_block(const WbYearKit *const *kits, size_t n, WbLaneKind *kinds, Block *block)
{
    block->n = n < WB_LANES ? n : WB_LANES;
    block->kinds = kinds;
    block->n_kinds = 0;
    for (size_t l = 0; l < WB_LANES; l++) {
        block->kit[l] = kits[l < block->n ? l : block->n - 1];
        wb_lanes_set(&block->lanes, (int)l, block->kit[l]);
    }
    for (int m = 0; m < WB_MONTHS; m++)
        for (int w = 0; w < WB_WEEK; w++) {
            block->kind[m][w] = kind_before(block, m, w);
            if (block->kind[m][w])
                continue;
            WbLaneKind *made = &block->kinds[block->n_kinds++];
            fill_kind(block, m, w, made);
            block->kind[m][w] = made;
        }
}

/* Dark hours only add up over the years. */
static bool all_exceed(const Block *block, int n_years, double enough)
{
    for (size_t l = 0; l < block->n; l++)
        if (!(block->lanes.dark_h[l] / n_years > enough))
            return false;
    return true;
}

static WbStatus run_block(WbVector vector, Block *block, const WbPlaneHours *plane, double enough,
                          WbControl *control, double *dark_h)
{
    for (int year = 0; year < plane->n_years; year++) {
        if (wb_control_stopped(control))
            return WB_STOPPED;
        wb_lanes_year(vector, &block->lanes, block->kind, block->kit[0]->days, plane, year);
        if (all_exceed(block, plane->n_years, enough))
            break;
    }
    for (size_t l = 0; l < block->n; l++)
        dark_h[l] = block->lanes.dark_h[l] / plane->n_years;
    return WB_OK;
}

WbStatus wb_year_dark_on(WbVector vector, const WbYearKit *const *kits, size_t n,
                         const WbPlaneHours *plane, double enough, WbControl *control,
                         double *dark_h)
{
    for (size_t i = 0; i < n; i++)
        if (kits[i]->days != kits[0]->days || !wb_step_accepts(kits[i], plane))
            return WB_BAD_INPUT;
    Block *block = malloc(sizeof *block);
    WbLaneKind *kinds = malloc(WB_MONTHS * WB_WEEK * sizeof *kinds);
    WbStatus status = block && kinds ? WB_OK : WB_NO_MEMORY;
    for (size_t first = 0; first < n && status == WB_OK; first += WB_LANES) {
        fill_block(kits + first, n - first, kinds, block);
        status = run_block(vector, block, plane, enough, control, dark_h + first);
    }
    free(kinds);
    free(block);
    return status;
}

WbStatus wb_year_dark(const WbYearKit *const *kits, size_t n, const WbPlaneHours *plane,
                      double enough, WbControl *control, double *dark_h)
{
    return wb_year_dark_on(wb_vector_best(), kits, n, plane, enough, control, dark_h);
}
