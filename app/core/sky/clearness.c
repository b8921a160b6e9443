#include "clearness.h"
#include <math.h>

#define STEEPEST 500.0 /* beyond, all days lie at one bound */
#define EVEN 1e-9
#define LEAST 0.05
#define CLOSE_ENOUGH 1e-10
#define MOST_STEPS 200

WbClearnessRange wb_clearness_range(double mean)
{
    double fitted = fmin(0.8, fmax(0.2, mean));
    double below = fitted - 0.75, square = below * below, fourth = square * square;
    double most = 0.6313 + 0.267 * fitted - 11.9 * fourth * fourth;
    return (WbClearnessRange){.least = fmin(LEAST, mean / 2),
                              .most = fmin(10 * mean, fmin(1, fmax(most, mean + (1 - mean) / 4)))};
}

WbClearnessLaw wb_clearness_law(const WbClearnessRange *range, double g)
{
    WbClearnessLaw law = {.least = range->least, .most = range->most};
    if (fabs(g) < EVEN)
        return law;
    law.g = g;
    law.per_g = (range->most - range->least) / g;
    law.curve = expm1(-fabs(g));
    return law;
}

double wb_clearness_at(const WbClearnessLaw *law, double u, double above)
{
    /* Each from the end where most days lie: no small terms are rounded away. */
    if (law->g > 0)
        return law->most + law->per_g * log1p(above * law->curve);
    if (law->g < 0)
        return law->least + law->per_g * log1p(u * law->curve);
    return law->least + (law->most - law->least) * u;
}

/* Mean of x in 0..1 under the density exp(g x). */
static double mean_of_shape(double g)
{
    if (fabs(g) < 1e-4)
        return 0.5 + g / 12;
    return 1 / -expm1(-g) - 1 / g;
}

double wb_clearness_shape(const WbClearnessRange *range, double mean)
{
    double x = (mean - range->least) / (range->most - range->least);
    double low = -STEEPEST, high = STEEPEST;
    for (int i = 0; i < 40; i++) {
        double middle = (low + high) / 2;
        if (mean_of_shape(middle) < x)
            low = middle;
        else
            high = middle;
    }
    return (low + high) / 2;
}

/* How far the days' mean is above the wanted one, as a share of it; grows with g. */
static double excess(const WbClearnessMonth *month, const WbClearnessRange *range, double g)
{
    WbClearnessLaw law = wb_clearness_law(range, g);
    double sum = 0;
    for (size_t i = 0; i < month->n_days; i++)
        sum += month->outside_kwh_m2[i] * wb_clearness_at(&law, month->rank[i], month->above[i]);
    return sum / (double)month->n_days / month->mean_kwh_m2 - 1;
}

typedef struct {
    double g, excess;
} Trial;

/* Regula falsi with the Illinois rule, from a trial below the zero and one above. */
static double between(const WbClearnessMonth *month, const WbClearnessRange *range, Trial low,
                      Trial high)
{
    int last_side = 0;
    double g = low.g;
    for (int i = 0; i < MOST_STEPS; i++) {
        g = low.g + (high.g - low.g) * (low.excess / (low.excess - high.excess));
        double at = excess(month, range, g);
        if (fabs(at) < CLOSE_ENOUGH)
            break;
        if (at > 0) {
            high = (Trial){g, at};
            low.excess = last_side > 0 ? low.excess / 2 : low.excess;
            last_side = 1;
        } else {
            low = (Trial){g, at};
            high.excess = last_side < 0 ? high.excess / 2 : high.excess;
            last_side = -1;
        }
    }
    return g;
}

/* Steps out from the shape of the mean until the zero lies between two trials. */
static double solve_shape(const WbClearnessMonth *month, const WbClearnessRange *range,
                          double start)
{
    Trial low = {start, excess(month, range, start)}, high = low;
    for (double step = 0.25; low.excess > 0 && low.g > -STEEPEST; step *= 2) {
        high = low;
        low.g = fmax(-STEEPEST, low.g - step);
        low.excess = excess(month, range, low.g);
    }
    for (double step = 0.25; high.excess < 0 && high.g < STEEPEST; step *= 2) {
        low = high;
        high.g = fmin(STEEPEST, high.g + step);
        high.excess = excess(month, range, high.g);
    }
    if (low.excess >= 0)
        return low.g;
    return high.excess <= 0 ? high.g : between(month, range, low, high);
}

void wb_clearness_month(const WbClearnessMonth *month, double *clearness)
{
    double outside = 0;
    for (size_t i = 0; i < month->n_days; i++)
        outside += month->outside_kwh_m2[i];
    double mean = outside > 0 ? month->mean_kwh_m2 * (double)month->n_days / outside : 0;
    WbClearnessRange range = {0, 0};
    double g = 0;
    if (mean > 0 && mean < 1) {
        range = wb_clearness_range(mean);
        g = solve_shape(month, &range, wb_clearness_shape(&range, mean));
    } else if (mean >= 1) {
        range = (WbClearnessRange){1, 1};
    }
    WbClearnessLaw law = wb_clearness_law(&range, g);
    for (size_t i = 0; i < month->n_days; i++)
        clearness[i] = month->outside_kwh_m2[i] > 0
                           ? wb_clearness_at(&law, month->rank[i], month->above[i])
                           : 0;
}
