/* Inverter: how much of what it takes from the bank reaches the load. */
#include "energy.h"
#include <math.h>

/* Keeps a curve that starts at 0 from asking for endless energy. */
#define LEAST_EFFICIENCY 0.01

double wb_inverter_efficiency(const WbInverter *inverter, double load_w)
{
    double share = inverter->continuous_w > 0 ? load_w / inverter->continuous_w : 1;
    return fmin(1, fmax(LEAST_EFFICIENCY, wb_curve_at(&inverter->efficiency, share)));
}
