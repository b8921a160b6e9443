/* Shade on the roof: a wall and a mast against shadow lengths h / tan(altitude), written anew, and
 * what must hold of any roof. */
#include "mean_day.h"
#include "random.h"
#include "roof_arrange.h"
#include "sun.h"
#include <glib.h>
#include <math.h>

#define ROOF_MM 6000

static WbSite site_at(double latitude_deg)
{
    WbSite site = {.place = {.latitude_deg = latitude_deg}};
    for (int m = 0; m < 12; m++)
        site.place.ghi_kwh_m2_day[m] =
            3.5 + 1.5 * cos((m - 5.5) / 6 * WB_PI) * (latitude_deg < 0 ? -1 : 1);
    return site;
}

static WbRoof roof_with(const WbObstacle *obstacle, size_t n, double front_azimuth_deg)
{
    return (WbRoof){.length_mm = ROOF_MM,
                    .width_mm = 3000,
                    .obstacles = obstacle,
                    .n_obstacles = n,
                    .front_azimuth_deg = front_azimuth_deg};
}

static void shade(const WbRoof *roof, double latitude_deg, const WbRect *layout, int n,
                  double month[12], double *by_panel)
{
    WbSite site = site_at(latitude_deg);
    g_assert_cmpint(wb_roof_shade(roof, &site, layout, n, NULL, month, by_panel), ==, WB_OK);
    for (int m = 0; m < 12; m++) {
        g_assert_cmpfloat(month[m], >=, 0);
        g_assert_cmpfloat(month[m], <=, 1 + 1e-12);
    }
}

/* Mean over the day's direct light of what `share` answers for the sun, at many moments: the light
 * of an hour by the sun's height within it. */
typedef double (*ShareOf)(const WbRoof *roof, const WbRect *panel, WbDirection sun);

static double mean_share(const WbRoof *roof, double latitude_deg, const WbRect *panel, int m,
                         ShareOf share)
{
    enum { PARTS = 20 };
    WbSite site = site_at(latitude_deg);
    WbMeanDay day = wb_mean_day_of(&site.place, m);
    WbDayHour hour[WB_HOURS];
    wb_split_day(&day, hour);
    double light = 0, taken = 0;
    for (int h = 0; h < WB_HOURS; h++) {
        double up = 0, up_taken = 0;
        for (int k = 0; k < PARTS; k++) {
            double at_h = hour[h].from_h + (hour[h].to_h - hour[h].from_h) * (k + 0.5) / PARTS;
            WbDirection sun =
                wb_sun_direction(day.latitude_rad, day.declination_rad, wb_hour_angle_rad(at_h));
            if (sun.up <= 0)
                continue;
            up += sun.up;
            up_taken += sun.up * share(roof, panel, sun);
        }
        light += hour[h].on.beam;
        taken += up > 0 ? hour[h].on.beam * up_taken / up : 0;
    }
    return light > 0 ? taken / light : 0;
}

/* A wall far to both sides, its edge at the panel's. Away from it the shadow is as long as
 * h / tan(altitude) x cos(azimuth of the sun less that of the wall's face): the shadow angle
 * of sun charts (Olgyay & Olgyay, Solar Control and Shading Devices, 1957; from memory). */
static double wall_share(const WbRoof *roof, const WbRect *panel, WbDirection sun)
{
    double altitude = WB_PI / 2 - wb_zenith_rad(sun), height = (double)roof->obstacles[0].height_mm;
    double face = roof->front_azimuth_deg * WB_RAD_PER_DEG;
    double reach = height / tan(altitude) * cos(wb_azimuth_rad(sun) - face);
    return fmin(1, fmax(0, reach / (double)panel->width_mm));
}

