/* The front of mixes: every vector of counts that its models, the load and the number of panels
 * allow, most watts first and then cheapest; one counts only where no fitting one before it is as
 * cheap.
 *
 * What fits and what does not have a common border, and what is known of one vector answers many
 * (mix_known.h). Along one model's count, halving with short askings finds where they begin to
 * fail: such a failure stands for all larger vectors too. Only failures that keep a vector off the
 * front are asked again, longer, and those are the smallest ones that do. */
#include "mix_known.h"
#include "roof_outline.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Parts of the node budget: a short and a long asking, and all of either kind together. */
enum { SHORT_SHARE = 20000, LONG_SHARE = 1000, ALL_SHORT_SHARE = 50, ALL_LONG_SHARE = 60 };
enum { SINGLE_SHARE = 20 };

typedef struct {
    WbMixCounts counts;
    double power_w, load_kg;
    int64_t price_minor; /* INT64_MAX: not known */
} Candidate;

/* A vector that was not decided; no larger one is asked before it is. */
typedef struct {
    WbMixCounts counts;
    bool wanted, asked_long;
} Failure;

typedef struct {
    const WbRoof *roof;
    const WbMixModel *model;
    size_t n_models;
    int at_most;
    uint64_t node_budget, short_left, long_left;
    WbControl *control;
    int bound[WB_MIX_MODELS];
    Candidate *candidate;
    size_t n_candidates;
    WbMixKnown known;
    Failure *failure;
    size_t n_failures, failure_room;
    WbMixBest *best;
    size_t n_best;
    int undecided;
    double undecided_w; /* the most watts of an undecided one */
    WbStatus status;
} Quest;

void wb_mix_best_free(WbMixBest *best, size_t n)
{
    for (size_t i = 0; i < n; i++)
        free(best[i].layout);
    free(best);
}

/* Each model alone: how many at most, and layouts to start from. */
static WbStatus ask_single(Quest *quest, size_t which)
{
    const WbMixModel *model = &quest->model[which];
    WbRoofFit fit;
    WbStatus status = wb_roof_most(quest->roof, model->length_mm, model->width_mm, quest->at_most,
                                   quest->node_budget / SINGLE_SHARE, quest->control, &fit);
    if (status != WB_OK)
        return status;
    WbMixFact fact = {.layout = malloc((fit.most + 1) * sizeof *fact.layout), .n_layout = fit.most};
    fact.counts.count[which] = fit.most;
    for (int i = 0; fact.layout && i < fit.most; i++)
        fact.layout[i] = (WbMixPlace){fit.layout[i], (int)which};
    quest->bound[which] = fit.mm_bound;
    wb_roof_fit_free(&fit);
    return fact.layout && wb_mix_known_add(&quest->known, fact) ? WB_OK : WB_NO_MEMORY;
}

/* False: too many panels or too heavy. */
static bool weigh(const Quest *quest, Candidate *candidate)
{
    int panels = 0;
    bool priced = true;
    candidate->price_minor = 0;
    for (size_t k = 0; k < quest->n_models; k++) {
        int count = candidate->counts.count[k];
        const WbMixModel *model = &quest->model[k];
        panels += count;
        candidate->power_w += count * model->power_w;
        candidate->load_kg += count * model->load_kg;
        candidate->price_minor += count * (model->price_minor > 0 ? model->price_minor : 0);
        priced = priced && (count == 0 || model->price_minor >= 0);
    }
    if (!priced)
        candidate->price_minor = INT64_MAX;
    return panels > 0 && panels <= quest->at_most &&
           !(candidate->load_kg > quest->roof->max_load_kg); /* NaN: no limit */
}

/* Fewer panels of one model do the same as more where watts are not positive: all are listed, the
 * walk drops them. */
static WbStatus list_candidates(Quest *quest)
{
    size_t all = 1;
    for (size_t k = 0; k < WB_MIX_MODELS; k++)
        all *= k < quest->n_models ? (size_t)quest->bound[k] + 1 : 1;
    quest->candidate = malloc(all * sizeof *quest->candidate);
    if (!quest->candidate)
        return WB_NO_MEMORY;
    for (size_t number = 0; number < all; number++) {
        Candidate candidate = {0};
        size_t rest = number;
        for (size_t k = 0; k < quest->n_models; k++) {
            candidate.counts.count[k] = (int)(rest % (quest->bound[k] + 1));
            rest /= quest->bound[k] + 1;
        }
        if (weigh(quest, &candidate))
            quest->candidate[quest->n_candidates++] = candidate;
    }
    return WB_OK;
}

static int by_watts(const void *a, const void *b)
{
    const Candidate *x = a, *y = b;
    if (x->power_w != y->power_w)
        return x->power_w > y->power_w ? -1 : 1;
    if (x->price_minor != y->price_minor)
        return x->price_minor < y->price_minor ? -1 : 1;
    return memcmp(x->counts.count, y->counts.count, sizeof x->counts.count);
}

