/* The true roof by way of plain ones. With slants and circles: the outer roof's proof and the inner
 * roof's layout, from a coarse staircase to one of 1 mm while they differ. Most questions are
 * answered at the coarsest: a panel seldom depends on a few millimetres. */
#include "plain_roof.h"
#include <stdlib.h>
#include <string.h>

/* Nodes for the layout on a coarse inner roof: a finer one looks again. */
enum { COARSE_NODES = 500 };

typedef struct {
    const WbRoof *roof;
    int64_t panel_length_mm, panel_width_mm;
    const WbRect *pinned;
    int n_pinned;
    uint64_t node_budget;
    WbControl *control;
    WbRoofFit found; /* pinned panels not among them */
} Question;

static uint64_t nodes_left(const Question *question)
{
    uint64_t spent = question->found.nodes;
    return question->node_budget > spent ? question->node_budget - spent : 0;
}

/* A better layout is taken over; it lies on the true roof. */
static void keep_layout(Question *question, WbRoofFit *fit)
{
    if (fit->most <= question->found.most)
        return;
    free(question->found.layout);
    question->found.layout = fit->layout;
    question->found.most = fit->most;
    fit->layout = NULL;
}

static bool lies_on_true_roof(const Question *question, const WbRoofFit *fit)
{
    if (!wb_roof_layout_ok(question->roof, question->panel_length_mm, question->panel_width_mm,
                           fit->layout, fit->most, NULL))
        return false;
    WbRoof only_pins = *question->roof;
    for (int i = 0; i < question->n_pinned; i++)
        for (int k = 0; k < fit->most; k++) {
            WbRect pair[2] = {question->pinned[i], fit->layout[k]};
            if (!wb_roof_layout_ok(&only_pins, question->panel_length_mm, question->panel_width_mm,
                                   pair, 2, NULL))
                return false;
        }
    return true;
}

/* One plain roof, searched from the layout known up to the bound known. */
static WbStatus search(Question *question, WbPlainSide side, int64_t step_mm, uint64_t nodes_max,
                       WbRoofFit *fit, bool *exact)
{
    WbPlainRoof plain;
    WbStatus status =
        wb_plain_roof(question->roof, question->pinned, question->n_pinned, side, step_mm, &plain);
    if (status != WB_OK)
        return status;
    uint64_t left = nodes_left(question);
    int at_most = side == WB_PLAIN_OUTER ? question->found.bound : question->found.mm_bound;
    status = wb_plain_most(&plain.roof, question->panel_length_mm, question->panel_width_mm,
                           question->found.layout, question->found.most, at_most,
                           left < nodes_max ? left : nodes_max, question->control, fit);
    *exact = plain.exact;
    wb_plain_roof_free(&plain);
    if (status == WB_OK)
        question->found.nodes += fit->nodes;
    return status;
}

static WbStatus search_outer(Question *question, int64_t step_mm)
{
    WbRoofFit fit;
    bool exact;
    WbStatus status = search(question, WB_PLAIN_OUTER, step_mm, UINT64_MAX, &fit, &exact);
    if (status != WB_OK)
        return status;
    question->found.bound = fit.bound;
    if (question->found.mm_bound > fit.bound)
        question->found.mm_bound = fit.bound;
    if (fit.most > question->found.most && lies_on_true_roof(question, &fit))
        keep_layout(question, &fit);
    wb_roof_fit_free(&fit);
    return WB_OK;
}

static WbStatus search_inner(Question *question, int64_t step_mm, uint64_t nodes_max)
{
    WbRoofFit fit;
    bool exact;
    WbStatus status = search(question, WB_PLAIN_INNER, step_mm, nodes_max, &fit, &exact);
    if (status != WB_OK)
        return status;
    if (exact)
        question->found.mm_bound = fit.bound;
    keep_layout(question, &fit);
    wb_roof_fit_free(&fit);
    return WB_OK;
}

static WbStatus search_stepped(Question *question)
{
    static const int steps_mm[] = {64, 16, 4, 1};
    WbStatus status = WB_OK;
    for (size_t i = 0; i < sizeof steps_mm / sizeof *steps_mm && status == WB_OK; i++) {
        if (question->found.most < question->found.bound)
            status = search_outer(question, steps_mm[i]);
        if (status == WB_OK && question->found.most < question->found.mm_bound)
            status =
                search_inner(question, steps_mm[i], steps_mm[i] == 1 ? UINT64_MAX : COARSE_NODES);
    }
    return status;
}

static WbStatus search_exact(Question *question)
{
    WbStatus status = search_inner(question, 1, UINT64_MAX);
    if (status == WB_OK)
        question->found.bound = question->found.mm_bound;
    return status;
}

/* The pinned ones first. */
static WbStatus add_pinned(Question *question)
{
    int n_pinned = question->n_pinned, most = question->found.most;
    if (n_pinned == 0)
        return WB_OK;
    WbRect *layout = malloc((n_pinned + most) * sizeof *layout);
    if (!layout)
        return WB_NO_MEMORY;
    memcpy(layout, question->pinned, n_pinned * sizeof *layout);
    if (most > 0)
        memcpy(layout + n_pinned, question->found.layout, most * sizeof *layout);
    free(question->found.layout);
    question->found.layout = layout;
    question->found.most += n_pinned;
    question->found.bound += n_pinned;
    question->found.mm_bound += n_pinned;
    return WB_OK;
}

WbStatus wb_roof_most_around(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                             const WbRect *pinned, int n_pinned, int at_most, uint64_t node_budget,
                             WbControl *control, WbRoofFit *fit)
{
    if (!wb_roof_valid(roof) || !wb_roof_length_valid(panel_length_mm) ||
        !wb_roof_length_valid(panel_width_mm) || n_pinned < 0 || at_most < n_pinned ||
        !wb_roof_layout_ok(roof, panel_length_mm, panel_width_mm, pinned, n_pinned, NULL))
        return WB_BAD_INPUT;
    Question question = {.roof = roof,
                         .panel_length_mm = panel_length_mm,
                         .panel_width_mm = panel_width_mm,
                         .pinned = pinned,
                         .n_pinned = n_pinned,
                         .node_budget = node_budget,
                         .control = control,
                         .found = {.bound = at_most - n_pinned, .mm_bound = at_most - n_pinned}};
    WbStatus status =
        wb_roof_needs_steps(roof) ? search_stepped(&question) : search_exact(&question);
    if (status == WB_OK)
        status = add_pinned(&question);
    if (status != WB_OK) {
        free(question.found.layout);
        return status;
    }
    question.found.at_most = at_most;
    *fit = question.found;
    return WB_OK;
}

WbStatus wb_roof_most(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                      int at_most, uint64_t node_budget, WbControl *control, WbRoofFit *fit)
{
    return wb_roof_most_around(roof, panel_length_mm, panel_width_mm, NULL, 0, at_most, node_budget,
                               control, fit);
}

void wb_roof_fit_free(WbRoofFit *fit)
{
    free(fit->layout);
    *fit = (WbRoofFit){0};
}

WbFitAnswer wb_roof_answer(const WbRoofFit *fit, int n_panels)
{
    if (n_panels <= fit->most)
        return WB_FITS;
    if (n_panels > fit->bound && (fit->bound < fit->at_most || n_panels <= fit->at_most))
        return WB_FITS_NOT;
    if (n_panels > fit->mm_bound && (fit->mm_bound < fit->at_most || n_panels <= fit->at_most))
        return WB_FIT_WITHIN_1_MM;
    return WB_FIT_UNDECIDED;
}
