/* Where the sun stands and what reaches the top of the atmosphere. Angles in radians, hour angles
 * zero at solar noon and positive in the afternoon, azimuths clockwise from north, latitude north
 * positive: the same formulas serve both hemispheres. */
#ifndef WB_SUN_H
#define WB_SUN_H

#define WB_PI 3.14159265358979323846
#define WB_RAD_PER_DEG (WB_PI / 180.0)
/* Of the textbooks whose tables and correlations are used here (WMO 1981: 1367). */
#define WB_SOLAR_CONSTANT_W_M2 1367.0

/* Unit vector. */
typedef struct {
    double east, north, up;
} WbDirection;

/* Day of the year, 1..365, whose H0 is the month's mean (Klein, Solar Energy 19, 1977, 325);
 * month 0..11. */
int wb_mean_day(int month);

/* 23.45 deg x sin(360 deg x (284 + n) / 365) (Cooper, Solar Energy 12, 1969). */
double wb_declination_rad(int day_of_year);

/* Normal extraterrestrial irradiance over the solar constant: 1 + 0.033 cos(360 deg x n / 365)
 * (Duffie & Beckman, Solar Engineering of Thermal Processes, 1.4.1a). */
double wb_earth_sun_factor(int day_of_year);

/* Hour angle of sunset, acos(-tan latitude x tan declination); 0 in polar night, pi in polar day.
 * The sun's centre on a flat horizon, no refraction. */
double wb_sunset_rad(double latitude_rad, double declination_rad);

/* 15 deg an hour from noon; solar_h 0..24. */
double wb_hour_angle_rad(double solar_h);

WbDirection wb_sun_direction(double latitude_rad, double declination_rad, double hour_angle_rad);
WbDirection wb_plane_normal(double tilt_rad, double azimuth_rad);

/* Cosine of the angle between two directions: of incidence (sun, plane normal). */
double wb_cos_between(WbDirection a, WbDirection b);
double wb_zenith_rad(WbDirection direction);
double wb_azimuth_rad(WbDirection direction); /* 0..2 pi; straight up: 0 */

/* Irradiation of a horizontal plane outside the atmosphere between two hour angles, kWh/m2; what
 * lies before sunrise or after sunset adds nothing. From -pi to pi: H0 of the day.
 * (12 h / pi) Gsc E0 [cos lat cos decl (sin w2 - sin w1) + (w2 - w1) sin lat sin decl]
 * (Duffie & Beckman 1.10.3, 1.10.4). */
double wb_extraterrestrial_kwh_m2(double solar_constant_w_m2, int day_of_year, double latitude_rad,
                                  double from_rad, double to_rad);

#endif
