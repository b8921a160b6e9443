/* Three sieves, in turn while rows fall:
 *   1. a row with the least terms of all other slots breaks a rule, or with their least scores
 *      passes the limit;
 *   2. as many other rows of the slot as choices are wanted are no dearer and have no greater term
 *      (the skyband; leaving out what a single one beats would lose the second best);
 *   3. the least score of each other slot among rows that go with this one, taken slot by slot,
 *      passes the limit together. */
#include "choice_domain.h"
#include <stdlib.h>

#define ROUNDS 4
#define PEERS 512 /* a row is held against so many others of its slot, the cheapest */

/* ---- gathering ---- */

typedef struct {
    int64_t score;
    uint32_t row;
} Scored;

static int by_score(const void *left, const void *right)
{
    const Scored *a = left, *b = right;
    if (a->score != b->score)
        return a->score < b->score ? -1 : 1;
    return a->row < b->row ? -1 : a->row > b->row;
}

static void fill(WbChoiceDomains *domains, int s, const Scored *scored)
{
    const WbChoiceGroup *group = domains->group;
    WbChoiceDomain *domain = &domains->domain[s];
    for (size_t i = 0; i < domain->n; i++) {
        uint32_t row = scored[i].row;
        domain->row[i] = row;
        domain->score[i] = scored[i].score;
        domain->below[i] = wb_choice_below(group, s, row);
    }
    for (int r = 0; r < domains->n_rules; r++)
        for (size_t i = 0; i < domain->n; i++)
            domain->term[i * (size_t)domains->n_rules + (size_t)r] =
                wb_choice_term(group->table, s, group->rule[r], domain->row[i]);
}

static bool gather(WbChoiceDomains *domains, int s, const WbChoiceFloor *floor, int64_t most_score)
{
    const WbChoiceGroup *group = domains->group;
    WbChoiceDomain *domain = &domains->domain[s];
    size_t n = 0, total = group->n[s];
    for (size_t i = 0; i < total; i++)
        n += wb_choice_bound(domains->search, floor, s, group->row[s][i]) <= most_score;
    Scored *scored = malloc((n + 1) * sizeof *scored);
    domain->row = malloc((n + 1) * sizeof *domain->row);
    domain->score = malloc((n + 1) * sizeof *domain->score);
    domain->below = malloc((n + 1) * sizeof *domain->below);
    domain->term = malloc((n * (size_t)domains->n_rules + 1) * sizeof *domain->term);
    domain->after = calloc(n * (size_t)domains->n_slots + 1, sizeof *domain->after);
    bool room =
        scored && domain->row && domain->score && domain->below && domain->term && domain->after;
    for (size_t i = 0; room && i < total; i++) {
        uint32_t row = group->row[s][i];
        if (wb_choice_bound(domains->search, floor, s, row) <= most_score)
            scored[domain->n++] = (Scored){domains->search->score[s][row], row};
    }
    if (room && domain->n > 0) {
        qsort(scored, domain->n, sizeof *scored, by_score);
        fill(domains, s, scored);
    }
    free(scored);
    return room;
}

bool wb_choice_domains(WbChoiceDomains *domains, const WbChoiceSearch *search,
                       const WbChoiceGroup *group, const WbChoiceFloor *floor, int64_t most_score)
{
    *domains = (WbChoiceDomains){.search = search,
                                 .group = group,
                                 .n_slots = group->table->n_slots,
                                 .n_rules = group->n_rules};
    for (int r = 0; r < group->n_rules; r++)
        domains->limit[r] = group->table->limit[group->rule[r]];
    for (int s = 0; s < domains->n_slots; s++)
        if (!gather(domains, s, floor, most_score))
            return false;
    return true;
}

/* ---- the sieves ---- */

static void move(WbChoiceDomains *domains, WbChoiceDomain *domain, size_t to, size_t from)
{
    size_t n_rules = (size_t)domains->n_rules;
    if (to == from)
        return;
    domain->row[to] = domain->row[from];
    domain->score[to] = domain->score[from];
    domain->below[to] = domain->below[from];
    for (size_t r = 0; r < n_rules; r++)
        domain->term[to * n_rules + r] = domain->term[from * n_rules + r];
    for (int t = 0; t < domains->n_slots; t++)
        domain->after[to * (size_t)domains->n_slots + (size_t)t] =
            domain->after[from * (size_t)domains->n_slots + (size_t)t];
}

/* Least terms and scores of what is left; false: a slot is empty. */
static bool take_least(WbChoiceDomains *domains)
{
    domains->floor.sum = 0;
    for (int r = 0; r < domains->n_rules; r++)
        domains->sum[r] = 0;
    for (int s = 0; s < domains->n_slots; s++) {
        WbChoiceDomain *domain = &domains->domain[s];
        if (domain->n == 0)
            return false;
        domain->least_row = domain->row[0];
        for (size_t i = 1; i < domain->n; i++)
            if (domain->row[i] < domain->least_row)
                domain->least_row = domain->row[i];
        domains->floor.least[s] = domain->score[0];
        domains->floor.sum += domain->score[0];
        for (int r = 0; r < domains->n_rules; r++) {
            const int64_t *term = domain->term + r;
            int64_t least = term[0];
            for (size_t i = 1; i < domain->n; i++) {
                int64_t x = term[i * (size_t)domains->n_rules];
                least = x < least ? x : least;
            }
            domains->least[r][s] = least;
            domains->sum[r] += least;
        }
    }
    return true;
}

