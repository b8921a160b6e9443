/* Beam and diffuse of an hour by clearness and the sun's height. Sources in radiation.h. */
#include "hour_split.h"
#include "radiation.h"
#include "sun.h"
#include <math.h>

#define OVERCAST 0.2

static double fitted(const WbHourSplit *split, double clearness)
{
    double x = (clearness - OVERCAST) / (split->clear_clearness - OVERCAST);
    double k = (1 + sin(WB_PI * (x - 0.5))) / 2;
    return 1 - (1 - split->clear_diffuse) * (0.11 * sqrt(k) + 0.15 * k + 0.74 * k * k);
}

WbHourSplit wb_hour_split(double sin_elevation)
{
    double elevation_deg = asin(fmin(1, fmax(0, sin_elevation))) / WB_RAD_PER_DEG;
    double low = exp(-0.06 * elevation_deg);
    WbHourSplit split = {.clear_clearness = 0.87 - 0.56 * low, .clear_diffuse = 0.15 + 0.43 * low};
    split.top_clearness = 1.09 * split.clear_clearness;
    split.top_beam_clearness = split.top_clearness * (1 - fitted(&split, split.top_clearness));
    return split;
}

double wb_hour_diffuse(const WbHourSplit *split, double clearness)
{
    if (clearness <= OVERCAST)
        return 1;
    if (clearness <= split->top_clearness)
        return fitted(split, clearness);
    return 1 - split->top_beam_clearness / clearness;
}

double wb_skartveit_hour(double clearness, double sin_elevation)
{
    WbHourSplit split = wb_hour_split(sin_elevation);
    return wb_hour_diffuse(&split, clearness);
}
