#include "axis.h"

#include <math.h>

static double next_step(double step)
{
    double unit = pow(10, floor(log10(step) + 1e-9));
    double lead = step / unit;
    return lead < 1.5 ? 2 * unit : lead < 3.5 ? 5 * unit : 10 * unit;
}

WbAxis wb_axis_fit(double low, double high, int most)
{
    if (!isfinite(low) || !isfinite(high) || high < low)
        low = 0, high = 1;
    if (high - low < 1e-9 * fmax(fabs(high), 1)) {
        double half = fabs(high) > 1e-9 ? fabs(high) * 0.1 : 0.5;
        low -= half;
        high += half;
    }
    double step = pow(10, floor(log10((high - low) / most)));
    while (ceil(high / step - 1e-9) - floor(low / step + 1e-9) > most)
        step = next_step(step);
    int decimals = (int)fmax(0, -floor(log10(step) + 1e-9));
    return (WbAxis){floor(low / step + 1e-9) * step, ceil(high / step - 1e-9) * step, step,
                    decimals};
}

int wb_axis_ticks(const WbAxis *axis)
{
    return (int)lround((axis->high - axis->low) / axis->step) + 1;
}

double wb_axis_tick(const WbAxis *axis, int i)
{
    return (round(axis->low / axis->step) + i) * axis->step;
}

double wb_axis_at(const WbAxis *axis, double value, double from, double to)
{
    return from + (value - axis->low) / (axis->high - axis->low) * (to - from);
}