static void keep(Quest *quest, const Candidate *candidate, const WbMixFact *fact)
{
    WbMixBest *grown = realloc(quest->best, (quest->n_best + 1) * sizeof *grown);
    if (!grown) {
        quest->status = WB_NO_MEMORY;
        return;
    }
    quest->best = grown;
    WbMixBest *best = &grown[quest->n_best];
    *best = (WbMixBest){.power_w = candidate->power_w,
                        .price_minor =
                            candidate->price_minor == INT64_MAX ? -1 : candidate->price_minor,
                        .load_kg = candidate->load_kg,
                        .proved = !(quest->undecided_w > candidate->power_w)};
    memcpy(best->count, candidate->counts.count, sizeof best->count);
    best->layout = wb_mix_known_cut(fact, &candidate->counts, &best->n_layout);
    if (best->layout)
        quest->n_best++;
    else
        quest->status = WB_NO_MEMORY;
}

/* ---- asking ---- */

static void note_failure(Quest *quest, const WbMixCounts *counts)
{
    if (quest->n_failures == quest->failure_room) {
        size_t room = quest->failure_room ? 2 * quest->failure_room : 32;
        Failure *failure = realloc(quest->failure, room * sizeof *failure);
        if (!failure) {
            quest->status = WB_NO_MEMORY;
            return;
        }
        quest->failure = failure;
        quest->failure_room = room;
    }
    quest->failure[quest->n_failures++] = (Failure){.counts = *counts};
}

static void count_laid(WbMixFact *fact)
{
    fact->counts = (WbMixCounts){0};
    for (int i = 0; i < fact->n_layout; i++)
        fact->counts.count[fact->layout[i].item]++;
}

/* A fact comes of it, or WB_FIT_UNDECIDED. What is within 1 mm does not fit on whole mm, nor does
 * more. */
static WbFitAnswer ask(Quest *quest, const WbMixCounts *counts, uint64_t nodes, uint64_t *left)
{
    WbMixItem items[WB_MIX_MODELS];
    WbMixFit fit = {.answer = WB_FIT_UNDECIDED};
    for (size_t k = 0; k < quest->n_models; k++)
        items[k] = (WbMixItem){quest->model[k].length_mm, quest->model[k].width_mm,
                               counts->count[k], true};
    quest->status = wb_mix_fit(quest->roof, items, quest->n_models, nodes < *left ? nodes : *left,
                               quest->control, &fit);
    *left -= fit.nodes < *left ? fit.nodes : *left;
    if (quest->status != WB_OK || (fit.answer == WB_FIT_UNDECIDED && !fit.layout)) {
        wb_mix_fit_free(&fit);
        return WB_FIT_UNDECIDED;
    }
    WbFitAnswer answer = fit.answer == WB_FIT_WITHIN_1_MM ? WB_FITS_NOT : fit.answer;
    WbMixFact fact = {.counts = *counts, .layout = fit.layout, .n_layout = fit.n_layout};
    if (answer == WB_FIT_UNDECIDED) /* what was laid of it is known to fit */
        count_laid(&fact);
    free(fit.proof.literals);
    if (!wb_mix_known_add(&quest->known, fact))
        quest->status = WB_NO_MEMORY;
    return answer;
}

static bool fails(const Quest *quest, const WbMixCounts *counts)
{
    for (size_t i = 0; i < quest->n_failures; i++)
        if (wb_mix_counts_within(&quest->failure[i].counts, counts))
            return true;
    return false;
}

/* Halves along the model of which the most lie alone until the vector fits, or a failure or a fact
 * stands for it. */
static void probe(Quest *quest, const WbMixCounts *counts)
{
    int along = 0;
    for (int k = 1; k < WB_MIX_MODELS; k++)
        if (quest->bound[k] > quest->bound[along])
            along = k;
    WbMixCounts at = *counts;
    int low = -1, high = counts->count[along] + 1; /* fits at low, does not or fails at high */
    while (high - low > 1 && quest->status == WB_OK && quest->short_left > 0) {
        at.count[along] = (low + high) / 2;
        const WbMixFact *known = wb_mix_known_find(&quest->known, &at);
        bool fits = known && known->layout;
        if (!known && !fails(quest, &at)) {
            WbFitAnswer answer =
                ask(quest, &at, quest->node_budget / SHORT_SHARE, &quest->short_left);
            fits = answer == WB_FITS;
            if (quest->status == WB_OK && answer == WB_FIT_UNDECIDED)
                note_failure(quest, &at);
        }
        *(fits ? &low : &high) = at.count[along];
    }
}

