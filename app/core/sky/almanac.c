#include "almanac.h"
#include "sun.h"
#include <math.h>

#define J2000 2451545.0
#define RISE_ALTITUDE_RAD (-0.833 * WB_RAD_PER_DEG)
#define PARALLAX_RAD (8.794 / 3600 * WB_RAD_PER_DEG)
/* The declination moves so slowly that each round gains two digits. */
#define EVENT_ROUNDS 5

double wb_julian_day(int year, int month, int day, double utc_h)
{
    /* Days since 1 March 0000, as years then end with February (Fliegel & van Flandern's idea). */
    int from_march = (month + 9) % 12;
    int y = month <= 2 ? year - 1 : year;
    int days = 365 * y +
               (int)(floor(y / 4.0) - floor(y / 100.0) + floor(y / 400.0)) + /* leap days */
               (153 * from_march + 2) / 5 + day - 1;
    return days + 1721119.5 + utc_h / 24;
}

/* Into 0..360. */
static double turn_deg(double deg)
{
    return deg - 360 * floor(deg / 360);
}

/* Into -180..180. */
static double half_turn_deg(double deg)
{
    return turn_deg(deg + 180) - 180;
}

/* Of the mean sidereal time less the mean solar time: 12 h off the mean sun's right ascension. */
static double mean_sun_deg(double n)
{
    return 280.460625 + 0.985647363 * n;
}

WbSunCoordinates wb_sun_coordinates(double julian_day)
{
    double n = julian_day - J2000;
    double mean_longitude_deg = turn_deg(280.460 + 0.9856474 * n);
    double anomaly = turn_deg(357.528 + 0.9856003 * n) * WB_RAD_PER_DEG;
    double longitude =
        (mean_longitude_deg + 1.915 * sin(anomaly) + 0.020 * sin(2 * anomaly)) * WB_RAD_PER_DEG;
    double obliquity = (23.439 - 0.0000004 * n) * WB_RAD_PER_DEG;
    double ascension = atan2(cos(obliquity) * sin(longitude), cos(longitude));
    WbSunCoordinates sun = {
        .declination_rad = asin(sin(obliquity) * sin(longitude)),
        .right_ascension_rad = turn_deg(ascension / WB_RAD_PER_DEG) * WB_RAD_PER_DEG,
        .distance_au = 1.00014 - 0.01671 * cos(anomaly) - 0.00014 * cos(2 * anomaly),
    };
    sun.equation_of_time_h = half_turn_deg(mean_sun_deg(n) - ascension / WB_RAD_PER_DEG) / 15;
    return sun;
}

double wb_sun_factor(const WbSunCoordinates *sun)
{
    return 1 / (sun->distance_au * sun->distance_au);
}

double wb_standard_pressure_pa(double altitude_m)
{
    return 101325 * pow(1 - 0.0065 * altitude_m / 288.15, 5.25588);
}

static double refraction_rad(const WbObserver *observer, double altitude_rad)
{
    double altitude_deg = altitude_rad / WB_RAD_PER_DEG;
    if (altitude_deg < -1)
        return 0;
    double pressure_pa = isnan(observer->pressure_pa)
                             ? wb_standard_pressure_pa(observer->altitude_m)
                             : observer->pressure_pa;
    double minutes = 1.02 / tan((altitude_deg + 10.3 / (altitude_deg + 5.11)) * WB_RAD_PER_DEG);
    double density = pressure_pa / 101000 * 283 / (273 + observer->air_c);
    return fmax(0, minutes * density) / 60 * WB_RAD_PER_DEG;
}

/* Of the mean sun, at a Julian day. */
static double mean_solar_h(double julian_day, double longitude_deg)
{
    double from_midnight = julian_day + 0.5 - floor(julian_day + 0.5);
    return from_midnight * 24 + longitude_deg / 15;
}

WbSunPosition wb_sun_position(const WbObserver *observer, double julian_day)
{
    WbSunCoordinates sun = wb_sun_coordinates(julian_day);
    double solar_h = mean_solar_h(julian_day, observer->longitude_deg) + sun.equation_of_time_h;
    WbSunPosition position = {.hour_angle_rad =
                                  half_turn_deg(15 * (solar_h - 12)) * WB_RAD_PER_DEG};
    WbDirection direction = wb_sun_direction(observer->latitude_deg * WB_RAD_PER_DEG,
                                             sun.declination_rad, position.hour_angle_rad);
    double zenith = wb_zenith_rad(direction);
    position.true_zenith_rad = zenith + PARALLAX_RAD / sun.distance_au * sin(zenith);
    position.zenith_rad =
        position.true_zenith_rad - refraction_rad(observer, WB_PI / 2 - position.true_zenith_rad);
    position.azimuth_rad = wb_azimuth_rad(direction);
    return position;
}

double wb_sun_incidence_rad(const WbSunPosition *sun, double tilt_rad, double azimuth_rad)
{
    WbDirection direction = wb_plane_normal(sun->zenith_rad, sun->azimuth_rad);
    double cos_incidence = wb_cos_between(direction, wb_plane_normal(tilt_rad, azimuth_rad));
    return acos(fmax(-1, fmin(1, cos_incidence)));
}

/* Hour angle at which the sun crosses the rising altitude; 0: never so high, pi: never so low. */
static double crossing_rad(double latitude_rad, double declination_rad)
{
    double over = sin(RISE_ALTITUDE_RAD) - sin(latitude_rad) * sin(declination_rad);
    double swing = cos(latitude_rad) * cos(declination_rad);
    if (over >= swing)
        return 0;
    return over <= -swing ? WB_PI : acos(over / swing);
}

/* side -1: rise, 0: transit, 1: set. noon_day: the mean sun's noon. */
static double event_day(const WbObserver *observer, double noon_day, int side)
{
    double event = noon_day;
    for (int i = 0; i < EVENT_ROUNDS; i++) {
        WbSunCoordinates sun = wb_sun_coordinates(event);
        double crossing =
            crossing_rad(observer->latitude_deg * WB_RAD_PER_DEG, sun.declination_rad);
        event = noon_day - sun.equation_of_time_h / 24 + side * crossing / (2 * WB_PI);
    }
    return event;
}

WbSunDay wb_sun_day(const WbObserver *observer, int year, int month, int day)
{
    double noon_day = wb_julian_day(year, month, day, 12 - observer->longitude_deg / 15);
    WbSunDay events = {.transit_day = event_day(observer, noon_day, 0)};
    double crossing = crossing_rad(observer->latitude_deg * WB_RAD_PER_DEG,
                                   wb_sun_coordinates(events.transit_day).declination_rad);
    events.up_all_day = crossing >= WB_PI;
    events.down_all_day = crossing <= 0;
    double half_day = crossing / (2 * WB_PI);
    bool both = events.up_all_day || events.down_all_day;
    events.rise_day = both ? events.transit_day - half_day : event_day(observer, noon_day, -1);
    events.set_day = both ? events.transit_day + half_day : event_day(observer, noon_day, 1);
    return events;
}