/* The front faces the sun at noon; the wall stands at the front of a panel, 1 km long. */
static void test_wall_by_hand(void)
{
    static const struct {
        double latitude_deg, front_deg;
    } rows[] = {{48, 180}, {20, 180}, {-35, 0}, {-12, 0}, {60, 180}, {40, 200}};
    WbObstacle wall = {.name = "wall",
                       .x_mm = -500000,
                       .y_mm = 900,
                       .length_mm = 1000000,
                       .width_mm = 100,
                       .height_mm = 500};
    WbRect panel = {3000, 1000, 1000, 1000};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        WbRoof roof = roof_with(&wall, 1, rows[i].front_deg);
        double month[12];
        shade(&roof, rows[i].latitude_deg, &panel, 1, month, NULL);
        for (int m = 0; m < 12; m++) {
            double expected = mean_share(&roof, rows[i].latitude_deg, &panel, m, wall_share);
            g_assert_cmpfloat_with_epsilon(month[m], expected, 0.0125);
        }
    }
    WbRoof north = roof_with(&wall, 1, 180);
    double month[12];
    shade(&north, 48, &panel, 1, month, NULL);
    g_assert_cmpfloat(month[11], >, month[5] + 0.3); /* long shadows in December */
}

/* From each of many points of the panel towards the sun: it passes the obstacle no higher than its
 * top. Small steps along the way, no hull. */
static double ray_share(const WbRoof *roof, const WbRect *panel, WbDirection sun)
{
    enum { POINTS = 25, STEPS = 150 };
    double front = roof->front_azimuth_deg * WB_RAD_PER_DEG;
    double right = sun.east * sin(front + WB_PI / 2) + sun.north * cos(front + WB_PI / 2);
    double back = sun.east * sin(front + WB_PI) + sun.north * cos(front + WB_PI);
    const WbObstacle *o = &roof->obstacles[0];
    double top = (double)(o->height_mm - roof->standoff_mm);
    int dark = 0;
    for (int k = 0; k < POINTS * POINTS; k++) {
        double x = (double)panel->x_mm + (k % POINTS + 0.5) / POINTS * (double)panel->length_mm;
        double y = (double)panel->y_mm + (k / POINTS + 0.5) / POINTS * (double)panel->width_mm;
        for (int step = 0; step <= STEPS; step++) {
            double t = top / sun.up * step / STEPS;
            double from_x = x + t * right - (double)o->x_mm;
            double from_y = y + t * back - (double)o->y_mm;
            double r = (double)o->length_mm / 2;
            bool in = o->round ? hypot(from_x - r, from_y - r) <= r
                               : from_x >= 0 && from_y >= 0 && from_x <= (double)o->length_mm &&
                                     from_y <= (double)o->width_mm;
            if (in) {
                dark++;
                break;
            }
        }
    }
    return (double)dark / (POINTS * POINTS);
}

static void test_box_and_mast_by_rays(void)
{
    static const WbObstacle obstacle[] = {
        {.name = "box",
         .x_mm = 1500,
         .y_mm = 800,
         .length_mm = 400,
         .width_mm = 300,
         .height_mm = 450},
        {.name = "drum",
         .x_mm = 1500,
         .y_mm = 700,
         .length_mm = 500,
         .width_mm = 500,
         .height_mm = 700,
         .round = true},
    };
    static const double front_deg[] = {0, 75, 180, 250};
    WbRect panel = {2050, 900, 1000, 600};
    for (gsize i = 0; i < G_N_ELEMENTS(obstacle); i++)
        for (gsize k = 0; k < G_N_ELEMENTS(front_deg); k++) {
            WbRoof roof = roof_with(&obstacle[i], 1, front_deg[k]);
            roof.standoff_mm = 50;
            double month[12];
            shade(&roof, 45, &panel, 1, month, NULL);
            for (int m = 5; m < 12; m += 6)
                g_assert_cmpfloat_with_epsilon(month[m],
                                               mean_share(&roof, 45, &panel, m, ray_share), 0.02);
        }
}