/* Wants the first failure that keeps this vector off and was not asked at length yet. */
static void want_decided(Quest *quest, const WbMixCounts *counts)
{
    Failure *last = NULL;
    for (size_t i = 0; i < quest->n_failures; i++) {
        Failure *failure = &quest->failure[i];
        if (!failure->asked_long && wb_mix_counts_within(&failure->counts, counts) &&
            (!last || wb_mix_counts_within(&failure->counts, &last->counts)))
            last = failure;
    }
    if (last)
        last->wanted = true;
}

static void note_undecided(Quest *quest, const Candidate *candidate)
{
    want_decided(quest, &candidate->counts);
    quest->undecided++;
    if (candidate->power_w > quest->undecided_w)
        quest->undecided_w = candidate->power_w;
}

/* Down the watts; `keeps`: the last time, for the front itself. */
static void walk(Quest *quest, bool keeps)
{
    int64_t cheapest_minor = INT64_MAX;
    bool any = false;
    quest->undecided = 0;
    quest->undecided_w = -INFINITY;
    for (size_t i = 0; i < quest->n_candidates && quest->status == WB_OK; i++) {
        const Candidate *candidate = &quest->candidate[i];
        if (any && candidate->price_minor >= cheapest_minor)
            continue;
        if (!wb_mix_known_find(&quest->known, &candidate->counts) &&
            !fails(quest, &candidate->counts))
            probe(quest, &candidate->counts);
        const WbMixFact *fact = wb_mix_known_find(&quest->known, &candidate->counts);
        if (fact && fact->layout) {
            cheapest_minor = candidate->price_minor;
            any = true;
            if (keeps)
                keep(quest, candidate, fact);
        } else if (!fact && quest->status == WB_OK) {
            note_undecided(quest, candidate);
        }
    }
}

/* False: nothing was wanted, or no nodes are left. */
static bool ask_wanted(Quest *quest)
{
    bool asked = false;
    for (size_t i = 0; i < quest->n_failures && quest->status == WB_OK && quest->long_left > 0;
         i++) {
        Failure *failure = &quest->failure[i];
        if (!failure->wanted || failure->asked_long)
            continue;
        failure->asked_long = asked = true;
        if (!wb_mix_known_find(&quest->known, &failure->counts))
            ask(quest, &failure->counts, quest->node_budget / LONG_SHARE, &quest->long_left);
    }
    /* Decided ones stand for no others any more. */
    size_t kept = 0;
    for (size_t i = 0; i < quest->n_failures; i++)
        if (!wb_mix_known_find(&quest->known, &quest->failure[i].counts))
            quest->failure[kept++] = quest->failure[i];
    quest->n_failures = kept;
    return asked;
}

static void find_front(Quest *quest)
{
    qsort(quest->candidate, quest->n_candidates, sizeof *quest->candidate, by_watts);
    do
        walk(quest, false);
    while (quest->status == WB_OK && ask_wanted(quest));
    if (quest->status == WB_OK)
        walk(quest, true);
}

static bool models_valid(const WbMixModel *models, size_t n_models, int at_most)
{
    if (n_models < 1 || n_models > WB_MIX_MODELS || at_most < 0 || at_most > WB_MIX_PANELS)
        return false;
    for (size_t k = 0; k < n_models; k++)
        if (!wb_roof_length_valid(models[k].length_mm) ||
            !wb_roof_length_valid(models[k].width_mm) || !isfinite(models[k].power_w) ||
            !isfinite(models[k].load_kg) || models[k].price_minor > INT64_MAX / WB_MIX_PANELS / 4)
            return false;
    return true;
}

WbStatus wb_mix_best(const WbRoof *roof, const WbMixModel *models, size_t n_models, int at_most,
                     uint64_t node_budget, WbControl *control, WbMixBest **best, size_t *n,
                     int *undecided)
{
    if (!wb_roof_valid(roof) || !models_valid(models, n_models, at_most))
        return WB_BAD_INPUT;
    Quest quest = {.roof = roof,
                   .model = models,
                   .n_models = n_models,
                   .at_most = at_most,
                   .node_budget = node_budget,
                   .short_left = node_budget / ALL_SHORT_SHARE,
                   .long_left = node_budget / ALL_LONG_SHARE,
                   .control = control,
                   .undecided_w = -INFINITY};
    for (size_t k = 0; k < n_models && quest.status == WB_OK; k++)
        quest.status = ask_single(&quest, k);
    if (quest.status == WB_OK)
        quest.status = list_candidates(&quest);
    if (quest.status == WB_OK)
        find_front(&quest);
    free(quest.candidate);
    free(quest.failure);
    wb_mix_known_free(&quest.known);
    if (quest.status != WB_OK) {
        wb_mix_best_free(quest.best, quest.n_best);
        return quest.status;
    }
    *best = quest.best;
    *n = quest.n_best;
    *undecided = quest.undecided;
    return WB_OK;
}
