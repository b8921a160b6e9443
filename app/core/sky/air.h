/* Air temperature through the mean day of a month. Private to core/sky. */
#ifndef WB_AIR_H
#define WB_AIR_H

/* C at a solar hour 0..24: mean + (max - min)/2 x s, s from -1 at sunrise to +1 at 14 h along half
 * a cosine and back along another until the next sunrise (the course of de Wit, Goudriaan & van
 * Laar 1978, from memory). Both halves have mean 0, so the day's mean is the month's; where that is
 * not (max + min)/2 the extremes shift with it. Sunrise counts as between 2 h and 10 h, so that
 * polar day and night keep a course. */
double wb_air_c(double mean_c, double max_c, double min_c, double sunrise_h, double solar_h);

#endif
