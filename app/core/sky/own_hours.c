/* A person's own hours under the place's sun. */
#include "air.h"
#include "almanac.h"
#include "radiation.h"
#include "sun_hours.h"
#include "weather_room.h"
#include <math.h>
#include <stdlib.h>

static bool is_accepted(const WbPlace *place, const WbHours *hours)
{
    if (!wb_has_sun(place) || fabs(hours->utc_offset_h) > 14)
        return false;
    if (hours->n_years < 1 || hours->n_years > WB_MOST_WEATHER_YEARS)
        return false;
    for (int m = 0; m < WB_MONTHS; m++)
        if (!isfinite(place->air_mean_c[m] + place->air_max_c[m] + place->air_min_c[m]))
            return false;
    size_t n = (size_t)hours->n_years * WB_YEAR_HOURS;
    for (size_t i = 0; i < n; i++)
        if (!(hours->global_w_m2[i] >= 0 && isfinite(hours->global_w_m2[i])))
            return false;
    return true;
}

static void fill_shift(const WbPlace *place, double utc_offset_h, double shift_h[WB_YEAR_DAYS])
{
    double longitude_h = place->longitude_deg / 15;
    double clock_h = isnan(utc_offset_h) ? round(longitude_h) : utc_offset_h;
    for (int d = 0; d < WB_YEAR_DAYS; d++) {
        WbSunCoordinates sun =
            wb_sun_coordinates(wb_julian_day(WB_SUN_YEAR, 1, 1 + d, 12 - longitude_h));
        double shift = sun.equation_of_time_h + longitude_h - clock_h;
        shift_h[d] =
            shift - 24 * round(shift / 24); /* a clock of the other side of the date line */
    }
}

static double diffuse_w_m2(double global_w_m2, double diffuse_w_m2, const WbSunHour *hour)
{
    if (!isnan(diffuse_w_m2))
        return fmin(global_w_m2, fmax(0, diffuse_w_m2));
    if (hour->extraterrestrial_w_m2 <= 0)
        return global_w_m2;
    return global_w_m2 * wb_erbs_hour(global_w_m2 / hour->extraterrestrial_w_m2);
}

/* Of the place's mean day of the month; day, hour: of the person's clock. */
static double usual_air_c(const WbPlace *place, int day, int hour, double shift_h)
{
    int m = wb_month_of_day(day);
    double sunset =
        wb_sunset_rad(place->latitude_deg * WB_RAD_PER_DEG, wb_declination_rad(wb_mean_day(m)));
    double solar_h = hour + 0.5 + shift_h;
    solar_h -= WB_HOURS * floor(solar_h / WB_HOURS);
    return wb_air_c(place->air_mean_c[m], place->air_max_c[m], place->air_min_c[m],
                    12 - sunset / WB_PI * 12, solar_h);
}

static void fill_hours(const WbPlace *place, const WbHours *hours, const WbSunHour *suns,
                       WbWeather *weather)
{
    size_t n = (size_t)hours->n_years * WB_YEAR_HOURS;
    for (size_t i = 0; i < n; i++) {
        int of_year = (int)(i % WB_YEAR_HOURS), day = of_year / WB_HOURS;
        weather->global_w_m2[i] = hours->global_w_m2[i];
        weather->diffuse_w_m2[i] =
            diffuse_w_m2(hours->global_w_m2[i], hours->diffuse_w_m2[i], &suns[of_year]);
        weather->air_c[i] = hours->air_c[i];
        if (isnan(weather->air_c[i]))
            weather->air_c[i] =
                usual_air_c(place, day, of_year % WB_HOURS, weather->solar_shift_h[day]);
    }
}

WbStatus wb_weather_own(const WbPlace *place, const WbHours *hours, WbWeather *weather)
{
    if (!is_accepted(place, hours))
        return WB_BAD_INPUT;
    WbSunHour *suns = malloc(WB_YEAR_HOURS * sizeof *suns);
    if (!suns)
        return WB_NO_MEMORY;
    WbWeather made;
    WbStatus status = wb_weather_room(hours->n_years, &made);
    if (status == WB_OK) {
        fill_shift(place, hours->utc_offset_h, made.solar_shift_h);
        wb_sun_hours(place, made.solar_shift_h, suns);
        fill_hours(place, hours, suns, &made);
        *weather = made;
    }
    free(suns);
    return status;
}

double wb_light_middle_h(const WbWeather *weather)
{
    size_t n = (size_t)weather->n_years * WB_YEAR_HOURS;
    double noon = 0, evening = 0;
    for (size_t i = 0; i < n; i++) {
        int of_year = (int)(i % WB_YEAR_HOURS);
        double solar_h = of_year % WB_HOURS + 0.5 + weather->solar_shift_h[of_year / WB_HOURS];
        noon += weather->global_w_m2[i] * cos(wb_hour_angle_rad(solar_h));
        evening += weather->global_w_m2[i] * sin(wb_hour_angle_rad(solar_h));
    }
    return 12 + atan2(evening, noon) / WB_PI * 12;
}
