#include "plain_roof.h"
#include <stdlib.h>

WbStatus wb_roof_most(const WbRoof *roof, int64_t panel_length_mm, int64_t panel_width_mm,
                      int at_most, uint64_t node_budget, WbControl *control, WbRoofFit *fit)
{
    if (!wb_roof_valid(roof) || !wb_roof_length_valid(panel_length_mm) ||
        !wb_roof_length_valid(panel_width_mm) || at_most < 0)
        return WB_BAD_INPUT;
    return wb_plain_most(roof, panel_length_mm, panel_width_mm, NULL, 0, at_most, node_budget,
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
    bool bound_holds = fit->bound < fit->at_most || n_panels <= fit->at_most;
    return n_panels > fit->bound && bound_holds ? WB_FITS_NOT : WB_FIT_UNDECIDED;
}
