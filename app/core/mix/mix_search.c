#include "mix_search.h"
#include "clauses.h"
#include "mix_fill.h"
#include "mix_greedy.h"
#include "plain_roof.h"
#include "sat.h"
#include <stdlib.h>

enum { GREEDY_SHARE = 4, EQUAL_SHARE = 16, FILL_SHARE = 100, LAST_SHARE = 8 };
enum { STEPS_PER_NODE = 1000, LITERALS_PER_NODE = 250 };
/* Of a small budget filling takes the half, but no more than this. */
enum { FILL_NODES = 1000 };
/* More clauses than this are not written: some 400 MB. */
static const double LITERALS_MAX = 3e7;

typedef struct {
    const WbMixQuestion *question;
    uint64_t node_budget;
    WbControl *control;
    WbMixFit *fit;
} Search;

static WbStatus search_greedy(Search *search)
{
    WbMixFit *fit = search->fit;
    uint64_t nodes = search->node_budget / GREEDY_SHARE, steps = 0;
    uint64_t budget = nodes > UINT64_MAX / STEPS_PER_NODE ? UINT64_MAX : nodes * STEPS_PER_NODE;
    bool found = false;
    fit->layout = malloc((search->question->n_pieces + 1) * sizeof *fit->layout);
    if (!fit->layout)
        return WB_NO_MEMORY;
    WbStatus status =
        wb_mix_greedy(search->question, budget, search->control, &steps, fit->layout, &found);
    fit->nodes += (steps + STEPS_PER_NODE - 1) / STEPS_PER_NODE;
    if (found) {
        fit->answer = WB_FITS;
        fit->n_layout = search->question->n_pieces;
    }
    return status;
}

/* Where little would stay empty. */
static WbStatus search_fill(Search *search, int64_t spare_mm2, uint64_t seed, uint64_t nodes)
{
    WbMixFit *fit = search->fit;
    uint64_t budget = nodes > UINT64_MAX / STEPS_PER_NODE ? UINT64_MAX : nodes * STEPS_PER_NODE;
    uint64_t steps = 0;
    WbStatus status = wb_mix_fill(search->question, spare_mm2, seed, budget, search->control,
                                  &steps, fit->layout, &fit->n_layout);
    fit->nodes += (steps + STEPS_PER_NODE - 1) / STEPS_PER_NODE;
    if (fit->n_layout == search->question->n_pieces)
        fit->answer = WB_FITS;
    return status;
}

static WbStatus search_fill_first(Search *search, int64_t spare_mm2)
{
    uint64_t half = search->node_budget / 2, nodes = half < FILL_NODES ? half : FILL_NODES;
    if (nodes < search->node_budget / FILL_SHARE)
        nodes = search->node_budget / FILL_SHARE;
    return search_fill(search, spare_mm2, 1, nodes);
}

/* With what the clauses left. Of two parts the one of more panels stays. */
static WbStatus search_fill_last(Search *search, int64_t spare_mm2)
{
    WbMixFit *fit = search->fit;
    WbMixPlace *first = fit->layout;
    int n_first = fit->n_layout;
    fit->layout = malloc((search->question->n_pieces + 1) * sizeof *fit->layout);
    if (!fit->layout) {
        fit->layout = first;
        return WB_NO_MEMORY;
    }
    WbStatus status =
        search_fill(search, spare_mm2, 2,
                    search->node_budget > fit->nodes ? search->node_budget - fit->nodes : 0);
    if (fit->n_layout >= n_first) {
        free(first);
    } else {
        free(fit->layout);
        fit->layout = first;
        fit->n_layout = n_first;
    }
    return status;
}

static void take_equal_layout(Search *search, const WbMixKind *kind, const WbRoofFit *equal)
{
    for (int i = 0; i < kind->count; i++)
        search->fit->layout[i] = (WbMixPlace){equal->layout[i], kind->item};
    search->fit->answer = WB_FITS;
    search->fit->n_layout = kind->count;
}

/* The search of equal panels: one size alone may be too many, or all there is. */
static WbStatus search_equal(Search *search, const WbRoof *plain)
{
    const WbMixQuestion *question = search->question;
    WbStatus status = WB_OK;
    for (int k = 0; k < question->n_kinds && status == WB_OK; k++) {
        const WbMixKind *kind = &question->kind[k];
        WbRoofFit equal = {0};
        bool turns = kind->turns == 2 || kind->grown_mm[0] == kind->grown_mm[1];
        if (kind->count < 2 || !turns || search->fit->answer != WB_FIT_UNDECIDED)
            continue;
        status = wb_plain_most(plain, kind->grown_mm[0] - question->gap_mm,
                               kind->grown_mm[1] - question->gap_mm, NULL, 0, kind->count,
                               search->node_budget / EQUAL_SHARE, search->control, &equal);
        if (status == WB_OK && equal.bound < kind->count)
            search->fit->answer = WB_FITS_NOT;
        else if (status == WB_OK && question->n_kinds == 1 && equal.most == kind->count)
            take_equal_layout(search, kind, &equal);
        search->fit->nodes += equal.nodes;
        wb_roof_fit_free(&equal);
    }
    return status;
}

static void add_to_sat(void *to, const int32_t *literals, int n)
{
    wb_sat_add(to, literals, n);
}

