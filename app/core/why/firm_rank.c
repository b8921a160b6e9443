#include "front.h"
#include "rank_firm.h"
#include <math.h>
#include <stdlib.h>

#define SEED 20261128    /* the same draws for every ranking */
#define LOOKED_AT 50     /* rows from the first on, for those that are first at some weights */
#define MOST_ROWS 20000u /* of a front; more would take long to draw from */

/* The rows asked: the first few of the ranking, then the front. */
typedef struct {
    const WbProblem *problem;
    const WbRanking *ranking;
    uint32_t criteria;
    WbRanked *row;
    size_t n, n_top;
    double (*u)[WB_N_CRITERIA];
} Rows;

static uint32_t weighing(const WbProblem *problem)
{
    uint32_t criteria = 0;
    for (int c = 0; c < WB_N_CRITERIA; c++)
        if (problem->weight[c] > 0)
            criteria |= 1u << c;
    return criteria;
}

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

static bool is_asked(const WbProblem *problem, const WbRanking *ranking)
{
    return problem->rank_by.way == WB_WAY_SCORE && weighing(problem) && ranking->n_top > 0;
}

static bool front_will_do(const WbRanking *ranking, const Rows *rows)
{
    return !(weighing(rows->problem) & ~rows->criteria) && !ranking->front_too_many &&
           ranking->front_count == ranking->n_front;
}

static bool make_room(Rows *rows, size_t n_front)
{
    size_t n_top = rows->ranking->n_top;
    rows->n_top = n_top < LOOKED_AT ? n_top : LOOKED_AT;
    rows->row = calloc(rows->n_top + n_front, sizeof *rows->row);
    for (; rows->row && rows->n < rows->n_top; rows->n++)
        rows->row[rows->n] = rows->ranking->top[rows->n];
    return rows->row != NULL;
}

static WbStatus rows_of_front(Rows *rows)
{
    const WbRanking *ranking = rows->ranking;
    if (!make_room(rows, ranking->n_front))
        return WB_NO_MEMORY;
    for (size_t i = 0; i < ranking->n_front; i++)
        rows->row[rows->n++] = ranking->front[i];
    return WB_OK;
}

/* Worths of a kit of a front, from what the front kept. */
static WbRanked row_of(const WbProblem *problem, uint32_t criteria, const WbFrontKit *kit)
{
    WbRanked row = {.kit = kit->kit, .on_front = true};
    int n = 0;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        if (!(criteria >> c & 1))
            continue;
        WbCriterion criterion = (WbCriterion)c;
        double x = kit->worse[n++];
        row.u[c] = wb_worth(&problem->anchor[c], criterion,
                            wb_criterion_less_is_better(criterion) ? x : -x);
    }
    return row;
}

static WbStatus offer_pool(const WbPool *pool, WbFront *front)
{
    WbStatus status = WB_OK;
    for (size_t i = 0; i < pool->n && status == WB_OK; i++) {
        double figure[WB_N_CRITERIA];
        if (pool->kit[i].stop != WB_N_RULES)
            continue;
        for (int c = 0; c < WB_N_CRITERIA; c++) {
            figure[c] = pool->figure[c][i];
            if ((front->criteria >> c & 1) && isnan(figure[c]))
                wb_front_give_up(front);
        }
        WbKit kit = wb_pooled_kit(&pool->kit[i]);
        status = wb_front_offer_of(front, &kit, figure);
    }
    return status == WB_OK ? wb_front_finish(front) : status;
}

/* Nothing is asked where the pool does not know enough. */
static WbStatus rows_of_pool(Rows *rows, WbControl *control)
{
    const WbPool *pool = rows->ranking->pool;
    if (!pool || !pool->whole)
        return WB_OK;
    WbFront front;
    rows->criteria |= weighing(rows->problem);
    wb_front_init(&front, rows->criteria, control);
    WbStatus status = offer_pool(pool, &front);
    if (status == WB_OK && !front.too_many && front.n_front <= MOST_ROWS)
        status = make_room(rows, front.n_front) ? WB_OK : WB_NO_MEMORY;
    for (size_t i = 0; status == WB_OK && rows->row && i < front.n_front; i++)
        rows->row[rows->n++] = row_of(rows->problem, rows->criteria, &front.kits[i]);
    wb_front_free(&front);
    return status;
}

static bool fill_worths(Rows *rows)
{
    rows->u = calloc(rows->n, sizeof *rows->u);
    for (size_t i = 0; rows->u && i < rows->n; i++)
        for (int c = 0; c < WB_N_CRITERIA; c++)
            if (rows->criteria >> c & 1)
                rows->u[i][c] = rows->row[i].u[c];
    return rows->u != NULL;
}

static WbStatus fill_shares(const Rows *rows, WbControl *control, WbRankFirm *found)
{
    const double(*u)[WB_N_CRITERIA] = (const double(*)[WB_N_CRITERIA])rows->u;
    WbStatus status = WB_OK;
    for (size_t i = 0; i < rows->n_top && found->n_first < WB_FIRM_SHARES && status == WB_OK; i++) {
        WbFirstShare *first = &found->first[found->n_first];
        *first = (WbFirstShare){.kit = &rows->ranking->top[i], .rank = i + 1};
        status = wb_first_share(u, rows->n, i, rows->problem->weight, SEED, control, &first->share,
                                &first->share_error);
        found->n_first += first->share > 0;
    }
    return status;
}

static const WbRanked *row_at(const Rows *rows, int index)
{
    return index < 0 ? NULL : &rows->row[index];
}

static WbStatus ask(Rows *rows, WbControl *control, WbRankFirm *found)
{
    if (!fill_worths(rows))
        return WB_NO_MEMORY;
    WbStatus status =
        wb_firmness((const double(*)[WB_N_CRITERIA])rows->u, rows->n, 0, rows->problem->weight,
                    rows->criteria, SEED, control, &found->firmness);
    if (status != WB_OK)
        return status == WB_BAD_INPUT ? WB_OK : status;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        found->below[c] = row_at(rows, found->firmness.range[c].below);
        found->above[c] = row_at(rows, found->firmness.range[c].above);
    }
    found->by = row_at(rows, found->firmness.by);
    found->known = true;
    return fill_shares(rows, control, found);
}

WbStatus wb_rank_firm(const WbProblem *problem, const WbRanking *ranking, WbControl *control,
                      WbRankFirm *firm)
{
    Rows rows = {
        .problem = problem, .ranking = ranking, .criteria = known_criteria(problem, ranking)};
    *firm = (WbRankFirm){.criteria = rows.criteria};
    if (!is_asked(problem, ranking))
        return WB_OK;
    WbRankFirm found = {0};
    WbStatus status =
        front_will_do(ranking, &rows) ? rows_of_front(&rows) : rows_of_pool(&rows, control);
    found.criteria = rows.criteria;
    if (status == WB_OK && rows.row)
        status = ask(&rows, control, &found);
    free(rows.u);
    found.rows = rows.row;
    if (status == WB_OK)
        *firm = found;
    else
        free(rows.row);
    return status;
}

void wb_rank_firm_free(WbRankFirm *firm)
{
    free(firm->rows);
    *firm = (WbRankFirm){0};
}
