/* Air of made weather. Private to core/sky.
 *
 * Hour = mean of the day + swing of the day / 2 x course of the hour.
 * Course: wb_air_c between -1 and 1 with the day's own sunrise, less its mean over the 24 hours.
 * Swing: clear days swing more. Bristow & Campbell, Agricultural and Forest Meteorology 31, 1984,
 *   159 (from memory): clearness K = 0.7 (1 - exp(-B swing^2.4)); turned round, swing goes with
 *   s = (-ln(1 - min(K / 0.7, 0.95)))^(1 / 2.4); B falls out, for the mean over the days of a
 *   calendar month is the place's max - min: swing = (max - min) s / mean s. A day without sun
 *   has s = 1.
 * Mean: the month's + deviation x (x - mean x of the calendar month over all years).
 *   x[d] = 0.65 x[d-1] + sqrt(1 - 0.65^2) n[d], x[0] = n[0]: between the lag-1 correlations of
 *   daily maximum (0.621) and minimum (0.674), Richardson, Water Resources Research 17, 1981, 182
 *   (from memory).
 *   deviation = 0.534 sqrt(days of the month) max(0.2, 1.45 - 0.0290 month's mean + 0.0664 yearly),
 *   yearly = standard deviation of the twelve means: Erbs, Klein & Beckman, ASHRAE Journal 25(6),
 *   1983, 60 (from memory); 0.534 is the standard deviation of their distribution, pi / sqrt(3) /
 *   3.396. The least of 0.2 is ours. */
#ifndef WB_MADE_AIR_H
#define WB_MADE_AIR_H

#include "weather.h"

#define WB_AIR_PERSISTENCE 0.65

/* Of n_years x 365 days: clearness, deviate x; sunrise_h and has_sun by day of the year. */
typedef struct {
    const double *clearness, *deviate;
    const double *sunrise_h;
    const bool *has_sun;
} WbAirDays;

/* Fills weather->air_c. */
void wb_made_air(const WbPlace *place, const WbAirDays *days, WbWeather *weather);

#endif
