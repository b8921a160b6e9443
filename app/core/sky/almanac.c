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
    /* Years that begin in March end with the leap day. */
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

static double sine(double deg)
{
    return sin(turn_deg(deg) * WB_RAD_PER_DEG);
}

static double cosine(double deg)
{
    return cos(turn_deg(deg) * WB_RAD_PER_DEG);
}

/* What Venus, Jupiter, the moon and a slow swing do to the sun's longitude; t: centuries. */
static double perturbation_deg(double t)
{
    double t1900 = t + 1;
    return 0.00134 * cosine(153.23 + 22518.7541 * t1900) +
           0.00154 * cosine(216.57 + 45037.5082 * t1900) +
           0.00200 * cosine(312.69 + 32964.3577 * t1900) +
           0.00179 * sine(350.74 + 445267.1142 * t1900) + 0.00178 * sine(231.19 + 20.20 * t1900);
}

WbSunCoordinates wb_sun_coordinates(double julian_day)
{
    double n = julian_day - J2000, t = n / 36525;
    double anomaly = 357.52911 + (35999.05029 - 0.0001537 * t) * t;
    double eccentricity = 0.016708634 - 0.000042037 * t;
    double centre = (1.914602 - 0.004817 * t) * sine(anomaly) +
                    (0.019993 - 0.000101 * t) * sine(2 * anomaly) + 0.000289 * sine(3 * anomaly);
    double node = 125.04 - 1934.136 * t;
    double nutation = -0.00478 * sine(node), aberration = -0.00569;
    double longitude = 280.46646 + (36000.76983 + 0.0003032 * t) * t + centre +
                       perturbation_deg(t) + aberration + nutation;
    double obliquity = 23.43929111 - 0.0130042 * t + 0.00256 * cosine(node);
    double ascension =
        atan2(cosine(obliquity) * sine(longitude), cosine(longitude)) / WB_RAD_PER_DEG;
    /* Sidereal time less the mean sun's time of day. */
    double sidereal = 280.46061837 + 0.98564736629 * n + nutation * cosine(obliquity);
    return (WbSunCoordinates){
        .declination_rad = asin(sine(obliquity) * sine(longitude)),
        .right_ascension_rad = turn_deg(ascension) * WB_RAD_PER_DEG,
        .distance_au = 1.000001018 * (1 - eccentricity * eccentricity) /
                       (1 + eccentricity * cosine(anomaly + centre)),
        .equation_of_time_h = half_turn_deg(sidereal - ascension) / 15,
    };
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
