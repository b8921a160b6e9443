/* How many choices keep all rules. The halves of each group are listed; a pair of them goes
 * together where in each shared rule a <= b, a being the first half's sum and b what the second
 * leaves of the limit. Such pairs are counted by parting both lists at a middle value of one rule:
 * the low a go with all high b in this rule, the high a with no low b, and only low with low and
 * high with high are asked again. So a rule costs a factor log n, not n (Bentley, Comm. ACM 23
 * (1980) 214). */
#include "choice_join.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define PIECE 2000000 /* choices of the first half listed at once, about */
#define FEW 256       /* so few pairs are compared one by one */

/* Sums of so many choices of one half. */
typedef struct {
    double *value; /* [choice][shared rule] */
    size_t n;
} List;

typedef struct {
    WbControl *control;
    size_t width; /* shared rules */
    uint64_t count;
    WbStatus status;
} Counter;

static void add(Counter *counter, uint64_t a, uint64_t b)
{
    uint64_t pairs;
    if (__builtin_mul_overflow(a, b, &pairs) ||
        __builtin_add_overflow(counter->count, pairs, &counter->count))
        counter->status = WB_BAD_INPUT;
}

static void compare_each(Counter *counter, List a, List b, size_t n_rules)
{
    uint64_t count = 0;
    for (size_t i = 0; i < a.n; i++)
        for (size_t j = 0; j < b.n; j++) {
            bool goes = true;
            for (size_t r = 0; r < n_rules; r++)
                goes &= a.value[i * counter->width + r] <= b.value[j * counter->width + r];
            count += goes;
        }
    add(counter, count, 1);
}

static void span(const Counter *counter, List list, size_t r, double *least, double *most)
{
    *least = *most = list.value[r];
    for (size_t i = 1; i < list.n; i++) {
        double x = list.value[i * counter->width + r];
        *least = x < *least ? x : *least;
        *most = x > *most ? x : *most;
    }
}

/* Brings those below the value first (or not above it, with `at`); which they are. */
static List part_list(const Counter *counter, List list, size_t r, double value, bool at,
                      List *rest)
{
    size_t low = 0, high = list.n, width = counter->width;
    while (low < high) {
        double *x = list.value + low * width;
        if (x[r] < value || (at && x[r] == value)) {
            low++;
            continue;
        }
        double *other = list.value + --high * width;
        for (size_t k = 0; k < width; k++) {
            double held = x[k];
            x[k] = other[k];
            other[k] = held;
        }
    }
    *rest = (List){list.value + low * width, list.n - low};
    return (List){list.value, low};
}

/* Pairs that keep the first so many of the shared rules. Whole numbers: each call on both low or
 * both high lists halves the span of a, so it ends. */
static void count_pairs(Counter *counter, List a, List b, size_t n_rules)
{
    double least_a, most_a, least_b, most_b;
    if (wb_control_stopped(counter->control))
        counter->status = WB_STOPPED;
    if (counter->status != WB_OK || a.n == 0 || b.n == 0)
        return;
    if (n_rules == 0) {
        add(counter, a.n, b.n);
        return;
    }
    if (a.n <= FEW / b.n) {
        compare_each(counter, a, b, n_rules);
        return;
    }
    size_t r = n_rules - 1;
    span(counter, a, r, &least_a, &most_a);
    span(counter, b, r, &least_b, &most_b);
    if (least_a > most_b)
        return;
    if (most_a <= least_b) {
        count_pairs(counter, a, b, r);
        return;
    }
    double middle = floor((least_a + most_a) / 2);
    List high_a, high_b;
    List low_a = part_list(counter, a, r, middle, true, &high_a);
    List low_b = part_list(counter, b, r, middle, false, &high_b);
    count_pairs(counter, low_a, high_b, r);
    count_pairs(counter, low_a, low_b, n_rules);
    count_pairs(counter, high_a, high_b, n_rules);
}

/* ---- the lists ---- */

/* The choices of a part that share just these lower buses, as sums to be compared. */
static List list_of(const WbChoicePart *part, uint32_t below, const WbChoiceShared *shared,
                    bool first, double *value)
{
    List list = {value, 0};
    for (size_t i = 0; i < part->n; i++) {
        if (part->below[i] != below)
            continue;
        const double *number = part->number + i * (size_t)part->n_numbers;
        for (int r = 0; r < shared->n; r++)
            *value++ = first ? number[shared->of_a[r]] : shared->most[r] - number[shared->of_b[r]];
        list.n++;
    }
    return list;
}

static int by_bits(const void *left, const void *right)
{
    uint32_t a = *(const uint32_t *)left, b = *(const uint32_t *)right;
    return a < b ? -1 : a > b;
}

/* The different sets of lower buses in the part, sorted into `below`; how many. */
static size_t different(const WbChoicePart *part, uint32_t *below)
{
    size_t n = 0;
    if (part->n == 0)
        return 0;
    memcpy(below, part->below, part->n * sizeof *below);
    qsort(below, part->n, sizeof *below, by_bits);
    for (size_t i = 0; i < part->n; i++)
        if (n == 0 || below[n - 1] != below[i])
            below[n++] = below[i];
    return n;
}

