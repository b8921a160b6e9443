/* Weather, hour by hour: made from a place's twelve monthly means, or a person's own hours.
 *
 * A year has 365 days; hour i of a record is year i / 8760, day i / 24 % 365, hour h = i % 24, and
 * means h:00 to h+1:00. Made weather runs in local solar time (noon: the sun is highest); a
 * person's own hours run in the clock time of their file, and solar_shift_h tells the sun's. */
#ifndef WB_WEATHER_H
#define WB_WEATHER_H

#include "control.h"
#include "place.h"
#include "status.h"
#include <stddef.h>

#define WB_YEAR_DAYS 365
#define WB_YEAR_HOURS 8760
#define WB_MOST_WEATHER_YEARS 100

/* Global and diffuse on a horizontal plane, W/m2, mean over the hour; air in C. */
typedef struct {
    int n_years;
    double *global_w_m2, *diffuse_w_m2, *air_c; /* n_years x 8760 each */
    double solar_shift_h[WB_YEAR_DAYS];         /* solar time = hour + 0.5 + this */
} WbWeather;

/* A person's own hours, as the store read and checked them: n_years x 8760 rows, 29 February left
 * out. Missing diffuse or air (WB_MISSING in the row) are worked out: diffuse by Erbs' hourly
 * split, air by the place's months. */
typedef struct WbHours {
    int n_years;
    const double *global_w_m2, *diffuse_w_m2, *air_c;
    double utc_offset_h; /* of the clock the rows follow; WB_MISSING: the whole hours nearest to
                            longitude / 15 */
    const char *name;    /* of the file, for people */
} WbHours;

/* Made weather of so many years (1..100); the same place, years and seed give the same bits. Days
 * by the distribution of Bendt et al. 1981 with the persistence of Graham et al. 1988, hours by
 * Aguiar & Collares-Pereira 1992, diffuse by Erbs et al. 1982; method: data/METHOD.md, 1b, and
 * app/core/sky/{clearness,hours,made_air}.h. Every month's mean over all years, of light and of
 * air, is the place's; only a month that would need more than the sun sends to a flat place (near
 * the polar night) falls short. WB_BAD_INPUT: coordinates outside -90..90 or -180..180, years
 * outside 1..100, a negative irradiation, a maximum temperature below the minimum, a NaN among
 * them. */
WbStatus wb_weather_make(const WbPlace *place, int years, uint64_t seed, WbWeather *weather);
/* The person's own hours under the place's sun: solar_shift_h from the equation of time, the
 * longitude and the clock. Diffuse above global counts as global. WB_BAD_INPUT: coordinates outside
 * -90..90 or -180..180, years outside 1..100, a global that is missing or negative, an offset
 * outside -14..14, a place without air temperatures. */
WbStatus wb_weather_own(const WbPlace *place, const WbHours *hours, WbWeather *weather);
/* Solar time about which the light lies, 0..24 h: circular mean of the hours' middles, weighted
 * with global; near 12, or else the hours follow another clock. No light: 12. */
double wb_light_middle_h(const WbWeather *weather);
/* By the site: own hours where it has them, else made. */
WbStatus wb_weather_of_site(const WbSite *site, WbWeather *weather);
void wb_weather_free(WbWeather *weather);

int wb_month_of_day(int day); /* 0..364 -> 0..11 */
int wb_first_day_of_month(int month);
int wb_days_of_month(int month);

/* What a panel meets: weather on its plane, after the month's shading and soiling. Less than 0.1
 * W/m2 counts as 0: no panel starts on it, and it keeps low_light below 5.8. */
typedef struct {
    int n_years;
    double *plane_w_m2; /* n_years x 8760: mean over the hour */
    double *air_c;      /* n_years x 8760 */
    double *low_light;  /* n_years x 8760: max(0, ln(1000 / plane) / ln 5); 0 where plane is 0 */
    double *day_air_c;  /* n_years x 365: mean of the day */
    double plane_kwh_m2_day[WB_MONTHS]; /* mean over all years, after shading and soiling */
    double hottest_air_c;               /* of any hour of the months in use */
    /* Over all hours with sun; 0 without any. */
    double sun_air_min_c, sun_air_max_c, plane_max_w_m2, low_light_max;
} WbPlaneHours;

/* Tilt by Perez et al. 1990; azimuth "any": the mean over 16 azimuths. */
WbStatus wb_plane_hours(const WbSite *site, const WbWeather *weather, WbPlaneHours *plane);
void wb_plane_hours_free(WbPlaneHours *plane);

#endif
