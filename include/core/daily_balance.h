/* Sizing by days: the loss of load of a bank fed by a daily series, the bank that just carries a
 * need, and the days of autonomy of a rule of thumb. Pencil methods beside the hourly balance of
 * year.h: no losses, no chemistry. */
#ifndef WB_DAILY_BALANCE_H
#define WB_DAILY_BALANCE_H

#include "status.h"
#include <stddef.h>

/* Share of the load not carried (Egido & Lorenzo, Solar Energy Materials and Solar Cells 26, 1992,
 * 177; Lorenzo, Solar Electricity): with the load as unit, day by day from a full bank
 *   charge = min(1, charge + (array x day / mean - 1) / bank); below 0 the lack counts, charge = 0.
 * days_kwh_m2: at least one, none negative; mean_kwh_m2: what array 1 just carries, the worst
 * month's mean as a rule, above 0; array: array output over load on a mean day; bank: usable
 * capacity in days of load, above 0. WB_BAD_INPUT. */
WbStatus wb_loss_of_load_daily(size_t n_days, const double *days_kwh_m2, double mean_kwh_m2,
                               double array, double bank, double *loss_of_load);

/* Least capacity, in the unit of the flows, that carries a constant need from the inflows without
 * a lack, starting full (sequent peak, Thomas & Burden 1963): the largest of
 * K = max(0, K before + need - inflow). `passes` runs over the series, 2 where it is a year that
 * comes again. Where the need is above the mean inflow no capacity is enough and the answer only
 * tells of these passes. WB_BAD_INPUT: no step, no pass, a figure that is not finite or negative.
 */
WbStatus wb_sequent_peak(size_t n_steps, const double *inflow, double need, int passes,
                         double *capacity);

/* Days of autonomy for a share of time with power of 99 % or 95 %, from the peak sun hours T of the
 * design month: 24.0 - 4.73 T + 0.3 T^2, and 9.43 - 1.9 T + 0.11 T^2 (fits to the Sandia
 * availability chart; Wenham et al., Applied Photovoltaics, chapter 7, from memory). T is kept
 * within 1..7 h: beyond, the curves tell nothing. NaN stays NaN. */
double wb_autonomy_days_99(double peak_sun_h);
double wb_autonomy_days_95(double peak_sun_h);

#endif
