/* The bound is that of bound.h, by weights on the points that matter. At each case first the places
 * go that another one can stand for (all it meets, that one meets), then weights are improved, and
 * where they do not do, the places over the heaviest point are taken one by one, or none of them.
 */
#include "clique_search.h"
#include "bound.h"
#include <stdlib.h>
#include <string.h>

enum {
    ROOT_EVALUATIONS = 3000,
    NODE_EVALUATIONS = 60,
    ROUND = 20, /* evaluations between greedies */
    STALL_MAX = 40,
    BITS = 64,
    BUCKETS = 256,
};
static const double STEP_DECAY = 0.9, LEAN = 1.5;
static const float SHARE_RATE = 0.04f;

static bool has(const uint64_t *set, int p)
{
    return set[p / BITS] >> (p % BITS) & 1;
}

static void drop(uint64_t *set, int p)
{
    set[p / BITS] &= ~((uint64_t)1 << (p % BITS));
}

/* ---- the bound ---- */

static uint64_t evaluate(WbCliqueSearch *search, const WbCliqueLevel *level)
{
    const WbCliques *cliques = search->cliques;
    int64_t total = 0;
    uint64_t visits = (uint64_t)cliques->m;
    memset(search->cover, 0, (size_t)cliques->m * sizeof *search->cover);
    for (int c = 0; c < cliques->m; c++)
        total += level->weight[c];
    for (int w = 0; w < cliques->words; w++)
        for (uint64_t left = level->open[w]; left; left &= left - 1) {
            int p = w * BITS + __builtin_ctzll(left);
            int first = cliques->first_point[p], end = cliques->first_point[p + 1];
            int64_t under = 0;
            for (int k = first; k < end; k++)
                under += level->weight[cliques->point[k]];
            visits += (uint64_t)(end - first);
            search->under[p] = under;
            search->share[p] += SHARE_RATE * ((float)(under < WB_WEIGHT_ONE) - search->share[p]);
            if (under >= WB_WEIGHT_ONE)
                continue;
            total += WB_WEIGHT_ONE - under;
            for (int k = first; k < end; k++)
                search->cover[cliques->point[k]]++;
        }
    search->total = total;
    if (total < search->least) {
        search->least = total;
        search->stalled = 0;
    } else if (++search->stalled >= STALL_MAX) {
        search->step *= STEP_DECAY;
        search->stalled = 0;
    }
    return visits;
}

/* As in bound.c; need: the panels to aim below. False: no change. */
static bool improve(WbCliqueSearch *search, WbCliqueLevel *level, int need)
{
    int m = search->cliques->m;
    double along = 0, length2 = 0;
    for (int c = 0; c < m; c++) {
        along += search->course[c] * (search->cover[c] - 1);
        length2 += search->course[c] * search->course[c];
    }
    double lean = along < 0 ? -LEAN * along / length2 : 0;
    length2 = 0;
    for (int c = 0; c < m; c++) {
        double course = search->cover[c] - 1 + lean * search->course[c];
        course = course < 0 && level->weight[c] == 0 ? 0 : course;
        search->course[c] = course;
        length2 += course * course;
    }
    double above = (double)search->total - ((double)need - 0.1) * (double)WB_WEIGHT_ONE;
    double unit = length2 > 0 ? search->step * above / length2 : 0;
    if (unit < 1)
        return false;
    for (int c = 0; c < m; c++) {
        int64_t moved = level->weight[c] + (int64_t)(unit * search->course[c]);
        moved = moved < 0 ? 0 : moved;
        level->weight[c] = moved > WB_WEIGHT_ONE ? WB_WEIGHT_ONE : moved;
    }
    return true;
}

static void restart(WbCliqueSearch *search, WbCliqueLevel *level)
{
    const WbCliques *cliques = search->cliques;
    search->least = INT64_MAX;
    search->step = 1;
    search->stalled = 0;
    memset(search->course, 0, (size_t)cliques->m * sizeof *search->course);
    memset(search->share, 0, (size_t)cliques->n * sizeof *search->share);
    for (int c = 0; c < cliques->m; c++) {
        bool any = false;
        for (int k = cliques->first_over[c]; k < cliques->first_over[c + 1] && !any; k++)
            any = has(level->open, cliques->over[k]);
        if (!any)
            level->weight[c] = 0;
    }
}

/* ---- what goes ---- */