/* Front to the south: what the east takes in the morning, the west takes in the afternoon. */
static void test_morning_equals_evening(void)
{
    for (double latitude_deg = -50; latitude_deg <= 50; latitude_deg += 20) {
        WbObstacle left = {.name = "mast",
                           .x_mm = 1000,
                           .y_mm = 500,
                           .length_mm = 200,
                           .width_mm = 200,
                           .height_mm = 900,
                           .round = true};
        WbObstacle right = left;
        right.x_mm = ROOF_MM - left.x_mm - left.length_mm;
        WbRect panel = {2500, 300, 1000, 1700};
        double one[12], other[12];
        WbRoof roof = roof_with(&left, 1, 180);
        shade(&roof, latitude_deg, &panel, 1, one, NULL);
        roof.obstacles = &right;
        shade(&roof, latitude_deg, &panel, 1, other, NULL);
        double sum = 0;
        for (int m = 0; m < 12; m++) {
            g_assert_cmpfloat_with_epsilon(one[m], other[m], 1e-9);
            sum += one[m];
        }
        g_assert_cmpfloat(sum, >, 0);
    }
}

static void test_no_height_no_shade(void)
{
    WbObstacle none[] = {
        {.name = "flat", .x_mm = 0, .y_mm = 0, .length_mm = 900, .width_mm = 900},
        {.name = "low", .x_mm = 0, .y_mm = 900, .length_mm = 900, .width_mm = 900, .height_mm = 60},
        {.name = "way",
         .x_mm = 0,
         .y_mm = 0,
         .length_mm = 900,
         .width_mm = 900,
         .height_mm = 900,
         .kind = WB_OBSTACLE_WALKWAY},
        {.name = "tree",
         .x_mm = 0,
         .y_mm = 0,
         .length_mm = 900,
         .width_mm = 900,
         .height_mm = 900,
         .kind = WB_OBSTACLE_SHADE}};
    WbRoof roof = roof_with(none, 4, NAN);
    roof.standoff_mm = 60;
    WbRect layout[] = {{950, 0, 1000, 1700}, {2000, 0, 1000, 1700}};
    double month[12], by_panel[2];
    shade(&roof, 50, layout, 2, month, by_panel);
    for (int m = 0; m < 12; m++)
        g_assert_cmpfloat(month[m], ==, 0);
    g_assert_cmpfloat(by_panel[0] + by_panel[1], ==, 0);
    shade(&roof, 50, NULL, 0, month, NULL);
    g_assert_cmpfloat(month[0], ==, 0);
}

static void draw_obstacles(WbRandom *random, WbObstacle *obstacle, int n)
{
    for (int i = 0; i < n; i++) {
        int64_t size = 50 + (int64_t)wb_random_below(random, 600);
        obstacle[i] = (WbObstacle){.name = "o",
                                   .x_mm = (int64_t)wb_random_below(random, 5400),
                                   .y_mm = (int64_t)wb_random_below(random, 2400),
                                   .length_mm = size,
                                   .width_mm = size,
                                   .height_mm = (int64_t)wb_random_below(random, 900),
                                   .round = wb_random_below(random, 2) == 1};
    }
}

/* Taller, or one more, never takes less. */
static void test_taller_never_less(void)
{
    WbRandom random;
    wb_random_seed(&random, 5);
    WbRect layout[] = {{300, 200, 1700, 1000}, {2500, 1500, 1000, 1300}, {4200, 0, 1700, 1000}};
    for (int i = 0; i < 40; i++) {
        WbObstacle obstacle[3];
        draw_obstacles(&random, obstacle, 3);
        WbRoof roof = roof_with(obstacle, 2, i % 4 == 0 ? NAN : i * 9.0);
        double latitude_deg = 65 - 3 * i, low[12], high[12], low_panel[3], high_panel[3];
        shade(&roof, latitude_deg, layout, 3, low, low_panel);
        if (i % 2)
            roof.n_obstacles = 3;
        else
            obstacle[i % 2].height_mm += 300;
        shade(&roof, latitude_deg, layout, 3, high, high_panel);
        for (int m = 0; m < 12; m++)
            g_assert_cmpfloat(high[m], >=, low[m] - 1e-12);
        for (int k = 0; k < 3; k++)
            g_assert_cmpfloat(high_panel[k], >=, low_panel[k] - 1e-12);
    }
}

