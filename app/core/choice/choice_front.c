/* The front, factorised: in each group the slots are parted in two halves, each half is thinned to
 * the choices nothing replaces to advantage (the numbers that couple the halves counting like
 * criteria, else answers would be lost), and only what is left is paired. Cf. Klamroth, Lang &
 * Stiglmayr, dominance filtering of sums of sets. */
#include "choice_join.h"
#include "choice_list.h"
#include <stdlib.h>

static void set_criteria(WbChoiceJoin *join, const WbChoiceTable *table, uint32_t criteria)
{
    for (int c = 0; c < table->n_criteria; c++)
        if (criteria >> c & 1)
            join->criterion[join->n_criteria++] = c;
}

static WbStatus pair_halves(WbChoiceJoin *join, WbChoicePart *front)
{
    uint32_t all = wb_choice_all_slots(join->group->table);
    uint32_t half = wb_choice_half(join->group, all);
    WbChoicePart one = {0}, other = {0};
    WbStatus status = wb_choice_part_of(join, half, &one);
    if (status == WB_OK)
        status = wb_choice_part_of(join, all & ~half, &other);
    if (status == WB_OK)
        status = wb_choice_pairs(join, &one, &other, front);
    wb_choice_part_free(&one);
    wb_choice_part_free(&other);
    return status;
}

/* ---- the answer in its order ---- */

typedef struct {
    const double *number;
    const WbChoice *choice;
    int n_criteria;
} Member;

static int by_number(const Member *a, const Member *b)
{
    for (int c = 0; c < a->n_criteria; c++)
        if (a->number[c] != b->number[c])
            return a->number[c] < b->number[c] ? -1 : 1;
    return 0;
}

static int by_number_and_rows(const void *left, const void *right)
{
    const Member *a = left, *b = right;
    int order = by_number(a, b);
    return order ? order : wb_choice_compare(a->choice, b->choice);
}

static WbStatus write_out(const WbChoicePart *part, WbChoiceFront *front)
{
    size_t n = part->n, n_criteria = (size_t)part->n_criteria;
    Member *member = malloc((n + 1) * sizeof *member);
    WbChoice *choice = malloc((n + 1) * sizeof *choice);
    double *worse = malloc((n * n_criteria + 1) * sizeof *worse);
    if (!member || !choice || !worse) {
        free(member);
        free(choice);
        free(worse);
        return WB_NO_MEMORY;
    }
    *front = (WbChoiceFront){choice, worse, part->n_criteria, n, 0};
    for (size_t i = 0; i < n; i++)
        member[i] = (Member){part->number + i * n_criteria, &part->choice[i], part->n_criteria};
    if (n > 0)
        qsort(member, n, sizeof *member, by_number_and_rows);
    for (size_t i = 0; i < n; i++) {
        front->n_vectors += i == 0 || by_number(&member[i - 1], &member[i]) != 0;
        choice[i] = *member[i].choice;
        for (size_t c = 0; c < n_criteria; c++)
            worse[i * n_criteria + c] = member[i].number[c];
    }
    free(member);
    return WB_OK;
}

WbStatus wb_choice_front(const WbChoiceTable *table, uint32_t criteria,
                         const WbChoiceEffort *effort, WbChoiceFront *front)
{
    WbChoiceGroups groups;
    WbChoicePart part;
    WbChoiceJoin join = {.thin = true, .effort = *effort};
    WbStatus status = wb_choice_groups(table, &groups);
    if (status != WB_OK)
        return status;
    set_criteria(&join, table, criteria);
    wb_choice_part_init(&part, 0, join.n_criteria, true, effort);
    if (join.n_criteria == 0)
        status = WB_BAD_INPUT;
    for (int g = 0; g < groups.n && status == WB_OK; g++) {
        join.group = &groups.group[g];
        status = pair_halves(&join, &part);
    }
    if (status == WB_OK)
        status = wb_choice_part_finish(&part);
    if (status == WB_OK)
        status = write_out(&part, front);
    wb_choice_part_free(&part);
    wb_choice_groups_free(&groups);
    return status;
}

void wb_choice_front_free(WbChoiceFront *front)
{
    free(front->choice);
    free(front->worse);
    *front = (WbChoiceFront){0};
}
