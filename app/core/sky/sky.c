/* The mean day of each month on the panel's plane; the method step by step is in sky.h. */
#include "sky.h"
#include "air.h"
#include "mean_day.h"
#include <math.h>

#define N_AZIMUTHS 16

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

static double facing_kwh_m2(const WbDayHour *part, const WbSite *site, double azimuth_deg)
{
    WbDirection normal =
        wb_plane_normal(site->tilt_deg * WB_RAD_PER_DEG, azimuth_deg * WB_RAD_PER_DEG);
    WbTilted plane = {.tilt_rad = site->tilt_deg * WB_RAD_PER_DEG,
                      .cos_incidence = wb_cos_between(part->sun, normal),
                      .cos_zenith = part->sun.up,
                      .ground_albedo = site->ground_albedo};
    return wb_plane_hdkr(&part->on, &plane);
}

static double plane_kwh_m2(const WbDayHour *part, const WbSite *site)
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
    WbMeanDay day = wb_mean_day_of(&site->place, m);
    WbDayHour part[WB_HOURS];
    wb_split_day(&day, part);
    sky->sunrise_h[m] = day.sunrise_h;
    sky->sunset_h[m] = day.sunset_h;
    sky->plane_kwh_m2_day[m] = 0;
    for (int h = 0; h < WB_HOURS; h++) {
        double kwh_m2 = plane_kwh_m2(&part[h], site);
        sky->plane_w_m2[m][h] = kwh_m2 * 1000;
        sky->plane_kwh_m2_day[m] += kwh_m2;
        sky->dark_share[m][h] = 1 - (part[h].to_h - part[h].from_h);
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