static void test_any_heading_is_the_mean(void)
{
    WbRandom random;
    wb_random_seed(&random, 6);
    WbObstacle obstacle[3];
    draw_obstacles(&random, obstacle, 3);
    WbRect layout[] = {{300, 200, 1700, 1000}, {2500, 1500, 1000, 1300}};
    WbRoof roof = roof_with(obstacle, 3, NAN);
    double any[12], by_panel[2], sum[12] = {0}, panel_sum[2] = {0};
    shade(&roof, 52, layout, 2, any, by_panel);
    for (int i = 0; i < 16; i++) {
        double month[12], panel[2];
        roof.front_azimuth_deg = i * 22.5;
        shade(&roof, 52, layout, 2, month, panel);
        for (int m = 0; m < 12; m++)
            sum[m] += month[m] / 16;
        panel_sum[0] += panel[0] / 16;
        panel_sum[1] += panel[1] / 16;
    }
    for (int m = 0; m < 12; m++)
        g_assert_cmpfloat_with_epsilon(any[m], sum[m], 1e-12);
    g_assert_cmpfloat_with_epsilon(by_panel[0], panel_sum[0], 1e-12);
    g_assert_cmpfloat_with_epsilon(by_panel[1], panel_sum[1], 1e-12);
    g_assert_cmpfloat(any[0], >, 0);
}

static void test_bad_input_and_stop(void)
{
    WbRoof roof = roof_with(NULL, 0, NAN);
    WbRect panel = {0, 0, 1000, 1000};
    WbSite site = site_at(91);
    double month[12] = {7};
    g_assert_cmpint(wb_roof_shade(&roof, &site, &panel, 1, NULL, month, NULL), ==, WB_BAD_INPUT);
    site = site_at(40);
    site.place.ghi_kwh_m2_day[3] = -1;
    g_assert_cmpint(wb_roof_shade(&roof, &site, &panel, 1, NULL, month, NULL), ==, WB_BAD_INPUT);
    site = site_at(40);
    roof.length_mm = 0;
    g_assert_cmpint(wb_roof_shade(&roof, &site, &panel, 1, NULL, month, NULL), ==, WB_BAD_INPUT);
    roof.length_mm = 6000;
    WbControl control;
    wb_control_init(&control);
    wb_control_stop(&control);
    g_assert_cmpint(wb_roof_shade(&roof, &site, &panel, 1, &control, month, NULL), ==, WB_STOPPED);
    g_assert_cmpfloat(month[0], ==, 7);
}

/* Polar night has no direct light: 0, not NaN. */
static void test_polar_night(void)
{
    WbObstacle mast = {
        .name = "mast", .x_mm = 0, .y_mm = 0, .length_mm = 300, .width_mm = 300, .height_mm = 2000};
    WbRoof roof = roof_with(&mast, 1, NAN);
    WbRect panel = {400, 0, 1000, 1000};
    double month[12];
    shade(&roof, 85, &panel, 1, month, NULL);
    g_assert_cmpfloat(month[0], ==, 0);
    g_assert_cmpfloat(month[5], >, 0);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/roof-shade/wall-by-hand", test_wall_by_hand);
    g_test_add_func("/roof-shade/box-and-mast-by-rays", test_box_and_mast_by_rays);
    g_test_add_func("/roof-shade/morning-equals-evening", test_morning_equals_evening);
    g_test_add_func("/roof-shade/no-height-no-shade", test_no_height_no_shade);
    g_test_add_func("/roof-shade/taller-never-less", test_taller_never_less);
    g_test_add_func("/roof-shade/any-heading-is-the-mean", test_any_heading_is_the_mean);
    g_test_add_func("/roof-shade/bad-input-and-stop", test_bad_input_and_stop);
    g_test_add_func("/roof-shade/polar-night", test_polar_night);
    return g_test_run();
}
