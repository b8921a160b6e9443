#include "sun_hours.h"
#include "almanac.h"
#include <math.h>

typedef struct {
    double latitude_rad, declination_rad;
    double half_day_h;      /* noon to sunset; 12 in polar day, 0 in polar night */
    double normal_w_m2;     /* outside the atmosphere, towards the sun */
    double swing, constant; /* cos zenith = swing cos w + constant */
} SolarDay;

bool wb_has_sun(const WbPlace *place)
{
    return fabs(place->latitude_deg) <= 90 && fabs(place->longitude_deg) <= 180;
}

static SolarDay solar_day(const WbPlace *place, int day)
{
    double noon = wb_julian_day(WB_SUN_YEAR, 1, 1 + day, 12 - place->longitude_deg / 15);
    WbSunCoordinates sun = wb_sun_coordinates(noon);
    double latitude = place->latitude_deg * WB_RAD_PER_DEG;
    return (SolarDay){
        .latitude_rad = latitude,
        .declination_rad = sun.declination_rad,
        .half_day_h = wb_sunset_rad(latitude, sun.declination_rad) / WB_PI * 12,
        .normal_w_m2 = WB_SOLAR_CONSTANT_W_M2 * wb_sun_factor(&sun),
        .swing = cos(latitude) * cos(sun.declination_rad),
        .constant = sin(latitude) * sin(sun.declination_rad),
    };
}

/* Of the solar hours from_h..from_h + 1, the longest stretch with the sun up. */
static void part_with_sun(const SolarDay *day, double from_h, double *begin_h, double *end_h)
{
    *begin_h = *end_h = 0;
    for (int noon_h = -12; noon_h <= 36; noon_h += 24) {
        double begin = fmax(from_h, noon_h - day->half_day_h);
        double end = fmin(from_h + 1, noon_h + day->half_day_h);
        if (end - begin > *end_h - *begin_h) {
            *begin_h = begin;
            *end_h = end;
        }
    }
}

static WbSunHour sun_hour(const SolarDay *day, double from_h)
{
    double begin_h, end_h;
    if (day->half_day_h >= 12) {
        begin_h = from_h;
        end_h = from_h + 1;
    } else {
        part_with_sun(day, from_h, &begin_h, &end_h);
    }
    if (end_h <= begin_h)
        return (WbSunHour){0};
    double from = wb_hour_angle_rad(begin_h), to = wb_hour_angle_rad(end_h);
    double integral = day->swing * (sin(to) - sin(from)) + day->constant * (to - from);
    return (WbSunHour){
        .length_h = end_h - begin_h,
        .extraterrestrial_w_m2 = day->normal_w_m2 * fmax(0, integral * 12 / WB_PI),
        .sun = wb_sun_direction(day->latitude_rad, day->declination_rad, from + (to - from) / 2),
    };
}

void wb_sun_hours(const WbPlace *place, const double solar_shift_h[WB_YEAR_DAYS],
                  WbSunHour hours[WB_YEAR_HOURS])
{
    for (int d = 0; d < WB_YEAR_DAYS; d++) {
        SolarDay day = solar_day(place, d);
        for (int h = 0; h < WB_HOURS; h++)
            hours[d * WB_HOURS + h] = sun_hour(&day, h + solar_shift_h[d]);
    }
}
