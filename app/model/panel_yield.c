#include "panel_yield.h"
#include "kit_year.h"

void wb_panel_yield(const WbProblem *problem, const WbVerdict *verdict, double wh[WB_MONTHS])
{
    const WbKit *kit = &verdict->kit;
    const WbPanelChoice *panel = &problem->panels[kit->panel];
    const WbController *controller = problem->controllers[kit->controller].controller;
    const WbArrayUnit *unit =
        controller->technology == WB_CONTROLLER_MPPT ? &panel->unit : &problem->sun_unit;
    WbArrayLaw law = wb_kit_array_law(problem, kit, &verdict->bank);
    double panels_w = panel->panel->power_w * kit->n_series * kit->n_parallel;
    for (int m = 0; m < WB_MONTHS; m++)
        wh[m] = 100 * law.peak_w * unit->day_wh[m] / panels_w;
}