/* Answers whether any went. */
static bool close_by_weights(WbCliqueSearch *search, uint64_t *open, int need)
{
    int64_t spare = search->total - need * WB_WEIGHT_ONE;
    bool any = false;
    for (int w = 0; w < search->cliques->words; w++)
        for (uint64_t left = open[w]; left; left &= left - 1) {
            int p = w * BITS + __builtin_ctzll(left);
            if (search->under[p] - WB_WEIGHT_ONE <= spare)
                continue;
            drop(open, p);
            any = true;
        }
    return any;
}

/* ---- layouts ---- */

static int bucket_of(const WbCliqueSearch *search, bool by_share, int p)
{
    if (by_share)
        return (int)((1 - search->share[p]) * (BUCKETS - 1));
    int64_t bucket = search->under[p] / (WB_WEIGHT_ONE / (BUCKETS / 2));
    return bucket < BUCKETS ? (int)bucket : BUCKETS - 1;
}

static int sort_open(WbCliqueSearch *search, const uint64_t *open, bool by_share, bool from_back)
{
    int start[BUCKETS + 1] = {0}, n = search->cliques->n;
    for (int p = 0; p < n; p++)
        if (has(open, p))
            start[bucket_of(search, by_share, p) + 1]++;
    for (int bucket = 0; bucket < BUCKETS; bucket++)
        start[bucket + 1] += start[bucket];
    int found = start[BUCKETS];
    for (int k = 0; k < n; k++) {
        int p = from_back ? n - 1 - k : k;
        if (has(open, p))
            search->queue[start[bucket_of(search, by_share, p)]++] = p;
    }
    return found;
}

static void greedy(WbCliqueSearch *search, int depth, int round)
{
    const WbCliques *cliques = search->cliques;
    const uint64_t *open = search->level[depth].open;
    int n = sort_open(search, open, round & 1, round & 2), found = depth;
    memcpy(search->scratch, open, (size_t)cliques->words * sizeof *open);
    for (int k = 0; k < n && found < search->run.at_most; k++) {
        int p = search->queue[k];
        if (!has(search->scratch, p))
            continue;
        search->run.picked[found++] = p;
        const uint64_t *meets = wb_clique_meets(cliques, p);
        for (int w = 0; w < cliques->words; w++)
            search->scratch[w] &= ~meets[w];
    }
    wb_run_keep(&search->run, found);
}

/* ---- cases ---- */

static int settle(WbCliqueSearch *search, int depth)
{
    WbCliqueLevel *level = &search->level[depth];
    int evaluations = depth ? NODE_EVALUATIONS : ROOT_EVALUATIONS;
    wb_run_spend(&search->run, wb_cliques_dominate(search->cliques, level->open));
    wb_proof_log_graph_case(search->log, search->cliques, level->open);
    restart(search, level);
    for (int k = 1; k <= evaluations && search->run.status == WB_OK; k++) {
        uint64_t visits = evaluate(search, level);
        int need = search->run.best + 1 - depth;
        if (search->total < need * WB_WEIGHT_ONE) {
            wb_proof_log_graph_refute(search->log, search->cliques, level->weight, need);
            break;
        }
        if (k % ROUND == 0 || k == ROUND / 2 || k == evaluations) {
            greedy(search, depth, k / ROUND);
            if (wb_run_all_found(&search->run))
                break;
            need = search->run.best + 1 - depth;
            if (close_by_weights(search, level->open, need))
                wb_proof_log_graph_close(search->log, search->cliques, level->weight);
        }
        if (!wb_run_spend(&search->run, visits) || k == evaluations ||
            !improve(search, level, depth ? need : need - search->root_aim))
            break;
    }
    return search->least == INT64_MAX ? search->run.at_most : (int)(search->least / WB_WEIGHT_ONE);
}

/* -1: no place is open. */
static int heaviest_point(const WbCliqueSearch *search, const WbCliqueLevel *level)
{
    const WbCliques *cliques = search->cliques;
    int heaviest = -1;
    for (int c = 0; c < cliques->m; c++)
        if (level->weight[c] > 0 && (heaviest < 0 || level->weight[c] > level->weight[heaviest]))
            heaviest = c;
    for (int p = 0; p < cliques->n && heaviest < 0; p++)
        if (has(level->open, p))
            heaviest = cliques->point[cliques->first_point[p]];
    return heaviest;
}

static bool open_level(WbCliqueSearch *search, int depth)
{
    WbCliqueLevel *level = &search->level[depth];
    if (level->open)
        return true;
    level->open = malloc((size_t)(search->cliques->words + 1) * sizeof *level->open);
    level->weight = malloc((size_t)(search->cliques->m + 1) * sizeof *level->weight);
    if (!level->open || !level->weight)
        search->run.status = WB_NO_MEMORY;
    return search->run.status == WB_OK;
}

