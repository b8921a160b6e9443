#include "mix_items.h"
#include "mix_search.h"
#include "plain_roof.h"
#include <stdlib.h>

/* Staircases for slants and circles, the coarse ones first: most questions need no finer. */
static const int64_t STEPS_MM[] = {16, 4, 1};
enum { N_STEPS = sizeof STEPS_MM / sizeof *STEPS_MM };

typedef struct {
    const WbRoof *roof;
    const WbMixItem *items;
    size_t n_items;
    uint64_t node_budget, nodes;
    WbControl *control;
} Asking;

void wb_mix_fit_free(WbMixFit *fit)
{
    free(fit->layout);
    free(fit->proof.literals);
    *fit = (WbMixFit){0};
}

static WbStatus ask(Asking *asking, WbPlainSide side, int64_t step_mm, uint64_t share,
                    WbMixFit *fit, bool *exact)
{
    WbPlainRoof plain;
    uint64_t left = asking->node_budget > asking->nodes ? asking->node_budget - asking->nodes : 0;
    WbStatus status = wb_plain_roof(asking->roof, NULL, 0, side, step_mm, &plain);
    if (status != WB_OK)
        return status;
    status = wb_mix_plain(&plain.roof, asking->items, asking->n_items, left / share,
                          asking->control, fit);
    *exact = plain.exact;
    wb_plain_roof_free(&plain);
    if (status == WB_OK)
        asking->nodes += fit->nodes;
    return status;
}

/* What fits the inner roof fits; what does not fit the outer does not. Between the two at the last
 * step, where the inner roof is exact, it is within 1 mm. */
static WbStatus ask_steps(Asking *asking, WbMixFit *fit)
{
    bool exact = false;
    for (int k = 0; k < N_STEPS; k++) {
        uint64_t share = 2 * (N_STEPS - k);
        WbStatus status = ask(asking, WB_PLAIN_INNER, STEPS_MM[k], share, fit, &exact);
        if (status != WB_OK || fit->answer == WB_FITS)
            return status;
        bool inner_refuted = fit->answer == WB_FITS_NOT && exact;
        wb_mix_fit_free(fit);
        status = ask(asking, WB_PLAIN_OUTER, STEPS_MM[k], share - 1, fit, &exact);
        if (status != WB_OK || fit->answer == WB_FITS_NOT)
            return status;
        bool outer_fits = fit->answer == WB_FITS;
        wb_mix_fit_free(fit);
        fit->answer = inner_refuted && outer_fits ? WB_FIT_WITHIN_1_MM : WB_FIT_UNDECIDED;
    }
    return WB_OK;
}

/* No layout is told that the checker does not pass: of a part, as of a mix of its own. */
static void check_layout(const WbRoof *roof, const WbMixItem *items, size_t n_items, WbMixFit *fit)
{
    WbMixItem laid[WB_MIX_SIZES];
    for (size_t k = 0; k < n_items; k++) {
        laid[k] = items[k];
        laid[k].count = fit->answer == WB_FITS ? items[k].count : 0;
    }
    for (int i = 0; i < fit->n_layout && fit->answer != WB_FITS; i++)
        laid[fit->layout[i].item].count++;
    if (!fit->layout || wb_mix_layout_ok(roof, laid, n_items, fit->layout, fit->n_layout))
        return;
    free(fit->layout);
    fit->layout = NULL;
    fit->n_layout = 0;
    fit->answer = WB_FIT_UNDECIDED;
}

WbStatus wb_mix_fit(const WbRoof *roof, const WbMixItem *items, size_t n_items,
                    uint64_t node_budget, WbControl *control, WbMixFit *fit)
{
    if (!wb_roof_valid(roof) || !wb_mix_items_valid(items, n_items))
        return WB_BAD_INPUT;
    if (wb_control_stopped(control))
        return WB_STOPPED;
    WbMixItem merged[WB_MIX_SIZES];
    Asking asking = {roof,        merged, wb_mix_items_merge(items, n_items, merged),
                     node_budget, 0,      control};
    WbMixFit found = {0};
    bool exact;
    WbStatus status = wb_roof_needs_steps(roof)
                          ? ask_steps(&asking, &found)
                          : ask(&asking, WB_PLAIN_INNER, 1, 1, &found, &exact);
    if (status != WB_OK)
        return status;
    wb_mix_items_part(items, n_items, found.layout, found.n_layout);
    check_layout(roof, items, n_items, &found);
    found.nodes = asking.nodes;
    *fit = found;
    return WB_OK;
}
