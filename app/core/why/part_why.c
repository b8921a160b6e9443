#include "part_why.h"
#include "rank_by.h"
#include <math.h>
#include <string.h>

/* First member of every record of a part. */
static const WbPart *part_of(const void *record)
{
    return record;
}

const WbPart *wb_choice_part(const WbProblem *problem, const WbPartChoice *choice)
{
    int i = choice->index;
    if (choice->kind == WB_KIND_PANEL)
        return part_of(problem->panels[i].panel);
    if (choice->kind == WB_KIND_CONTROLLER)
        return part_of(problem->controllers[i].controller);
    if (choice->kind == WB_KIND_STORAGE)
        return part_of(problem->storage[i].storage);
    if (choice->kind == WB_KIND_INVERTER)
        return part_of(problem->inverters[i].inverter);
    return choice->kind == WB_KIND_DCDC ? part_of(problem->dcdc[i].dcdc) : NULL;
}

const WbSourced *wb_choice_sourced(const WbProblem *problem, const WbPartChoice *choice)
{
    int i = choice->index;
    if (choice->kind == WB_KIND_PANEL)
        return &problem->panels[i].sourced;
    if (choice->kind == WB_KIND_CONTROLLER)
        return &problem->controllers[i].sourced;
    if (choice->kind == WB_KIND_STORAGE)
        return &problem->storage[i].sourced;
    if (choice->kind == WB_KIND_INVERTER)
        return &problem->inverters[i].sourced;
    return choice->kind == WB_KIND_DCDC ? &problem->dcdc[i].sourced : NULL;
}

bool wb_part_choice(const WbProblem *problem, const char *id, WbPartChoice *choice)
{
    const size_t n[] = {
        [WB_KIND_PANEL] = problem->n_panels,    [WB_KIND_CONTROLLER] = problem->n_controllers,
        [WB_KIND_STORAGE] = problem->n_storage, [WB_KIND_INVERTER] = problem->n_inverters,
        [WB_KIND_DCDC] = problem->n_dcdc,
    };
    for (int kind = WB_KIND_PANEL; kind <= WB_KIND_DCDC; kind++)
        for (size_t i = 0; i < n[kind]; i++) {
            const WbPartChoice one = {(WbPartKind)kind, (int)i};
            const WbPart *part = wb_choice_part(problem, &one);
            if (!part || strcmp(part->id, id) != 0)
                continue;
            *choice = one;
            return true;
        }
    return false;
}

bool wb_kit_holds(const WbKit *kit, const WbPartChoice *choice)
{
    const int index[] = {
        [WB_KIND_PANEL] = kit->panel,     [WB_KIND_CONTROLLER] = kit->controller,
        [WB_KIND_STORAGE] = kit->storage, [WB_KIND_INVERTER] = kit->inverter,
        [WB_KIND_DCDC] = kit->dcdc,
    };
    return choice->kind <= WB_KIND_DCDC && index[choice->kind] == choice->index;
}

/* ---- where the best with it stands ---- */

static uint64_t rank_in_pool(const WbProblem *problem, const WbPool *pool, const WbRanked *row)
{
    uint64_t before = 0;
    double key[WB_RANK_KEYS], other[WB_RANK_KEYS];
    int n_keys = wb_rank_keys(problem);
    wb_rank_key(problem, &row->figures, key);
    for (size_t i = 0; i < pool->n; i++) {
        double figure[WB_N_CRITERIA];
        if (pool->kit[i].stop != WB_N_RULES)
            continue;
        for (int c = 0; c < WB_N_CRITERIA; c++)
            figure[c] = pool->figure[c][i];
        if (wb_rank_asks(problem, WB_CRITERION_DARK) && isnan(figure[WB_CRITERION_DARK]))
            return 0;
        WbKit kit = wb_pooled_kit(&pool->kit[i]);
        wb_rank_key_of(problem, figure, other);
        before += wb_rank_key_before(n_keys, other, &kit, key, &row->kit);
    }
    return before + 1;
}

static uint64_t rank_of(const WbProblem *problem, const WbRanking *all, const WbRanked *row)
{
    for (size_t i = 0; i < all->n_top; i++)
        if (wb_kit_compare(problem, &all->top[i].kit, &row->kit) == 0)
            return i + 1;
    return all->pool && all->pool->whole ? rank_in_pool(problem, all->pool, row) : 0;
}

static int any_on_front(const WbRanking *all, const WbPartChoice *choice)
{
    for (size_t i = 0; i < all->n_front; i++)
        if (wb_kit_holds(&all->front[i].kit, choice))
            return 1;
    return all->n_front == all->front_count ? 0 : -1;
}

WbStatus wb_part_why(const WbProblem *problem, const WbPartChoice *choice, const WbRanking *all,
                     int workers, WbControl *control, WbPartWhy *why)
{
    WbRankOptions options = wb_rank_options_default();
    options.top = 1;
    options.front_most = 1;
    options.workers = workers;
    options.holding = choice;
    options.least_dark = true;
    WbPartWhy found = {.choice = *choice};
    WbStatus status = wb_rank(problem, &options, control, &found.with);
    if (status != WB_OK)
        return status;
    if (found.with.n_top > 0)
        found.rank = rank_of(problem, all, &found.with.top[0]);
    found.on_front = any_on_front(all, choice);
    *why = found;
    return WB_OK;
}

void wb_part_why_free(WbPartWhy *why)
{
    wb_ranking_free(&why->with);
    *why = (WbPartWhy){0};
}
