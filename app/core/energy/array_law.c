/* The law of an array. Low light: efficiency falls with the logarithm of irradiance (Evans, Solar
 * Energy 27 (1981) 555), fixed by the figure at 200 W/m2 that data sheets give (EN 50380). */
#include "array_watts.h"
#include <math.h>

#define TYPICAL_POWER_COEFF_PCT_K (-0.45)
#define TYPICAL_LOW_LIGHT_PCT 96.0
#define PCT 100.0

static double input_limit_w(const WbController *controller, const WbBankVolts *bank)
{
    if (isnan(controller->max_pv_w_12v) || bank->system_v == 0)
        return INFINITY;
    return controller->max_pv_w_12v * bank->system_v / 12 * controller->efficiency;
}

WbArrayLaw wb_array_law(const WbPanel *panel, int n_series, int n_parallel,
                        const WbController *controller, int n_controllers, int mounting,
                        const WbBankVolts *bank)
{
    double limit_w = controller->rated_output_a * bank->nominal_v;
    WbArrayLaw law = {.idle_w = n_controllers * controller->idle_w};
    if (controller->technology == WB_CONTROLLER_PWM) {
        law.peak_w = panel->imp_a * n_parallel * bank->nominal_v;
    } else {
        double coeff =
            isnan(panel->power_coeff_pct_k) ? TYPICAL_POWER_COEFF_PCT_K : panel->power_coeff_pct_k;
        double low = isnan(panel->low_light_pct) ? TYPICAL_LOW_LIGHT_PCT : panel->low_light_pct;
        law.peak_w = panel->power_w * n_series * n_parallel * controller->efficiency;
        law.power_coeff_k = coeff / PCT;
        law.heating_k_m2_w = wb_heating_k_m2_w(panel->noct_c, mounting);
        law.low_light_loss = 1 - low / PCT;
        limit_w = fmin(limit_w, input_limit_w(controller, bank));
    }
    law.limit_w = n_controllers * limit_w;
    return law;
}

double wb_array_offered_w(const WbArrayLaw *law, double plane_w_m2, double air_c, double low_light)
{
    return wb_offered_w(law, plane_w_m2, air_c, low_light);
}
