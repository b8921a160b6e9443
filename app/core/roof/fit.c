/* The true roof. Without slants and circles a plain one is the same; with them see slanted.c. */
#include "slanted.h"
#include <stdlib.h>
#include <string.h>

static WbStatus search_exact(WbTrueFit *fit)
{
    WbPlainRoof plain;
    WbRoofFit found;
    WbStatus status =
        wb_plain_roof(fit->roof, fit->pinned, fit->n_pinned, WB_PLAIN_INNER, 1, &plain);
    if (status != WB_OK)
        return status;
    status = wb_plain_most(&plain.roof, fit->panel_length_mm, fit->panel_width_mm, NULL, 0,
                           fit->found.bound, fit->node_budget, fit->control, &found);
    wb_plain_roof_free(&plain);
    if (status == WB_OK)
        fit->found = found;
    return status;
}

/* The pinned ones first. */
static WbStatus add_pinned(WbTrueFit *fit)
{
    int n_pinned = fit->n_pinned, most = fit->found.most;
    if (n_pinned == 0)
        return WB_OK;
    WbRect *layout = malloc((n_pinned + most) * sizeof *layout);
    if (!layout)
        return WB_NO_MEMORY;
    memcpy(layout, fit->pinned, n_pinned * sizeof *layout);
    if (most > 0)
        memcpy(layout + n_pinned, fit->found.layout, most * sizeof *layout);
    free(fit->found.layout);
    fit->found.layout = layout;
    fit->found.most += n_pinned;
    fit->found.bound += n_pinned;
    fit->found.mm_bound += n_pinned;
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
    WbTrueFit question = {.roof = roof,
                          .panel_length_mm = panel_length_mm,
                          .panel_width_mm = panel_width_mm,
                          .pinned = pinned,
                          .n_pinned = n_pinned,
                          .node_budget = node_budget,
                          .control = control,
                          .found = {.bound = at_most - n_pinned, .mm_bound = at_most - n_pinned}};
    WbStatus status =
        wb_roof_needs_steps(roof) ? wb_slanted_most(&question, NULL) : search_exact(&question);
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
