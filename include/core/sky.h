/* Sun, split and tilt for a place: what falls on the panel's plane, hour by hour of the mean day of
 * each month (Klein 1977), in local solar time. Methods and their sources in app/core/sky. */
#ifndef WB_SKY_H
#define WB_SKY_H

#include "place.h"
#include "status.h"

typedef struct {
    double plane_w_m2[WB_MONTHS][WB_HOURS]; /* mean over hour h..h+1, before shading and soiling */
    double air_c[WB_MONTHS][WB_HOURS];
    double sunrise_h[WB_MONTHS], sunset_h[WB_MONTHS]; /* solar time; polar night: both 12,
                                                         polar day: 0 and 24 */
    double dark_share[WB_MONTHS][WB_HOURS];           /* share of hour h..h+1 without sun, 0..1 */
    double plane_kwh_m2_day[WB_MONTHS];               /* sum of plane_w_m2 / 1000 */
} WbSky;

/* WB_BAD_INPUT: a latitude outside -90..90, a negative irradiation, a NaN. */
WbStatus wb_sky(const WbSite *site, WbSky *sky);

#endif
