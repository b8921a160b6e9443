#include "rank_firm.h"
#include <math.h>
#include <stdlib.h>

#define SEED 20261128 /* the same draws for every ranking */

/* Criteria of the front whose worth is known of every row. */
static uint32_t known_criteria(const WbProblem *problem, const WbRanking *ranking)
{
    uint32_t criteria = problem->brief->front;
    for (size_t i = 0; i < ranking->n_front; i++)
        for (int c = 0; c < WB_N_CRITERIA; c++)
            if (isnan(ranking->front[i].u[c]))
                criteria &= ~(1u << c);
    return criteria;
}

static bool is_asked(const WbProblem *problem, const WbRanking *ranking, uint32_t criteria)
{
    double sum = 0;
    if (problem->rank_by.way != WB_WAY_SCORE)
        return false;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        sum += problem->weight[c];
        if (problem->weight[c] > 0 && !(criteria >> c & 1))
            return false;
    }
    return sum > 0 && ranking->n_top > 0 && !ranking->front_too_many &&
           ranking->front_count == ranking->n_front;
}

static const WbRanked *row(const WbRanking *ranking, int index)
{
    return index < 0 ? NULL : index == 0 ? &ranking->top[0] : &ranking->front[index - 1];
}

/* Row 0 is the first of the ranking, whether it is on the front or level with one that is. */
WbStatus wb_rank_firm(const WbProblem *problem, const WbRanking *ranking, WbControl *control,
                      WbRankFirm *firm)
{
    WbRankFirm found = {.criteria = known_criteria(problem, ranking)};
    *firm = found;
    if (!is_asked(problem, ranking, found.criteria))
        return WB_OK;
    size_t n = ranking->n_front + 1;
    double(*u)[WB_N_CRITERIA] = calloc(n, sizeof *u);
    if (!u)
        return WB_NO_MEMORY;
    for (size_t i = 0; i < n; i++)
        for (int c = 0; c < WB_N_CRITERIA; c++)
            if (found.criteria >> c & 1)
                u[i][c] = row(ranking, (int)i)->u[c];
    WbStatus status = wb_firmness((const double(*)[WB_N_CRITERIA])u, n, 0, problem->weight,
                                  found.criteria, SEED, control, &found.firmness);
    free(u);
    if (status != WB_OK)
        return status == WB_BAD_INPUT ? WB_OK : status;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        found.below[c] = row(ranking, found.firmness.range[c].below);
        found.above[c] = row(ranking, found.firmness.range[c].above);
    }
    found.by = row(ranking, found.firmness.by);
    found.known = true;
    *firm = found;
    return WB_OK;
}
