/* Where the sun stands at a moment of the years 1950 to 2050, good to 0.02 degrees, anywhere on
 * earth, and when it rises and sets: longitude, obliquity, distance and sidereal time after Meeus,
 * Astronomical Algorithms (1998), chapters 12 and 25 (the method of lower accuracy), with the
 * planets and the moon from his Astronomical Formulae for Calculators (1982), chapter 18; parallax
 * and refraction. Moments are Julian days in UTC; UTC, UT1 and TT are not told apart (a minute is
 * 0.001 degrees of the sun's path). The mean-day method has its own, simpler sun in sun.h. */
#ifndef WB_ALMANAC_H
#define WB_ALMANAC_H

#include <stdbool.h>

/* Of a moment in UTC; Gregorian calendar, month 1..12. utc_h may lie outside 0..24. */
double wb_julian_day(int year, int month, int day, double utc_h);

/* The sun against the stars, seen from the middle of the earth. */
typedef struct {
    double declination_rad, right_ascension_rad; /* the latter 0..2 pi */
    double distance_au;
    double equation_of_time_h; /* apparent solar time less mean solar time */
} WbSunCoordinates;

WbSunCoordinates wb_sun_coordinates(double julian_day);

/* Normal extraterrestrial irradiance over the solar constant: 1 / distance^2. */
double wb_sun_factor(const WbSunCoordinates *sun);

typedef struct {
    double latitude_deg, longitude_deg; /* north and east positive */
    double altitude_m;
    double pressure_pa; /* WB_MISSING: by the standard atmosphere at the altitude */
    double air_c;
} WbObserver;

/* US Standard Atmosphere 1976: 101325 (1 - 0.0065 h / 288.15)^5.25588 Pa, up to 11 km. */
double wb_standard_pressure_pa(double altitude_m);

/* Seen by the observer, with parallax. Azimuth clockwise from north, 0..2 pi. Refraction (Bennett's
 * formula the other way round, Saemundsson 1986; SPA report NREL/TP-560-34302, 3.14) lifts a sun
 * not lower than 1 degree under the horizon; a lower one is not seen anyway. */
typedef struct {
    double zenith_rad;      /* with refraction */
    double true_zenith_rad; /* without */
    double azimuth_rad;
    double hour_angle_rad; /* -pi..pi, positive in the afternoon */
} WbSunPosition;

WbSunPosition wb_sun_position(const WbObserver *observer, double julian_day);

/* Angle between the sun (with refraction) and a plane's normal, 0..pi. */
double wb_sun_incidence_rad(const WbSunPosition *sun, double tilt_rad, double azimuth_rad);

/* The solar day about the civil date's noon at the observer's longitude. The sun rises and sets
 * when its centre stands 0.833 degrees under the horizon (34' of refraction, 16' of radius); found
 * by iteration at the event. up_all_day: polar day, it does neither; down_all_day: polar night.
 * Both by the declination at transit; then rise and set lie at the midnights, or at transit. */
typedef struct {
    bool up_all_day, down_all_day;
    double rise_day, transit_day, set_day; /* Julian days */
} WbSunDay;

WbSunDay wb_sun_day(const WbObserver *observer, int year, int month, int day);

#endif
