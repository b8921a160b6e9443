#include "sun.h"
#include <math.h>

int wb_mean_day(int month)
{
    static const int mean_day[12] = {17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344};
    return mean_day[month];
}

double wb_declination_rad(int day_of_year)
{
    return 23.45 * WB_RAD_PER_DEG * sin(2 * WB_PI * (284 + day_of_year) / 365.0);
}

double wb_earth_sun_factor(int day_of_year)
{
    return 1 + 0.033 * cos(2 * WB_PI * day_of_year / 365.0);
}

double wb_sunset_rad(double latitude_rad, double declination_rad)
{
    /* Without the tangents, so that the poles need no case of their own. */
    double below = -sin(latitude_rad) * sin(declination_rad);
    double swing = cos(latitude_rad) * cos(declination_rad);
    if (below >= swing)
        return 0;
    if (below <= -swing)
        return WB_PI;
    return acos(below / swing);
}

double wb_hour_angle_rad(double solar_h)
{
    return (solar_h - 12) * 15 * WB_RAD_PER_DEG;
}

WbDirection wb_sun_direction(double latitude_rad, double declination_rad, double hour_angle_rad)
{
    double sin_lat = sin(latitude_rad), cos_lat = cos(latitude_rad);
    double sin_decl = sin(declination_rad), cos_decl = cos(declination_rad);
    double cos_hour = cos(hour_angle_rad);
    return (WbDirection){
        .east = -cos_decl * sin(hour_angle_rad),
        .north = sin_decl * cos_lat - cos_decl * sin_lat * cos_hour,
        .up = sin_lat * sin_decl + cos_lat * cos_decl * cos_hour,
    };
}

WbDirection wb_plane_normal(double tilt_rad, double azimuth_rad)
{
    return (WbDirection){
        .east = sin(tilt_rad) * sin(azimuth_rad),
        .north = sin(tilt_rad) * cos(azimuth_rad),
        .up = cos(tilt_rad),
    };
}

double wb_cos_between(WbDirection a, WbDirection b)
{
    return a.east * b.east + a.north * b.north + a.up * b.up;
}

double wb_zenith_rad(WbDirection direction)
{
    return atan2(hypot(direction.east, direction.north), direction.up);
}

double wb_azimuth_rad(WbDirection direction)
{
    double azimuth = atan2(direction.east, direction.north);
    return azimuth < 0 ? azimuth + 2 * WB_PI : azimuth;
}

double wb_extraterrestrial_kwh_m2(double solar_constant_w_m2, int day_of_year, double latitude_rad,
                                  double from_rad, double to_rad)
{
    double decl = wb_declination_rad(day_of_year);
    double sunset = wb_sunset_rad(latitude_rad, decl);
    double from = fmax(from_rad, -sunset), to = fmin(to_rad, sunset);
    if (from >= to)
        return 0;
    double swing = cos(latitude_rad) * cos(decl) * (sin(to) - sin(from));
    double constant = sin(latitude_rad) * sin(decl) * (to - from);
    double normal_kw_m2 = solar_constant_w_m2 / 1000 * wb_earth_sun_factor(day_of_year);
    return fmax(0, 12 / WB_PI * normal_kw_m2 * (swing + constant));
}
