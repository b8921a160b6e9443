/* Random weather on a plane, loads and kits with every feature on, seeded: for tests and the
 * benchmark of the hourly balance. */
#ifndef WB_TEST_YEAR_KITS_H
#define WB_TEST_YEAR_KITS_H

#include "random.h"
#include "year.h"
#include <glib.h>
#include <math.h>

typedef struct {
    WbPlaneHours plane;
    WbBankDays days;
    WbDemand demand[2]; /* as through two inverters */
} YearWorld;

static inline double year_between(WbRandom *random, double from, double to)
{
    return from + (to - from) * wb_random_unit(random);
}

static inline void year_fill_weather(WbRandom *random, int n_years, YearWorld *world)
{
    gsize n = (gsize)n_years * WB_YEAR_HOURS;
    WbPlaneHours *plane = &world->plane;
    *plane = (WbPlaneHours){.n_years = n_years,
                            .plane_w_m2 = g_new(double, n),
                            .air_c = g_new(double, n),
                            .low_light = g_new(double, n),
                            .day_air_c = g_new(double, n / WB_HOURS),
                            .sun_air_min_c = 100,
                            .sun_air_max_c = -100};
    double clear = 0.5;
    for (gsize i = 0; i < n; i++) {
        gsize hour = i % WB_HOURS, day = i / WB_HOURS % WB_YEAR_DAYS;
        if (hour == 0)
            clear = 0.4 * clear + 0.6 * wb_random_unit(random);
        double season = cos((double)day * 2 * G_PI / WB_YEAR_DAYS);
        double height = cos(((double)hour + 0.5 - 12) * G_PI / 12) - 0.35 * season;
        double w_m2 = height > 0 ? 800 * height * (0.1 + clear) : 0;
        double air_c = 8 - 12 * season + 5 * clear * height + wb_random_unit(random);
        plane->plane_w_m2[i] = w_m2;
        plane->low_light[i] = w_m2 > 0 && w_m2 < 1000 ? log(1000 / w_m2) / log(5) : 0;
        plane->air_c[i] = air_c;
        if (w_m2 <= 0)
            continue;
        plane->sun_air_min_c = fmin(plane->sun_air_min_c, air_c);
        plane->sun_air_max_c = fmax(plane->sun_air_max_c, air_c);
        plane->plane_max_w_m2 = fmax(plane->plane_max_w_m2, w_m2);
        plane->low_light_max = fmax(plane->low_light_max, plane->low_light[i]);
    }
}

static inline void year_fill_days(WbRandom *random, YearWorld *world)
{
    gsize n = (gsize)world->plane.n_years * WB_YEAR_DAYS;
    world->days = (WbBankDays){.n_years = world->plane.n_years,
                               .capacity_factor = g_new(double, n),
                               .too_cold = g_new(guint8, n)};
    for (gsize d = 0; d < n; d++) {
        double air_c = world->plane.air_c[d * WB_HOURS + 6];
        world->plane.day_air_c[d] = air_c;
        world->days.capacity_factor[d] = fmin(1, 0.85 + 0.006 * air_c);
        world->days.too_cold[d] = air_c < 0 && wb_random_below(random, 4) > 0;
    }
}

/* Weekdays and weekends of every month in use; the second asks for a tenth more everywhere. */
static inline void year_fill_demand(WbRandom *random, guint32 months, double most_w,
                                    YearWorld *world)
{
    for (int d = 0; d < 2; d++) {
        WbDemand *demand = &world->demand[d];
        *demand = (WbDemand){.n_kinds = 1 + 2 * WB_MONTHS,
                             .months = months,
                             .wh = g_malloc0((1 + 2 * WB_MONTHS) * sizeof *demand->wh)};
        for (int m = 0; m < WB_MONTHS; m++)
            for (int w = 0; w < WB_WEEK; w++)
                demand->kind[m][w] = months >> m & 1 ? (guint8)(1 + 2 * m + (w > 4)) : 0;
    }
    for (int k = 1; k < world->demand[0].n_kinds; k++)
        for (int h = 0; h < WB_HOURS; h++) {
            double wh = wb_random_below(random, 5) ? most_w * wb_random_unit(random) / 2 : most_w;
            world->demand[0].wh[k][h] = wh;
            world->demand[1].wh[k][h] = 1.1 * wh;
        }
}

static inline void year_world(WbRandom *random, int n_years, guint32 months, double most_w,
                              YearWorld *world)
{
    year_fill_weather(random, n_years, world);
    year_fill_days(random, world);
    year_fill_demand(random, months, most_w, world);
}

static inline void year_world_clear(YearWorld *world)
{
    wb_plane_hours_free(&world->plane);
    wb_bank_days_free(&world->days);
    wb_demand_free(&world->demand[0]);
    wb_demand_free(&world->demand[1]);
}

static inline WbArrayLaw year_array(WbRandom *random)
{
    double peak_w = year_between(random, 50, 900);
    return (WbArrayLaw){.peak_w = peak_w,
                        .power_coeff_k = year_between(random, -0.005, -0.003),
                        .heating_k_m2_w = year_between(random, 0.03, 0.06),
                        .low_light_loss = year_between(random, 0, 0.08),
                        .limit_w = peak_w * year_between(random, 0.5, 1.2),
                        .idle_w = year_between(random, 0, 3)};
}

/* Lead-acid like (a falling efficiency) or lithium like, heated or not. */
static inline WbYearKit year_kit(WbRandom *random, const YearWorld *world)
{
    bool lead = wb_random_below(random, 2);
    double wh = year_between(random, 300, 4000), c_rate = year_between(random, 0.1, 0.5);
    WbYearKit kit = {.array = year_array(random),
                     .demand = &world->demand[wb_random_below(random, 2)],
                     .days = &world->days,
                     .capacity_wh = wh,
                     .depth = lead ? 0.5 : 0.9,
                     .rated_w = wh / 20,
                     .peukert = lead ? year_between(random, 1.05, 1.3) : 1.03,
                     .charge_efficiency = lead ? 0.9 : 0.97,
                     .charge_efficiency_full = lead ? 0.6 : 0.97,
                     .discharge_efficiency = lead ? 0.94 : 0.98,
                     .max_charge_w = c_rate * wh,
                     .max_discharge_w = year_between(random, 0.03, 1) * wh,
                     .accept_w = lead ? 0.3 * wh : wh,
                     .accept_full_w = lead ? 0.01 * wh : 0.05 * wh,
                     .accept_from = lead ? 0.8 : 0.95,
                     .self_discharge_h = year_between(random, 0, 0.1) / 730,
                     .heater_w = wb_random_below(random, 2) ? year_between(random, 5, 60) : 0};
    for (int h = 10; h < 12; h++)
        kit.other.alternator_wh[h] = wb_random_below(random, 2) ? 40 * wb_random_unit(random) : 0;
    int night = (int)wb_random_below(random, WB_WEEK);
    for (int h = 18; h < WB_HOURS; h++)
        kit.other.shore_wh[night][h] = 60;
    return kit;
}

#endif
