/* The slot with the fewest rows comes first. A branch ends where its score so far, with the least
 * scores that go with the rows chosen, passes the limit or that of the worst choice kept; where it
 * equals that one's, the rows decide. */
#include "choice_walk.h"
#include "choice_domain.h"

typedef struct {
    WbChoiceSearch *search;
    WbChoiceDomains *domains;
    int64_t most_score;
    int order[WB_CHOICE_SLOTS];
    int64_t rest[WB_CHOICE_SLOTS + 1]
                [WB_CHOICE_RULES]; /* least terms of the slots from a depth on */
    WbChoice least;                /* the rows chosen, and the least of the slots still open */
    WbStatus status;
} Walk;

typedef struct {
    int64_t score;
    int64_t sum[WB_CHOICE_RULES];
    int64_t after[WB_CHOICE_SLOTS]; /* least scores of the slots still open */
    uint32_t below;                 /* lower buses all rows share */
} Branch;

static bool could_enter(const Walk *walk, int64_t bound)
{
    const WbChoiceHeap *heap = &walk->search->heap;
    if (heap->n < heap->most)
        return bound <= walk->most_score;
    if (bound != heap->best[0].score)
        return bound < heap->best[0].score;
    return wb_choice_compare(&walk->least, &heap->best[0].choice) < 0;
}

static void take(Walk *walk, const Branch *branch)
{
    WbChoiceSearch *search = walk->search;
    if (branch->below) /* belongs to a lower bus */
        return;
    WbChoiceBest offer = {walk->least, branch->score};
    const WbChoiceAim *aim = search->aim;
    if (aim->exact)
        offer.score = aim->exact(&offer.choice, branch->score, aim->data);
    if (offer.score <= walk->most_score && !wb_choice_put(&search->heap, &offer))
        walk->status = WB_NO_MEMORY;
}

static bool may_go_on(Walk *walk)
{
    WbChoiceSearch *search = walk->search;
    search->nodes++;
    if (search->most_nodes && search->nodes > search->most_nodes)
        walk->status = WB_BUDGET;
    else if (search->nodes % 4096 == 0 && wb_control_stopped(search->control))
        walk->status = WB_STOPPED;
    return walk->status == WB_OK;
}

/* Does row i of the slot at this depth keep all rules with what is chosen and the best of the rest?
 */
static bool goes(const Walk *walk, const Branch *branch, int depth, const int64_t *term)
{
    const WbChoiceDomains *domains = walk->domains;
    for (int r = 0; r < domains->n_rules; r++)
        if (branch->sum[r] + term[r] + walk->rest[depth + 1][r] > domains->limit[r])
            return false;
    return true;
}

/* The branch with row i as well; what it scores at least. */
static int64_t extend(const Walk *walk, const Branch *branch, int depth, size_t i, Branch *longer)
{
    const WbChoiceDomains *domains = walk->domains;
    const WbChoiceDomain *domain = &domains->domain[walk->order[depth]];
    const int64_t *after = domain->after + i * (size_t)domains->n_slots;
    longer->score = branch->score + domain->score[i];
    longer->below = branch->below & domain->below[i];
    int64_t bound = longer->score;
    for (int d = depth + 1; d < domains->n_slots; d++) {
        int t = walk->order[d];
        longer->after[t] = after[t] > branch->after[t] ? after[t] : branch->after[t];
        bound += longer->after[t];
    }
    return bound;
}

static void descend(Walk *walk, const Branch *branch, int depth)
{
    const WbChoiceDomains *domains = walk->domains;
    if (depth == domains->n_slots) {
        take(walk, branch);
        return;
    }
    int slot = walk->order[depth];
    const WbChoiceDomain *domain = &domains->domain[slot];
    size_t n_rules = (size_t)domains->n_rules;
    int64_t others = 0;
    for (int d = depth + 1; d < domains->n_slots; d++)
        others += branch->after[walk->order[d]];
    for (size_t i = 0; i < domain->n && may_go_on(walk); i++) {
        Branch longer;
        walk->least.row[slot] = domain->least_row;
        if (!could_enter(walk, branch->score + domain->score[i] + others))
            break;
        const int64_t *term = domain->term + i * n_rules;
        if (!goes(walk, branch, depth, term))
            continue;
        walk->least.row[slot] = domain->row[i];
        if (!could_enter(walk, extend(walk, branch, depth, i, &longer)))
            continue;
        for (size_t r = 0; r < n_rules; r++)
            longer.sum[r] = branch->sum[r] + term[r];
        descend(walk, &longer, depth + 1);
    }
    walk->least.row[slot] = domain->least_row;
}

static void set_order(Walk *walk)
{
    const WbChoiceDomains *domains = walk->domains;
    int n = domains->n_slots;
    for (int s = 0; s < n; s++) {
        int place = s;
        while (place > 0 && domains->domain[walk->order[place - 1]].n > domains->domain[s].n) {
            walk->order[place] = walk->order[place - 1];
            place--;
        }
        walk->order[place] = s;
    }
    for (int depth = n - 1; depth >= 0; depth--)
        for (int r = 0; r < domains->n_rules; r++)
            walk->rest[depth][r] = walk->rest[depth + 1][r] + domains->least[r][walk->order[depth]];
}

static WbStatus walk_through(WbChoiceSearch *search, WbChoiceDomains *domains, int64_t most_score)
{
    Walk walk = {.search = search, .domains = domains, .most_score = most_score};
    Branch root = {.below = domains->group->below};
    set_order(&walk);
    for (int s = 0; s < domains->n_slots; s++) {
        walk.least.row[s] = domains->domain[s].least_row;
        root.after[s] = domains->floor.least[s];
    }
    descend(&walk, &root, 0);
    return walk.status;
}

WbStatus wb_choice_walk(WbChoiceSearch *search, const WbChoiceGroup *group,
                        const WbChoiceFloor *floor, int64_t most_score)
{
    WbChoiceDomains domains;
    WbStatus status = WB_NO_MEMORY;
    const WbChoiceHeap *heap = &search->heap;
    int64_t most = heap->n == heap->most ? heap->best[0].score : most_score;
    if (wb_choice_domains(&domains, search, group, floor, most)) {
        status = WB_OK;
        if (wb_choice_tighten(&domains, most, search->aim->exact ? 0 : heap->most))
            status = walk_through(search, &domains, most_score);
    }
    wb_choice_domains_free(&domains);
    return status;
}
