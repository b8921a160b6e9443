#include "mean_day.h"
#include <math.h>
#include <string.h>

WbMeanDay wb_mean_day_of(const WbPlace *place, int month)
{
    WbMeanDay day = {.day_of_year = wb_mean_day(month),
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
void wb_split_day(const WbMeanDay *day, WbDayHour part[WB_HOURS])
{
    double sum_global = 0, sum_diffuse = 0, global[WB_HOURS] = {0}, diffuse[WB_HOURS] = {0};
    memset(part, 0, WB_HOURS * sizeof *part);
    for (int h = 0; h < WB_HOURS; h++) {
        double from_h = fmax(h, day->sunrise_h), to_h = fmin(h + 1, day->sunset_h);
        if (from_h >= to_h)
            continue;
        double middle_rad = wb_hour_angle_rad((from_h + to_h) / 2);
        part[h].from_h = from_h;
        part[h].to_h = to_h;
        part[h].sun = wb_sun_direction(day->latitude_rad, day->declination_rad, middle_rad);
        part[h].on.extraterrestrial =
            wb_extraterrestrial_kwh_m2(WB_SOLAR_CONSTANT_W_M2, day->day_of_year, day->latitude_rad,
                                       wb_hour_angle_rad(from_h), wb_hour_angle_rad(to_h));
        global[h] = (to_h - from_h) * wb_global_hour_share(middle_rad, day->sunset_rad);
        diffuse[h] = (to_h - from_h) * wb_diffuse_hour_share(middle_rad, day->sunset_rad);
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
