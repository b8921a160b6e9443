/* The best choices by one weighted sum.
 *
 * Every row has a bound: its own score and the least score of each other slot. Only rows whose
 * bound is within T can be part of a choice that scores at most T. T is raised in steps that let in
 * four times as many rows each, until the choices within T are as many as asked or all rows are in;
 * the list is then proved. So rows that matter to nobody are neither sorted nor compared. */
#include "choice_walk.h"
#include <stdlib.h>

#define FIRST_ROWS 64
#define STEP 4
#define MOST_SCORE (INT64_C(1) << 60)

/* ---- scores of rows ---- */

/* The greatest |criterion| of the slot. */
static int64_t greatest(const WbChoiceSlot *slot, int c)
{
    int64_t most = 0;
    for (size_t i = 0; i < slot->n; i++) {
        int64_t x = slot->criterion[c][i] < 0 ? -slot->criterion[c][i] : slot->criterion[c][i];
        most = x > most ? x : most;
    }
    return most;
}

static bool aim_ok(const WbChoiceTable *table, const WbChoiceAim *aim)
{
    int64_t sum = 0;
    for (int c = 0; c < table->n_criteria; c++) {
        if (aim->weight[c] < 0)
            return false;
        for (int s = 0; s < table->n_slots && aim->weight[c] > 0; s++) {
            int64_t part;
            if (!table->slot[s].criterion[c])
                continue;
            if (__builtin_mul_overflow(aim->weight[c], greatest(&table->slot[s], c), &part) ||
                __builtin_add_overflow(sum, part, &sum))
                return false;
        }
    }
    return sum <= MOST_SCORE;
}

static int64_t *scores(const WbChoiceTable *table, const WbChoiceAim *aim, int s)
{
    const WbChoiceSlot *slot = &table->slot[s];
    int64_t *score = calloc(slot->n + 1, sizeof *score);
    for (int c = 0; score && c < table->n_criteria; c++) {
        const int64_t *criterion = slot->criterion[c];
        int64_t weight = aim->weight[c];
        for (size_t i = 0; criterion && weight > 0 && i < slot->n; i++)
            score[i] += weight * criterion[i];
    }
    return score;
}

/* ---- which rows come in ---- */

typedef struct {
    WbChoiceSearch search;
    WbChoiceGroups groups;
    WbChoiceFloor *floor; /* one for each group */
    int64_t *bound;       /* of every row of every group */
    size_t n_bounds;
} Rounds;

static WbChoiceFloor floor_of(const Rounds *rounds, const WbChoiceGroup *group)
{
    WbChoiceFloor floor = {.sum = 0};
    for (int s = 0; s < group->table->n_slots; s++) {
        const int64_t *score = rounds->search.score[s];
        floor.least[s] = score[group->row[s][0]];
        for (size_t i = 1; i < group->n[s]; i++) {
            int64_t x = score[group->row[s][i]];
            floor.least[s] = x < floor.least[s] ? x : floor.least[s];
        }
        floor.sum += floor.least[s];
    }
    return floor;
}

static bool take_bounds(Rounds *rounds)
{
    size_t n = 0;
    for (int g = 0; g < rounds->groups.n; g++)
        for (int s = 0; s < rounds->search.table->n_slots; s++)
            n += rounds->groups.group[g].n[s];
    rounds->bound = malloc((n + 1) * sizeof *rounds->bound);
    rounds->floor = malloc(((size_t)rounds->groups.n + 1) * sizeof *rounds->floor);
    if (!rounds->bound || !rounds->floor)
        return false;
    for (int g = 0; g < rounds->groups.n; g++) {
        const WbChoiceGroup *group = &rounds->groups.group[g];
        rounds->floor[g] = floor_of(rounds, group);
        for (int s = 0; s < group->table->n_slots; s++)
            for (size_t i = 0; i < group->n[s]; i++)
                rounds->bound[rounds->n_bounds++] =
                    wb_choice_bound(&rounds->search, &rounds->floor[g], s, group->row[s][i]);
    }
    return true;
}

/* The k-th smallest of x (from 0), which is reordered (Hoare, Comm. ACM 4 (1961) 321). */
static int64_t select_smallest(int64_t *x, size_t n, size_t k)
{
    size_t low = 0, high = n - 1;
    while (low < high) {
        int64_t pivot = x[low + (high - low) / 2];
        size_t i = low, j = high;
        for (;;) {
            while (x[i] < pivot)
                i++;
            while (x[j] > pivot)
                j--;
            if (i >= j)
                break;
            int64_t held = x[i];
            x[i++] = x[j];
            x[j--] = held;
        }
        if (k <= j)
            high = j;
        else
            low = j + 1;
    }
    return x[k];
}

static WbStatus walk_all(Rounds *rounds, int64_t most_score)
{
    WbStatus status = WB_OK;
    rounds->search.heap.n = 0;
    for (int g = 0; g < rounds->groups.n && status == WB_OK; g++)
        status = wb_choice_walk(&rounds->search, &rounds->groups.group[g], &rounds->floor[g],
                                most_score);
    return status;
}

static WbStatus run(Rounds *rounds)
{
    WbChoiceHeap *heap = &rounds->search.heap;
    for (size_t rows = FIRST_ROWS; rows < rounds->n_bounds; rows *= STEP) {
        int64_t within = select_smallest(rounds->bound, rounds->n_bounds, rows);
        WbStatus status = walk_all(rounds, within);
        if (status != WB_OK || heap->n == heap->most)
            return status;
    }
    return walk_all(rounds, MOST_SCORE);
}

static void free_rounds(Rounds *rounds)
{
    for (int s = 0; s < WB_CHOICE_SLOTS; s++)
        free((void *)rounds->search.score[s]);
    wb_choice_groups_free(&rounds->groups);
    free(rounds->bound);
    free(rounds->floor);
}

WbStatus wb_choice_best(const WbChoiceTable *table, const WbChoiceAim *aim, size_t most,
                        const WbChoiceEffort *effort, WbChoiceList *list)
{
    Rounds rounds = {.search = {.table = table,
                                .aim = aim,
                                .heap = {.most = most},
                                .most_nodes = effort->nodes,
                                .control = effort->control}};
    if (most > WB_CHOICE_BEST)
        return WB_BAD_INPUT;
    WbStatus status = wb_choice_groups(table, &rounds.groups);
    if (status == WB_OK && !aim_ok(table, aim))
        status = WB_BAD_INPUT;
    bool room = true;
    for (int s = 0; status == WB_OK && room && s < table->n_slots; s++)
        room = (rounds.search.score[s] = scores(table, aim, s)) != NULL;
    if (status == WB_OK && !(room && take_bounds(&rounds)))
        status = WB_NO_MEMORY;
    if (status == WB_OK && rounds.n_bounds > 0 && most > 0)
        status = run(&rounds);
    free_rounds(&rounds);
    if (status != WB_OK) {
        free(rounds.search.heap.best);
        return status;
    }
    wb_choice_sort(&rounds.search.heap);
    *list = (WbChoiceList){rounds.search.heap.best, rounds.search.heap.n};
    return WB_OK;
}

void wb_choice_list_free(WbChoiceList *list)
{
    free(list->best);
    *list = (WbChoiceList){0};
}