static void branch(WbCliqueSearch *search, int depth);

static void take(WbCliqueSearch *search, int depth, int p)
{
    const WbCliques *cliques = search->cliques;
    if (!open_level(search, depth + 1))
        return;
    WbCliqueLevel *from = &search->level[depth], *to = &search->level[depth + 1];
    const uint64_t *meets = wb_clique_meets(cliques, p);
    for (int w = 0; w < cliques->words; w++)
        to->open[w] = from->open[w] & ~meets[w];
    memcpy(to->weight, from->weight, (size_t)cliques->m * sizeof *to->weight);
    search->run.picked[depth] = p;
    wb_run_keep(&search->run, depth + 1);
    branch(search, depth + 1);
}

/* The largest share first; equals keep their order. Answers how many. */
static int list_open_over(WbCliqueSearch *search, const uint64_t *open, int c, int *list)
{
    const WbCliques *cliques = search->cliques;
    int n = 0;
    for (int k = cliques->first_over[c]; k < cliques->first_over[c + 1]; k++) {
        int p = cliques->over[k], at = n;
        if (!has(open, p))
            continue;
        for (; at > 0 && search->share[list[at - 1]] < search->share[p]; at--)
            list[at] = list[at - 1];
        list[at] = p;
        n++;
    }
    return n;
}

static void branch_at(WbCliqueSearch *search, int depth, int c)
{
    uint64_t *open = search->level[depth].open;
    const int *first = search->cliques->first_over;
    int *list = malloc((size_t)(first[c + 1] - first[c] + 1) * sizeof *list);
    if (!list) {
        search->run.status = WB_NO_MEMORY;
        return;
    }
    int n = list_open_over(search, open, c, list);
    if (n > 0)
        wb_proof_log_graph_split(search->log, search->cliques, c, list, n);
    for (int k = 0; k < n && search->run.status == WB_OK && !wb_run_all_found(&search->run); k++) {
        take(search, depth, list[k]);
        drop(open, list[k]);
    }
    free(list);
    if (n == 0)
        search->level[depth].weight[c] = 0; /* none lies over it: try another point */
}

static void branch(WbCliqueSearch *search, int depth)
{
    while (search->run.status == WB_OK && !wb_run_all_found(&search->run)) {
        int bound = depth + settle(search, depth);
        if (depth == 0)
            wb_run_lower_bound(&search->run, bound);
        if (search->run.status != WB_OK || bound <= search->run.best)
            return;
        int c = heaviest_point(search, &search->level[depth]);
        if (c < 0) {
            wb_proof_log_empty(search->log);
            return;
        }
        branch_at(search, depth, c);
    }
}

void wb_clique_search_prove(WbCliqueSearch *search)
{
    const WbCliques *cliques = search->cliques;
    if (wb_run_all_found(&search->run) || !open_level(search, 0))
        return;
    memset(search->level[0].open, 0, (size_t)(cliques->words + 1) * sizeof(uint64_t));
    for (int p = 0; p < cliques->n; p++)
        search->level[0].open[p / BITS] |= (uint64_t)1 << (p % BITS);
    for (int c = 0; c < cliques->m; c++)
        search->level[0].weight[c] = 0;
    branch(search, 0);
}

WbStatus wb_clique_search_init(WbCliqueSearch *search)
{
    size_t n = (size_t)search->cliques->n + 1, m = (size_t)search->cliques->m + 1;
    size_t room = (size_t)search->run.at_most + 1, words = (size_t)search->cliques->words + 1;
    search->queue = malloc(n * sizeof *search->queue);
    search->under = calloc(n, sizeof *search->under);
    search->share = calloc(n, sizeof *search->share);
    search->course = calloc(m, sizeof *search->course);
    search->cover = calloc(m, sizeof *search->cover);
    search->scratch = malloc(words * sizeof *search->scratch);
    search->level = calloc(room, sizeof *search->level);
    bool all = wb_run_open(&search->run) && search->queue && search->under && search->share &&
               search->course && search->cover && search->scratch && search->level;
    return all ? WB_OK : WB_NO_MEMORY;
}

void wb_clique_search_free(WbCliqueSearch *search)
{
    for (int i = 0; search->level && i <= search->run.at_most; i++) {
        free(search->level[i].open);
        free(search->level[i].weight);
    }
    wb_run_free(&search->run);
    free(search->queue);
    free(search->under);
    free(search->share);
    free(search->course);
    free(search->cover);
    free(search->scratch);
    free(search->level);
}
