#include "hours.h"
#include "normal_draw.h"
#include "radiation.h"
#include "sun.h"
#include <math.h>

#define MOST_FITTED 0.8
#define CAP_NOON 0.88
#define CAP_ROOM 1.02

/* What the day's clearness says of all its hours. */
typedef struct {
    double base, rise, extinction; /* mean: base + rise exp(-extinction / s) */
    double spread, low_sun;        /* deviation: spread exp(low_sun (1 - s)) */
    double persistence, renewal;
} Day;

static Day day_of(double clearness)
{
    double k = fmin(clearness, MOST_FITTED), square = k * k;
    double persistence = 0.38 + 0.06 * cos(7.4 * k - 2.5);
    return (Day){
        .base = -0.19 + 1.12 * k + 0.24 * exp(-8 * k),
        .rise = 0.32 - 1.60 * (k - 0.5) * (k - 0.5),
        .extinction = 0.19 + 2.27 * square - 2.51 * square * k,
        .spread = 0.14 * exp(-20 * (k - 0.35) * (k - 0.35)),
        .low_sun = 3 * (k - 0.45) * (k - 0.45) + 16 * square * square * k,
        .persistence = persistence,
        .renewal = sqrt(1 - persistence * persistence),
    };
}

void wb_light_hour(int hour_of_day, const WbSunHour *sun, WbLightHour *hour)
{
    *hour = (WbLightHour){0};
    if (sun->extraterrestrial_w_m2 <= 0 || sun->sun.up <= 0)
        return;
    hour->outside_w_m2 = sun->extraterrestrial_w_m2;
    hour->sin_elevation = sun->sun.up;
    hour->cap = CAP_NOON * cos(WB_PI * (hour_of_day + 0.5 - 12) / 30);
}

/* Highest clearness of each hour, for a day that must bring wanted_w_m2 in all. */
static void fill_caps(const WbLightHour *hours, double wanted_w_m2, double outside_w_m2,
                      double cap[WB_HOURS])
{
    double full = 0;
    for (int h = 0; h < WB_HOURS; h++) {
        cap[h] = hours[h].cap;
        full += cap[h] * hours[h].outside_w_m2;
    }
    double needed = fmin(CAP_ROOM * wanted_w_m2, outside_w_m2);
    if (needed <= full)
        return;
    double up = (needed - full) / (outside_w_m2 - full);
    for (int h = 0; h < WB_HOURS; h++)
        cap[h] += (1 - cap[h]) * up;
}

static void draw_hours(const Day *day, const WbLightHour *hours, const double *cap,
                       WbRandom *random, double clearness[WB_HOURS])
{
    WbNormalPair pair = {0};
    double y = 0;
    int n = 0;
    for (int h = 0; h < WB_HOURS; h++) {
        double s = hours[h].sin_elevation;
        clearness[h] = 0;
        if (hours[h].outside_w_m2 <= 0)
            continue;
        if (n % 2 == 0)
            pair = wb_normal_pair(random);
        double normal = n % 2 == 0 ? pair.first : pair.second;
        y = n == 0 ? normal : day->persistence * y + day->renewal * normal;
        n++;
        double mean = day->base + day->rise * exp(-day->extinction / s);
        double deviation = day->spread * exp(day->low_sun * (1 - s));
        clearness[h] = fmin(cap[h], fmax(0, mean + deviation * y));
    }
}

/* Makes the hours add up to the day. */
static void fit_to_day(const WbLightHour *hours, const double *cap, double wanted_w_m2,
                       double clearness[WB_HOURS])
{
    double got = 0, room = 0;
    for (int h = 0; h < WB_HOURS; h++) {
        got += clearness[h] * hours[h].outside_w_m2;
        room += (cap[h] - clearness[h]) * hours[h].outside_w_m2;
    }
    if (got >= wanted_w_m2) {
        double share = got > 0 ? wanted_w_m2 / got : 0;
        for (int h = 0; h < WB_HOURS; h++)
            clearness[h] *= share;
        return;
    }
    double share = room > 0 ? fmin(1, (wanted_w_m2 - got) / room) : 0;
    for (int h = 0; h < WB_HOURS; h++)
        if (hours[h].outside_w_m2 > 0)
            clearness[h] += (cap[h] - clearness[h]) * share;
}

void wb_light_of_day(double clearness, const WbLightHour hours[WB_HOURS], WbRandom *random,
                     double global_w_m2[WB_HOURS], double diffuse_w_m2[WB_HOURS])
{
    double outside = 0, cap[WB_HOURS], k[WB_HOURS];
    for (int h = 0; h < WB_HOURS; h++)
        outside += hours[h].outside_w_m2;
    double wanted = clearness * outside;
    Day day = day_of(clearness);
    fill_caps(hours, wanted, outside, cap);
    draw_hours(&day, hours, cap, random, k);
    fit_to_day(hours, cap, wanted, k);
    for (int h = 0; h < WB_HOURS; h++) {
        global_w_m2[h] = k[h] * hours[h].outside_w_m2;
        diffuse_w_m2[h] = global_w_m2[h] * wb_erbs_hour(k[h]);
    }
}