static int64_t position(const WbSat *sat, const WbMixKind *kind, int axis, int32_t name)
{
    int k = 0;
    while (k + 1 < kind->n_at[axis] && wb_sat_true(sat, name + k))
        k++;
    return kind->at_mm[axis][k];
}

static void read_layout(const Search *search, const WbSat *sat, const WbMixNames *names)
{
    const WbMixQuestion *question = search->question;
    for (int i = 0; i < question->n_pieces; i++) {
        const WbMixKind *kind = &question->kind[question->piece[i]];
        int turned = names[i].turned && wb_sat_true(sat, names[i].turned);
        search->fit->layout[i] = (WbMixPlace){
            {question->edge_mm[0] + position(sat, kind, WB_ALONG, names[i].at[WB_ALONG]),
             question->edge_mm[1] + position(sat, kind, WB_ACROSS, names[i].at[WB_ACROSS]),
             wb_mix_size_mm(kind, WB_ALONG, turned) - question->gap_mm,
             wb_mix_size_mm(kind, WB_ACROSS, turned) - question->gap_mm},
            kind->item};
    }
    search->fit->answer = WB_FITS;
    search->fit->n_layout = question->n_pieces;
}

static WbStatus solve(Search *search, WbSat *sat, const WbMixNames *names)
{
    WbMixFit *fit = search->fit;
    WbInts learnt = {0};
    WbSatAnswer answer;
    uint64_t kept = search->node_budget / LAST_SHARE + fit->nodes;
    uint64_t nodes = search->node_budget > kept ? search->node_budget - kept : 0;
    uint64_t budget = nodes > UINT64_MAX / WB_MIX_NODE_PROPAGATIONS
                          ? UINT64_MAX
                          : nodes * WB_MIX_NODE_PROPAGATIONS;
    WbStatus status = wb_sat_solve(sat, budget, search->control, &learnt, &answer);
    fit->nodes += wb_sat_propagations(sat) / WB_MIX_NODE_PROPAGATIONS + 1;
    if (status == WB_OK && answer == WB_SAT_YES)
        read_layout(search, sat, names);
    if (status == WB_OK && answer == WB_SAT_NO) {
        fit->answer = WB_FITS_NOT;
        fit->proof = (WbMixProof){learnt.at, learnt.n};
    } else {
        wb_ints_free(&learnt);
    }
    return status;
}

static WbStatus search_clauses(Search *search)
{
    const WbMixQuestion *question = search->question;
    double literals = wb_mix_literals(question);
    if (literals > LITERALS_MAX)
        return WB_OK;
    uint64_t nodes =
        search->fit->nodes + (uint64_t)literals / LITERALS_PER_NODE; /* to write them */
    if (nodes >= search->node_budget)
        return WB_OK;
    search->fit->nodes = nodes;
    int32_t first_pair;
    WbMixNames *names = wb_mix_names(question, &first_pair);
    WbSat *sat = wb_sat_new((int)wb_mix_variables(question));
    WbStatus status = names && sat ? WB_OK : WB_NO_MEMORY;
    if (status == WB_OK) {
        wb_mix_clauses(question, names, first_pair, add_to_sat, sat);
        status = solve(search, sat, names);
    }
    free(names);
    wb_sat_free(sat);
    return status;
}

static WbStatus search_question(Search *search, const WbRoof *plain, WbMixQuestion *question)
{
    int64_t spare_mm2 = 0;
    if (wb_mix_too_large(question)) {
        search->fit->answer = WB_FITS_NOT;
        return WB_OK;
    }
    WbStatus status = wb_mix_spare(plain, question, &spare_mm2);
    if (status != WB_OK)
        return status;
    if (spare_mm2 < 0) {
        search->fit->answer = WB_FITS_NOT;
        return WB_OK;
    }
    status = search_greedy(search);
    if (status == WB_OK && search->fit->answer == WB_FIT_UNDECIDED)
        status = search_equal(search, plain);
    if (status == WB_OK && search->fit->answer == WB_FIT_UNDECIDED)
        status = search_fill_first(search, spare_mm2);
    if (status == WB_OK && search->fit->answer == WB_FIT_UNDECIDED)
        status = wb_mix_positions(question);
    if (status == WB_OK && search->fit->answer == WB_FIT_UNDECIDED)
        status = search_clauses(search);
    if (status == WB_OK && search->fit->answer == WB_FIT_UNDECIDED)
        status = search_fill_last(search, spare_mm2);
    return status;
}

WbStatus wb_mix_plain(const WbRoof *plain, const WbMixItem *items, size_t n_items,
                      uint64_t node_budget, WbControl *control, WbMixFit *fit)
{
    WbMixQuestion question;
    WbMixFit found = {.answer = WB_FIT_UNDECIDED};
    WbStatus status = wb_mix_question(plain, items, n_items, &question);
    if (status != WB_OK)
        return status;
    Search search = {&question, node_budget, control, &found};
    status = search_question(&search, plain, &question);
    wb_mix_question_free(&question);
    if (status != WB_OK) {
        wb_mix_fit_free(&found);
        return status;
    }
    if (found.answer == WB_FITS_NOT || (found.answer != WB_FITS && found.n_layout == 0)) {
        free(found.layout);
        found.layout = NULL;
        found.n_layout = 0;
    }
    *fit = found;
    return WB_OK;
}
