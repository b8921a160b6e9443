#include "firm.h"
#include "firm_share.h"
#include <math.h>

typedef struct {
    const double (*u)[WB_N_CRITERIA];
    size_t n, first;
    const double *weight;
    uint32_t criteria;
} Question;

static bool asked(const Question *q, int criterion)
{
    return q->criteria >> criterion & 1;
}

static double lead(const Question *q, size_t j, int criterion)
{
    return q->u[q->first][criterion] - q->u[j][criterion];
}

/* By how much `first` leads row j now; not counting one criterion. */
static double lead_without(const Question *q, size_t j, int criterion)
{
    double sum = 0;
    for (int c = 0; c < WB_N_CRITERIA; c++)
        if (c != criterion && q->weight[c] > 0)
            sum += q->weight[c] * lead(q, j, c);
    return sum;
}

static double lead_now(const Question *q, size_t j)
{
    return lead_without(q, j, -1);
}

/* Weight t of c, the others (1 - t) / (1 - now) times theirs: the lead is a straight line in t. */
static WbWeightRange range_of(const Question *q, int c)
{
    WbWeightRange range = {0, 1, -1, -1};
    double now = q->weight[c], rest = 1 - now;
    for (size_t j = 0; j < q->n; j++) {
        double at1 = lead(q, j, c);
        double at0 = rest > 0 ? lead_without(q, j, c) / rest : at1;
        if (at0 < 0 && at1 > at0) {
            double low = -at0 / (at1 - at0);
            if (low > range.low) {
                range.low = fmin(low, now);
                range.below = (int)j;
            }
        } else if (at1 < 0 && at0 > at1) {
            double high = at0 / (at0 - at1);
            if (high < range.high) {
                range.high = fmax(high, now);
                range.above = (int)j;
            }
        }
    }
    return range;
}

/* Where row j leads most, or -1: nowhere. */
static int best_of_rival(const Question *q, size_t j)
{
    int best = -1;
    for (int c = 0; c < WB_N_CRITERIA; c++)
        if (asked(q, c) && lead(q, j, c) < 0 && (best < 0 || lead(q, j, c) < lead(q, j, best)))
            best = c;
    return best;
}

/* The criterion with weight left that helps `first` most against row j. */
static int richest(const Question *q, size_t j, const double left[WB_N_CRITERIA], int but)
{
    int best = -1;
    for (int c = 0; c < WB_N_CRITERIA; c++)
        if (c != but && left[c] > 0 && (best < 0 || lead(q, j, c) > lead(q, j, best)))
            best = c;
    return best;
}

/* Weight goes to the rival's best criterion, taken first where it hurts `first` most: no other way
 * closes the lead with less. NaN: row j is never level. */
static double move_until_level(const Question *q, size_t j, double weight[WB_N_CRITERIA])
{
    int to = best_of_rival(q, j);
    double leads = lead_now(q, j), moved = 0;
    if (to < 0)
        return NAN;
    for (int c = 0; c < WB_N_CRITERIA; c++)
        weight[c] = q->weight[c];
    while (leads > 0) {
        int from = richest(q, j, weight, to);
        double closes = from < 0 ? 0 : lead(q, j, from) - lead(q, j, to);
        if (closes <= 0)
            return NAN;
        double part = fmin(weight[from], leads / closes);
        weight[from] = part < weight[from] ? weight[from] - part : 0;
        weight[to] += part;
        moved += part;
        leads = part * closes < leads ? leads - part * closes : 0;
    }
    return moved;
}

static void find_rival(const Question *q, WbFirmness *firmness)
{
    firmness->moved = NAN;
    firmness->by = -1;
    for (size_t j = 0; j < q->n; j++) {
        double weight[WB_N_CRITERIA];
        double moved = j == q->first ? NAN : move_until_level(q, j, weight);
        if (isnan(moved) || !(isnan(firmness->moved) || moved < firmness->moved))
            continue;
        firmness->moved = moved;
        firmness->by = (int)j;
        for (int c = 0; c < WB_N_CRITERIA; c++)
            firmness->weight[c] = weight[c];
    }
}

#define LEVEL 1e-12 /* scores that sums in another order may part */

static bool is_sound(const Question *q)
{
    double sum = 0;
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        sum += q->weight[c];
        if (q->weight[c] < 0 || (q->weight[c] > 0 && !asked(q, c)))
            return false;
    }
    for (size_t j = 0; j < q->n; j++)
        if (lead_now(q, j) < -LEVEL)
            return false;
    return q->first < q->n && fabs(sum - 1) < LEVEL;
}

WbStatus wb_firmness(const double (*u)[WB_N_CRITERIA], size_t n, size_t first,
                     const double weight[WB_N_CRITERIA], uint32_t criteria, uint64_t seed,
                     WbControl *control, WbFirmness *firmness)
{
    const Question q = {u, n, first, weight, criteria};
    WbFirmness found = {.by = -1};
    if (!is_sound(&q))
        return WB_BAD_INPUT;
    WbShareQuestion share = {u, n, first, 0, {0}};
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        found.range[c] = asked(&q, c) ? range_of(&q, c) : (WbWeightRange){0, 0, -1, -1};
        if (weight[c] > 0)
            share.criterion[share.d++] = c;
    }
    find_rival(&q, &found);
    WbStatus status =
        wb_share_of_weightings(&share, seed, control, &found.share, &found.share_error);
    if (status == WB_OK)
        *firmness = found;
    return status;
}

WbStatus wb_first_share(const double (*u)[WB_N_CRITERIA], size_t n, size_t row,
                        const double weight[WB_N_CRITERIA], uint64_t seed, WbControl *control,
                        double *share, double *share_error)
{
    WbShareQuestion question = {u, n, row, 0, {0}};
    for (int c = 0; c < WB_N_CRITERIA; c++)
        if (weight[c] > 0)
            question.criterion[question.d++] = c;
    return row < n && question.d > 0
               ? wb_share_of_weightings(&question, seed, control, share, share_error)
               : WB_BAD_INPUT;
}
