/* Where the sun stands in each hour of a year, once for all years of a weather record. Private to
 * core/sky. */
#ifndef WB_SUN_HOURS_H
#define WB_SUN_HOURS_H

#include "sun.h"
#include "weather.h"

/* Days take the declination and the distance they have in this year (no leap year, in the middle
 * between two), at the mean sun's noon of the place. */
#define WB_SUN_YEAR 2022

typedef struct {
    double length_h;              /* of the part of the hour with the sun up, 0..1 */
    double extraterrestrial_w_m2; /* on a horizontal plane, mean over the whole hour */
    WbDirection sun;              /* at the middle of the part with the sun up; 0 without one */
} WbSunHour;

/* The place has coordinates, finite and within -90..90 and -180..180. */
bool wb_has_sun(const WbPlace *place);

/* Clock hour h of day d runs over the solar hours h + shift .. h + 1 + shift, shift =
 * solar_shift_h[d], past a midnight where need be. Sun's centre, flat horizon, no refraction.
 * Where the hour meets the end of one day's sun and the beginning of the next (about midnight near
 * the polar day) the longer part counts. */
void wb_sun_hours(const WbPlace *place, const double solar_shift_h[WB_YEAR_DAYS],
                  WbSunHour hours[WB_YEAR_HOURS]);

#endif
