/* The front of mixes: every vector of counts that its models, the load and the number of panels
 * allow, most watts first and then cheapest. A vector is asked only where no fitting one before it
 * is as cheap; what is known of others often answers. */
#include "mix_known.h"
#include "roof_outline.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { ASKING_SHARE = 400, SINGLE_SHARE = 20 };

typedef struct {
    WbMixCounts counts;
    double power_w, load_kg;
    int64_t price_minor; /* INT64_MAX: not known */
} Candidate;

typedef struct {
    const WbRoof *roof;
    const WbMixModel *model;
    size_t n_models;
    int at_most;
    uint64_t node_budget, nodes;
    WbControl *control;
    int bound[WB_MIX_MODELS];
    Candidate *candidate;
    size_t n_candidates;
    WbMixKnown known;
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
    quest->nodes += fit.nodes;
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

static WbMixFit ask_fit(Quest *quest, const WbMixCounts *counts)
{
    WbMixItem items[WB_MIX_MODELS];
    WbMixFit fit = {.answer = WB_FIT_UNDECIDED};
    uint64_t left = quest->node_budget > quest->nodes ? quest->node_budget - quest->nodes : 0;
    uint64_t share = quest->node_budget / ASKING_SHARE;
    for (size_t k = 0; k < quest->n_models; k++)
        items[k] = (WbMixItem){quest->model[k].length_mm, quest->model[k].width_mm,
                               counts->count[k], true};
    quest->status = wb_mix_fit(quest->roof, items, quest->n_models, left < share ? left : share,
                               quest->control, &fit);
    quest->nodes += fit.nodes;
    return fit;
}

/* The fact that settles the candidate, asked where none is known. NULL: undecided, or a failure. */
static const WbMixFact *settle(Quest *quest, const Candidate *candidate)
{
    const WbMixFact *known = wb_mix_known_find(&quest->known, &candidate->counts);
    if (known)
        return known;
    WbMixFit fit = ask_fit(quest, &candidate->counts);
    if (quest->status != WB_OK || fit.answer == WB_FIT_UNDECIDED) {
        wb_mix_fit_free(&fit);
        return NULL;
    }
    /* What is within 1 mm does not fit on whole mm, nor does more. */
    WbMixFact fact = {candidate->counts, fit.layout, fit.n_layout};
    free(fit.proof.literals);
    if (!wb_mix_known_add(&quest->known, fact)) {
        quest->status = WB_NO_MEMORY;
        return NULL;
    }
    return &quest->known.fact[quest->known.n - 1];
}

static void walk(Quest *quest)
{
    int64_t cheapest_minor = INT64_MAX;
    qsort(quest->candidate, quest->n_candidates, sizeof *quest->candidate, by_watts);
    for (size_t i = 0; i < quest->n_candidates && quest->status == WB_OK; i++) {
        const Candidate *candidate = &quest->candidate[i];
        if (quest->n_best > 0 && candidate->price_minor >= cheapest_minor)
            continue;
        const WbMixFact *fact = settle(quest, candidate);
        if (fact && fact->layout) {
            keep(quest, candidate, fact);
            cheapest_minor = candidate->price_minor;
        } else if (!fact && quest->status == WB_OK) {
            quest->undecided++;
            if (candidate->power_w > quest->undecided_w)
                quest->undecided_w = candidate->power_w;
        }
    }
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
                   .control = control,
                   .undecided_w = -INFINITY};
    for (size_t k = 0; k < n_models && quest.status == WB_OK; k++)
        quest.status = ask_single(&quest, k);
    if (quest.status == WB_OK)
        quest.status = list_candidates(&quest);
    if (quest.status == WB_OK)
        walk(&quest);
    free(quest.candidate);
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