static bool keep_possible(WbChoiceDomains *domains, int s, int64_t most_score)
{
    WbChoiceDomain *domain = &domains->domain[s];
    size_t n_rules = (size_t)domains->n_rules, kept = 0;
    int64_t room[WB_CHOICE_RULES];
    for (size_t r = 0; r < n_rules; r++)
        room[r] = domains->limit[r] - (domains->sum[r] - domains->least[r][s]);
    int64_t dearest = most_score - (domains->floor.sum - domains->floor.least[s]);
    size_t before = domain->n;
    for (size_t i = 0; i < before && domain->score[i] <= dearest; i++) {
        bool possible = true;
        for (size_t r = 0; r < n_rules; r++)
            possible &= domain->term[i * n_rules + r] <= room[r];
        if (possible)
            move(domains, domain, kept++, i);
    }
    domain->n = kept;
    return kept < before;
}

static bool no_greater(const int64_t *a, const int64_t *b, size_t n)
{
    for (size_t r = 0; r < n; r++)
        if (a[r] > b[r])
            return false;
    return true;
}

static bool keep_skyband(WbChoiceDomains *domains, int s, size_t most)
{
    WbChoiceDomain *domain = &domains->domain[s];
    size_t n_rules = (size_t)domains->n_rules, kept = 0, before = domain->n;
    for (size_t i = 0; i < before; i++) {
        const int64_t *term = domain->term + i * n_rules;
        size_t better = 0;
        for (size_t j = 0; j < kept && j < PEERS && better < most; j++)
            better += no_greater(domain->term + j * n_rules, term, n_rules);
        if (better < most)
            move(domains, domain, kept++, i);
    }
    domain->n = kept;
    return kept < before;
}

/* The least score in slot t that goes with this row of slot s; the limit plus one where it would
 * be more than that row can bear. */
static int64_t least_after(const WbChoiceDomains *domains, const int64_t *term, const int64_t *room,
                           int t, int64_t dearest)
{
    const WbChoiceDomain *other = &domains->domain[t];
    size_t n_rules = (size_t)domains->n_rules;
    for (size_t j = 0; j < other->n && other->score[j] <= dearest; j++) {
        const int64_t *theirs = other->term + j * n_rules;
        bool goes = true;
        for (size_t r = 0; r < n_rules; r++)
            goes &= term[r] + theirs[r] <= room[r];
        if (goes)
            return other->score[j];
    }
    return dearest + 1;
}

static bool keep_paired(WbChoiceDomains *domains, int s, int64_t most_score)
{
    WbChoiceDomain *domain = &domains->domain[s];
    size_t n_rules = (size_t)domains->n_rules, n_slots = (size_t)domains->n_slots, kept = 0;
    int64_t room[WB_CHOICE_SLOTS][WB_CHOICE_RULES];
    for (size_t t = 0; t < n_slots; t++)
        for (size_t r = 0; r < n_rules; r++)
            room[t][r] =
                domains->limit[r] - (domains->sum[r] - domains->least[r][s] - domains->least[r][t]);
    size_t before = domain->n;
    for (size_t i = 0; i < before; i++) {
        int64_t *after = domain->after + i * n_slots;
        int64_t bound = domain->score[i] + domains->floor.sum - domains->floor.least[s];
        for (size_t t = 0; t < n_slots && bound <= most_score; t++) {
            after[t] = 0;
            if ((int)t == s)
                continue;
            int64_t least = domains->floor.least[t];
            after[t] = least_after(domains, domain->term + i * n_rules, room[t], (int)t,
                                   most_score - (bound - least));
            bound += after[t] - least;
        }
        if (bound <= most_score)
            move(domains, domain, kept++, i);
    }
    domain->n = kept;
    return kept < before;
}

bool wb_choice_tighten(WbChoiceDomains *domains, int64_t most_score, size_t most)
{
    bool fell = true;
    for (int round = 0; fell && round < ROUNDS; round++) {
        fell = false;
        for (int s = 0; s < domains->n_slots; s++) {
            if (!take_least(domains))
                return false;
            fell |= keep_possible(domains, s, most_score);
        }
        for (int s = 0; most > 0 && most <= PEERS && s < domains->n_slots; s++)
            fell |= keep_skyband(domains, s, most);
        for (int s = 0; s < domains->n_slots; s++) {
            if (!take_least(domains))
                return false;
            fell |= keep_paired(domains, s, most_score);
        }
    }
    return take_least(domains);
}

void wb_choice_domains_free(WbChoiceDomains *domains)
{
    for (int s = 0; s < domains->n_slots; s++) {
        WbChoiceDomain *domain = &domains->domain[s];
        free(domain->row);
        free(domain->score);
        free(domain->below);
        free(domain->term);
        free(domain->after);
    }
    *domains = (WbChoiceDomains){0};
}