/* Class by class of the lower buses their choices share. */
static void count_classes(Counter *counter, const WbChoicePart *a, const WbChoicePart *b,
                          const WbChoiceShared *shared)
{
    double *value = malloc((a->n + b->n) * counter->width * sizeof *value + 1);
    uint32_t *below = malloc((a->n + b->n) * sizeof *below + 1);
    size_t n_a = 0, n_b = 0;
    if (value && below) {
        n_a = different(a, below);
        n_b = different(b, below + a->n);
    } else {
        counter->status = WB_NO_MEMORY;
    }
    for (size_t i = 0; i < n_a; i++)
        for (size_t j = 0; j < n_b && counter->status == WB_OK; j++) {
            if (below[i] & below[a->n + j])
                continue;
            List one = list_of(a, below[i], shared, true, value);
            List other = list_of(b, below[a->n + j], shared, false, value + one.n * counter->width);
            count_pairs(counter, one, other, counter->width);
        }
    free(value);
    free(below);
}

/* What the limits leave beside each sum; done again it is as before. */
static void take_from_limits(WbChoicePart *part, const WbChoiceShared *shared)
{
    size_t width = (size_t)shared->n;
    for (size_t i = 0; i < part->n; i++)
        for (size_t r = 0; r < width; r++)
            part->number[i * width + r] = shared->most[r] - part->number[i * width + r];
}

/* Where none share lower buses the parts' own numbers are the lists: both carry the shared rules
 * and no others. */
static void count_in_place(Counter *counter, WbChoicePart *a, WbChoicePart *b,
                           const WbChoiceShared *shared)
{
    take_from_limits(b, shared);
    count_pairs(counter, (List){a->number, a->n}, (List){b->number, b->n}, counter->width);
    take_from_limits(b, shared);
}

static WbStatus count_halves(const WbChoiceJoin *join, WbChoicePart *a, WbChoicePart *b,
                             uint64_t *count)
{
    WbChoiceShared shared = wb_choice_shared(join->group, a, b);
    Counter counter = {.control = join->effort.control, .width = (size_t)shared.n};
    if (join->group->below == 0 && a->n_numbers == shared.n && b->n_numbers == shared.n)
        count_in_place(&counter, a, b, &shared);
    else
        count_classes(&counter, a, b, &shared);
    *count = counter.count;
    return counter.status;
}

/* The first half piece by piece of the rows of its first slot, so that no long list of it is held.
 */
static WbStatus count_pieces(WbChoiceJoin *join, uint32_t half, WbChoicePart *other,
                             uint64_t *count)
{
    const WbChoiceGroup *whole = join->group;
    WbChoiceGroup piece = *whole;
    int slot = __builtin_ctz(half);
    size_t rows = whole->n[slot], beside = 1;
    WbStatus status = WB_OK;
    for (int s = slot + 1; s < WB_CHOICE_SLOTS; s++)
        if ((half >> s & 1) && beside < PIECE)
            beside *= whole->n[s];
    size_t step = beside < PIECE ? PIECE / beside : 1;
    join->group = &piece;
    for (size_t first = 0; first < rows && status == WB_OK; first += step) {
        WbChoicePart one = {0};
        uint64_t found = 0;
        piece.row[slot] = whole->row[slot] + first;
        piece.n[slot] = rows - first < step ? rows - first : step;
        status = wb_choice_part_of(join, half, &one);
        if (status == WB_OK)
            status = count_halves(join, &one, other, &found);
        wb_choice_part_free(&one);
        if (status == WB_OK && __builtin_add_overflow(*count, found, count))
            status = WB_BAD_INPUT;
    }
    join->group = whole;
    return status;
}

/* Choices of these slots alone; no rule couples them with others. */
static WbStatus count_slots(WbChoiceJoin *join, uint32_t slots, uint64_t *count)
{
    uint32_t half = wb_choice_half(join->group, slots);
    WbChoicePart other = {0};
    WbStatus status = wb_choice_part_of(join, slots & ~half, &other);
    if (status == WB_OK)
        status = count_pieces(join, half, &other, count);
    wb_choice_part_free(&other);
    return status;
}

/* Slots that rules couple are counted together, and what they come to is multiplied. */
static WbStatus count_group(WbChoiceJoin *join, uint64_t *count)
{
    uint32_t left = wb_choice_all_slots(join->group->table);
    uint64_t product = 1;
    while (left) {
        uint32_t slots = wb_choice_coupled(join->group, left & -left);
        uint64_t found = 0;
        WbStatus status = count_slots(join, slots, &found);
        if (status != WB_OK)
            return status;
        if (__builtin_mul_overflow(product, found, &product))
            return WB_BAD_INPUT;
        left &= ~slots;
    }
    return __builtin_add_overflow(*count, product, count) ? WB_BAD_INPUT : WB_OK;
}

WbStatus wb_choice_count(const WbChoiceTable *table, const WbChoiceEffort *effort, uint64_t *count)
{
    WbChoiceGroups groups;
    WbChoiceJoin join = {.effort = *effort};
    uint64_t found = 0;
    WbStatus status = wb_choice_groups(table, &groups);
    for (int g = 0; g < groups.n && status == WB_OK; g++) {
        join.group = &groups.group[g];
        status = count_group(&join, &found);
    }
    wb_choice_groups_free(&groups);
    if (status == WB_OK)
        *count = found;
    return status;
}
