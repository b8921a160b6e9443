/* The mean day of each month on the panel's plane; the method step by step is in sky.h. */
#include "sky.h"
#include "air.h"
#include "radiation.h"
#include "sun.h"
#include <math.h>
#include <string.h>

#define N_AZIMUTHS 16

typedef struct {
    int day_of_year;
    double latitude_rad, declination_rad, sunset_rad;
    double sunrise_h, sunset_h;
    double global_kwh_m2, diffuse_kwh_m2;
} MeanDay;

/* The part of hour h..h+1 with the sun up, and what falls in it. */
typedef struct {
    double length_h;
    WbDirection sun; /* at its middle */
    WbHorizontal on; /* kWh/m2 */
} HourPart;

static bool is_temperature_course(const WbPlace *place, int month)
{
    double mean = place->air_mean_c[month];
    return isfinite(mean) && isfinite(place->air_min_c[month]) &&
           isfinite(place->air_max_c[month]) && place->air_max_c[month] >= place->air_min_c[month];
}

static bool is_accepted(const WbSite *site)
{
    const WbPlace *place = &site->place;
    if (!(fabs(place->latitude_deg) <= 90) || isinf(site->azimuth_deg))
        return false;
    if (!(site->tilt_deg >= 0 && site->tilt_deg <= 90))
        return false;
    if (!(site->ground_albedo >= 0 && site->ground_albedo <= 1))
        return false;
    for (int m = 0; m < WB_MONTHS; m++) {
        double ghi = place->ghi_kwh_m2_day[m];
        if (!(ghi >= 0 && isfinite(ghi)) || !is_temperature_course(place, m))
            return false;
    }
    return true;
}

static MeanDay mean_day(const WbPlace *place, int month)
{
    MeanDay day = {.day_of_year = wb_mean_day(month),
                   .latitude_rad = place->latitude_deg * WB_RAD_PER_DEG};
    day.declination_rad = wb_declination_rad(day.day_of_year);
    day.sunset_rad = wb_sunset_rad(day.latitude_rad, day.declination_rad);
    double half_h = day.sunset_rad / WB_PI * 12;
    day.sunrise_h = 12 - half_h;
    day.sunset_h = 12 + half_h;
    double outside = wb_extraterrestrial_kwh_m2(WB_SOLAR_CONSTANT_W_M2, day.day_of_year,
                                                day.latitude_rad, -WB_PI, WB_PI);
    if (outside <= 0)
        return day;
    day.global_kwh_m2 = place->ghi_kwh_m2_day[month];
    day.diffuse_kwh_m2 =
        day.global_kwh_m2 * wb_erbs_month(day.global_kwh_m2 / outside, day.sunset_rad);
    return day;
}

/* Hour shares, scaled so that the hours add up to the day. */
static void split_day(const MeanDay *day, HourPart part[WB_HOURS])
{
    double sum_global = 0, sum_diffuse = 0, global[WB_HOURS] = {0}, diffuse[WB_HOURS] = {0};
    memset(part, 0, WB_HOURS * sizeof *part);
    for (int h = 0; h < WB_HOURS; h++) {
        double from_h = fmax(h, day->sunrise_h), to_h = fmin(h + 1, day->sunset_h);
        if (from_h >= to_h)
            continue;
        double middle_rad = wb_hour_angle_rad((from_h + to_h) / 2);
        part[h].length_h = to_h - from_h;
        part[h].sun = wb_sun_direction(day->latitude_rad, day->declination_rad, middle_rad);
        part[h].on.extraterrestrial =
            wb_extraterrestrial_kwh_m2(WB_SOLAR_CONSTANT_W_M2, day->day_of_year, day->latitude_rad,
                                       wb_hour_angle_rad(from_h), wb_hour_angle_rad(to_h));
        global[h] = part[h].length_h * wb_global_hour_share(middle_rad, day->sunset_rad);
        diffuse[h] = part[h].length_h * wb_diffuse_hour_share(middle_rad, day->sunset_rad);
        sum_global += global[h];
        sum_diffuse += diffuse[h];
    }
    if (!(sum_global > 0 && sum_diffuse > 0))
        return;
    for (int h = 0; h < WB_HOURS; h++) {
        double all = day->global_kwh_m2 * global[h] / sum_global;
        double beam = fmax(0, all - day->diffuse_kwh_m2 * diffuse[h] / sum_diffuse);
        part[h].on.beam = fmin(beam, part[h].on.extraterrestrial);
        part[h].on.diffuse = all - part[h].on.beam;
    }
}

static double facing_kwh_m2(const HourPart *part, const WbSite *site, double azimuth_deg)
{
    WbDirection normal =
        wb_plane_normal(site->tilt_deg * WB_RAD_PER_DEG, azimuth_deg * WB_RAD_PER_DEG);
    WbTilted plane = {.tilt_rad = site->tilt_deg * WB_RAD_PER_DEG,
                      .cos_incidence = wb_cos_between(part->sun, normal),
                      .cos_zenith = part->sun.up,
                      .ground_albedo = site->ground_albedo};
    return wb_plane_hdkr(&part->on, &plane);
}

static double plane_kwh_m2(const HourPart *part, const WbSite *site)
{
    if (site->tilt_deg == 0)
        return part->on.beam + part->on.diffuse;
    if (!isnan(site->azimuth_deg))
        return facing_kwh_m2(part, site, site->azimuth_deg);
    double sum = 0;
    for (int i = 0; i < N_AZIMUTHS; i++)
        sum += facing_kwh_m2(part, site, i * 360.0 / N_AZIMUTHS);
    return sum / N_AZIMUTHS;
}

static void fill_month(const WbSite *site, int m, WbSky *sky)
{
    MeanDay day = mean_day(&site->place, m);
    HourPart part[WB_HOURS];
    split_day(&day, part);
    sky->sunrise_h[m] = day.sunrise_h;
    sky->sunset_h[m] = day.sunset_h;
    sky->plane_kwh_m2_day[m] = 0;
    for (int h = 0; h < WB_HOURS; h++) {
        double kwh_m2 = plane_kwh_m2(&part[h], site);
        sky->plane_w_m2[m][h] = kwh_m2 * 1000;
        sky->plane_kwh_m2_day[m] += kwh_m2;
        sky->dark_share[m][h] = 1 - part[h].length_h;
        sky->air_c[m][h] = wb_air_c(site->place.air_mean_c[m], site->place.air_max_c[m],
                                    site->place.air_min_c[m], day.sunrise_h, h + 0.5);
    }
}

WbStatus wb_sky(const WbSite *site, WbSky *sky)
{
    if (!is_accepted(site))
        return WB_BAD_INPUT;
    for (int m = 0; m < WB_MONTHS; m++)
        fill_month(site, m, sky);
    return WB_OK;
}
