#include "clash.h"
#include <string.h>

#define ALL_LIMITS ((1u << WB_N_CLASH) - 1)

WbRule wb_clash_rule(WbClashLimit limit)
{
    static const WbRule rules[WB_N_CLASH] = {
        [WB_CLASH_MONEY] = WB_RULE_MONEY,     [WB_CLASH_WEIGHT] = WB_RULE_WEIGHT,
        [WB_CLASH_DARK] = WB_RULE_DARK_HOURS, [WB_CLASH_ROOF] = WB_RULE_ROOF_FIT,
        [WB_CLASH_BAY] = WB_RULE_BAY_FIT,
    };
    return rules[limit];
}

static uint32_t limits_on(const WbBrief *brief)
{
    return (uint32_t)brief->money_minor.on << WB_CLASH_MONEY |
           (uint32_t)brief->weight_kg.on << WB_CLASH_WEIGHT |
           (uint32_t)brief->dark_hours.on << WB_CLASH_DARK |
           (uint32_t)brief->roof_on << WB_CLASH_ROOF | (uint32_t)brief->bay_on << WB_CLASH_BAY;
}

static void take_off(WbBrief *brief, uint32_t limits)
{
    brief->money_minor.on &= !(limits >> WB_CLASH_MONEY & 1);
    brief->weight_kg.on &= !(limits >> WB_CLASH_WEIGHT & 1);
    brief->dark_hours.on &= !(limits >> WB_CLASH_DARK & 1);
    brief->roof_on &= !(limits >> WB_CLASH_ROOF & 1);
    brief->bay_on &= !(limits >> WB_CLASH_BAY & 1);
}

/* The best kit by one criterion alone without these limits; feasible 0: there is none. */
static WbStatus best_without(const WbProblem *problem, uint32_t limits, WbCriterion criterion,
                             int workers, WbControl *control, uint64_t *works, WbFigures *best)
{
    WbBrief brief = *problem->brief;
    WbProblem eased = *problem;
    WbRankOptions options = wb_rank_options_default();
    WbRanking ranking;
    take_off(&brief, limits);
    brief.front = 1u << criterion;
    eased.brief = &brief;
    memset(eased.weight, 0, sizeof eased.weight);
    eased.rank_by.way = WB_WAY_SCORE;
    eased.weight[criterion] = 1;
    eased.anchor[criterion] = (WbAnchor){.full = 0, .none = 1}; /* the limit may be the anchor */
    options.top = options.front_most = 1;
    options.workers = workers;
    WbStatus status = wb_rank(&eased, &options, control, &ranking);
    if (status != WB_OK)
        return status;
    *works = ranking.feasible;
    if (ranking.n_top > 0)
        *best = ranking.top[0].figures;
    wb_ranking_free(&ranking);
    return WB_OK;
}

static WbStatus try_without(const WbProblem *problem, uint32_t limits, int workers,
                            WbControl *control, WbClash *clash)
{
    WbFigures cheapest = {0}, lightest = {0};
    WbStatus status = best_without(problem, limits, WB_CRITERION_COST, workers, control,
                                   &clash->works, &cheapest);
    if (status != WB_OK || clash->works == 0)
        return status;
    clash->limits = limits;
    clash->cheapest_minor = cheapest.cost_minor;
    status = best_without(problem, limits, WB_CRITERION_WEIGHT, workers, control, &clash->works,
                          &lightest);
    clash->lightest_kg = (double)lightest.weight_g / 1000;
    return status;
}

/* All sets of so many limits, in the order of their first members. */
static WbStatus try_sets_of(const WbProblem *problem, uint32_t on, int size, int workers,
                            WbControl *control, WbClash *clash)
{
    WbStatus status = WB_OK;
    for (uint32_t set = 1; set <= ALL_LIMITS && status == WB_OK && clash->works == 0; set++)
        if ((set & ~on) == 0 && __builtin_popcount(set) == size)
            status = try_without(problem, set, workers, control, clash);
    return status;
}

static bool is_asked(const WbRanking *ranking)
{
    for (int r = 0; r < WB_N_RULES; r++)
        if (ranking->ruled_out[r].alone > 0)
            return false;
    return ranking->feasible == 0 && ranking->raw > 0;
}

WbStatus wb_clash(const WbProblem *problem, const WbRanking *ranking, int workers,
                  WbControl *control, WbClash *clash)
{
    WbFigures unused;
    uint64_t ever = 0;
    *clash = (WbClash){.asked = is_asked(ranking)};
    if (!clash->asked)
        return WB_OK;
    uint32_t on = limits_on(problem->brief);
    WbStatus status =
        best_without(problem, on, WB_CRITERION_COST, workers, control, &ever, &unused);
    for (int size = 1; ever > 0 && size <= WB_N_CLASH && status == WB_OK && clash->works == 0;
         size++)
        status = try_sets_of(problem, on, size, workers, control, clash);
    return status;
}
