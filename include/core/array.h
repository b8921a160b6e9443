/* What an array gives into the bank through its controllers, hour by hour. */
#ifndef WB_ARRAY_H
#define WB_ARRAY_H

#include "energy.h"
#include "vector.h"
#include "weather.h"

/* One array with its controllers on one bank, as a law of irradiance G (W/m2), air temperature T
 * (C) and low-light measure L (WbPlaneHours): watts offered =
 *   peak_w x G/1000 x max(0, 1 - low_light_loss x L)
 *          x max(0, 1 + power_coeff_k x (T + heating x G - 25))
 * kept = min(offered, limit_w). MPPT: peak_w = panel W x panels x efficiency; limit_w by the rated
 * output amps (at the bank's nominal volts) and by the input watts the maker allows. PWM: peak_w =
 * Imp x strings x bank nominal V, neither temperature nor low light (the current follows the sun),
 * limit_w by the rated output amps alone. Low light: Evans, Solar Energy 27 (1981) 555.
 * A missing coefficient, NOCT or low-light figure takes the typical value (-0.45 %/K, 45 C, 96 %).
 */
typedef struct {
    double peak_w;
    double power_coeff_k;  /* per K, negative as a rule */
    double heating_k_m2_w; /* cell above air, per W/m2: (NOCT + mounting - 20) / 800 */
    double low_light_loss; /* share of efficiency lost at 200 W/m2 */
    double limit_w;
    double idle_w; /* controllers' own draw, day and night */
} WbArrayLaw;

WbArrayLaw wb_array_law(const WbPanel *panel, int n_series, int n_parallel,
                        const WbController *controller, int n_controllers, int mounting,
                        const WbBankVolts *bank);

/* Watts offered before the limit, in one hour. */
double wb_array_offered_w(const WbArrayLaw *law, double plane_w_m2, double air_c, double low_light);

/* Mean Wh a day of each month over all years: day_wh = kept less the controllers' idle draw (it may
 * be negative), clipped_wh = what the limit cut off. Vector code chosen at run time; the same bits
 * everywhere. */
void wb_array_months(const WbArrayLaw *law, const WbPlaneHours *plane, WbSupply *supply);

/* The same on one way of computing that runs here, for tests and benchmarks. */
void wb_array_months_on(WbVector vector, const WbArrayLaw *law, const WbPlaneHours *plane,
                        WbSupply *supply);

/* Does a give at least what b gives in every hour of this weather, with no more idle draw? Proved,
 * not sampled: false where it cannot be shown. */
bool wb_array_never_less(const WbArrayLaw *a, const WbArrayLaw *b, const WbPlaneHours *plane);

#endif
