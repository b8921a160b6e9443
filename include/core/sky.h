/* Sun, split and tilt for a place: what falls on the panel's plane, hour by hour of the mean day of
 * each month, in local solar time. Formulas and sources: sun.h, radiation.h.
 *
 * The method, for each month:
 * 1. n = Klein's mean day, declination by Cooper, sunset angle ws = acos(-tan lat tan decl),
 *    sunrise 12 - ws/15 deg, sunset 12 + ws/15 deg (sun's centre, flat horizon).
 * 2. H = the place's daily global irradiation, H0 = extraterrestrial (Gsc = 1367 W/m2), K = H/H0.
 *    Where H0 is 0 (polar night) nothing falls, whatever H says.
 * 3. Diffuse of the day Hd = H x Erbs' monthly share (K, ws), with its rules outside 0.3..0.8.
 * 4. Each solar hour h..h+1 is cut to [sunrise, sunset]; what is left has the length L (h) and the
 *    middle w. Weights L x rt(w, ws) (Collares-Pereira & Rabl) and L x rd(w, ws) (Liu & Jordan),
 *    each divided by its sum over the day, share out H and Hd; so the hours add up to the day.
 *    I0 of the hour is the integral over the same part. Beam = global - diffuse, kept within
 *    0..I0; the hour's diffuse is what is then left of its global.
 * 5. On the plane by HDKR with incidence and zenith at the middle w. Azimuth "any": the mean over
 *    the 16 azimuths 0, 22.5 .. 337.5 deg. Tilt 0: the global itself.
 * 6. W/m2 of the hour = its kWh/m2 x 1000 (mean over the whole hour, dark part included).
 * Expect 5 % a year, 10 % a month and 25 % in dark winter months against hourly data; steep planes
 * under snowy winters come out high (10 % a year upright), since the monthly diffuse share is low.
 */
#ifndef WB_SKY_H
#define WB_SKY_H

#include "place.h"
#include "status.h"

typedef struct {
    double plane_w_m2[WB_MONTHS][WB_HOURS]; /* mean over hour h..h+1, before shading and soiling */
    /* At h + 0.5: air_mean + (air_max - air_min)/2 x s; s is half a cosine from -1 at sunrise
     * (2..10 h) to 1 at 14 h and another back to the next sunrise (course of de Wit et al. 1978).
     */
    double air_c[WB_MONTHS][WB_HOURS];
    double sunrise_h[WB_MONTHS], sunset_h[WB_MONTHS]; /* solar time; polar night: both 12,
                                                         polar day: 0 and 24 */
    double dark_share[WB_MONTHS][WB_HOURS];           /* share of hour h..h+1 without sun, 0..1 */
    double plane_kwh_m2_day[WB_MONTHS];               /* sum of plane_w_m2 / 1000 */
} WbSky;

/* WB_BAD_INPUT: a latitude outside -90..90, a tilt outside 0..90, an albedo outside 0..1, a
 * negative irradiation, a maximum temperature below the minimum, a NaN among them (azimuth NaN:
 * any). */
WbStatus wb_sky(const WbSite *site, WbSky *sky);

#endif
