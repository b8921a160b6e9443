/* From a day's clearness to its hours: the hourly model of Aguiar & Collares-Pereira, Solar Energy
 * 49, 1992, 167 (coefficients from memory). Private to core/sky.
 *
 * With k = the day's clearness, at most 0.8, and s = sine of the sun's height at the middle of the
 * hour's part with sun, clearness of the hour = m + sd x y, kept within 0 and the cap:
 *   m  = -0.19 + 1.12 k + 0.24 exp(-8 k)
 *        + (0.32 - 1.60 (k - 0.5)^2) exp(-(0.19 + 2.27 k^2 - 2.51 k^3) / s)
 *   sd = 0.14 exp(-20 (k - 0.35)^2) exp((3 (k - 0.45)^2 + 16 k^5)(1 - s))
 *   y  = p y before + sqrt(1 - p^2) n, p = 0.38 + 0.06 cos(7.4 k - 2.5); in the first hour n
 *   cap = 0.88 cos(pi (h + 0.5 - 12) / 30)
 * Where all hours at the cap bring less than 1.02 times the day (or than all of outside, if that is
 * less), the caps go up towards 1 by one common share. Then the hours are made to add up to the
 * day (our choice): too much shrinks all alike, too little takes all one share nearer their cap.
 * Diffuse of each hour by wb_erbs_hour. */
#ifndef WB_HOURS_H
#define WB_HOURS_H

#include "place.h"
#include "random.h"
#include "sun_hours.h"

/* What made weather needs to know of one hour of the year. */
typedef struct {
    double outside_w_m2; /* mean over the hour; 0: no sun */
    double sin_elevation;
    double cap; /* clearness */
} WbLightHour;

/* hour 0..23 of the day. */
void wb_light_hour(int hour_of_day, const WbSunHour *sun, WbLightHour *hour);

/* Global and diffuse of one day, W/m2. Draws a pair for each first and second, third and fourth ..
 * hour with sun. */
void wb_light_of_day(double clearness, const WbLightHour hours[WB_HOURS], WbRandom *random,
                     double global_w_m2[WB_HOURS], double diffuse_w_m2[WB_HOURS]);

#endif
