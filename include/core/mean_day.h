/* The mean day of a month at a place, hour by hour of solar time, on a horizontal plane: steps 1 to
 * 4 of the method in sky.h. */
#ifndef WB_MEAN_DAY_H
#define WB_MEAN_DAY_H

#include "place.h"
#include "radiation.h"
#include "sun.h"

typedef struct {
    int day_of_year;
    double latitude_rad, declination_rad, sunset_rad;
    double sunrise_h, sunset_h;
    double global_kwh_m2, diffuse_kwh_m2;
} WbMeanDay;

/* The part of hour h..h+1 with the sun up, and what falls in it; all 0 where it is down. */
typedef struct {
    double from_h, to_h;
    WbDirection sun; /* at its middle */
    WbHorizontal on; /* kWh/m2 */
} WbDayHour;

/* month 0..11; latitude -90..90, irradiation not negative. */
WbMeanDay wb_mean_day_of(const WbPlace *place, int month);
void wb_split_day(const WbMeanDay *day, WbDayHour hour[WB_HOURS]);

#endif
