/* A measured year of hours on five planes, against the range of six reference simulations. */
#include "hours_file.h"
#include "published.h"

#define ASHRAE "ASHRAE Standard 140-2020, Table B8-13"

typedef struct {
    WbHoursFile *file;
    WbSite site;
    WbWeather weather;
} Denver;

static void set_up(Denver *denver, gconstpointer data)
{
    g_autoptr(GError) error = NULL;
    const char *folder = g_getenv("WB_TEST_DATA"); /* set by tests/meson.build */
    g_assert_nonnull(folder);
    g_autofree char *path = g_build_filename(folder, "denver_hours.csv", NULL);
    denver->file = wb_hours_file_read(path, &error);
    g_assert_no_error(error);
    denver->site = (WbSite){
        .place = {.name = "Denver", .latitude_deg = 39.833, .longitude_deg = -104.65},
        .months = 0xfff,
        .ground_albedo = 0.2,
        .hours = wb_hours_file_hours(denver->file),
    };
    g_assert_true(wb_hours_file_check_place(denver->file, &denver->site.place, &error));
    g_assert_no_error(error);
    g_assert_cmpint(wb_weather_own(&denver->site.place, denver->site.hours, &denver->weather), ==,
                    WB_OK);
}

static void tear_down(Denver *denver, gconstpointer data)
{
    wb_weather_free(&denver->weather);
    wb_hours_file_unref(denver->file);
}

static double year_kwh_m2(const Denver *denver, double tilt_deg, double azimuth_deg)
{
    WbSite site = denver->site;
    site.tilt_deg = tilt_deg;
    site.azimuth_deg = azimuth_deg;
    WbPlaneHours plane;
    g_assert_cmpint(wb_plane_hours(&site, &denver->weather, &plane), ==, WB_OK);
    double sum = 0, months = 0;
    for (int i = 0; i < WB_YEAR_HOURS; i++)
        sum += plane.plane_w_m2[i] / 1000;
    for (int m = 0; m < WB_MONTHS; m++)
        months += plane.plane_kwh_m2_day[m] * wb_days_of_month(m);
    g_assert_cmpfloat_with_epsilon(months, sum, 1e-9 * sum);
    wb_plane_hours_free(&plane);
    return sum;
}

static void test_range(Denver *denver, gconstpointer data)
{
    static const struct {
        const char *name;
        double tilt_deg, azimuth_deg, least, most, slack;
    } rows[] = {
        {"horizontal", 0, 180, 1663, 1670, 0.005}, {"north", 90, 0, 399, 477, 0.02},
        {"east", 90, 90, 1017, 1068, 0.02},        {"south", 90, 180, 1291, 1387, 0.02},
        {"west", 90, 270, 903, 997, 0.02},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++) {
        double kwh_m2 = year_kwh_m2(denver, rows[i].tilt_deg, rows[i].azimuth_deg);
        double least = rows[i].least * (1 - rows[i].slack),
               most = rows[i].most * (1 + rows[i].slack);
        g_test_message("%s: %.1f kWh/m2 (%g..%g)", rows[i].name, kwh_m2, rows[i].least,
                       rows[i].most);
        published(ASHRAE, kwh_m2, (least + most) / 2, (most - least) / 2);
    }
}

/* Another program's Perez sky over the same file (an independent computation). */
static void test_slopes(Denver *denver, gconstpointer data)
{
    g_assert_cmpfloat_with_epsilon(year_kwh_m2(denver, 30, 180), 1987, 0.005 * 1987);
    g_assert_cmpfloat_with_epsilon(year_kwh_m2(denver, 30, 90), 1621, 0.005 * 1621);
    g_assert_cmpfloat_with_epsilon(year_kwh_m2(denver, 90, 0), 434, 0.01 * 434);
    g_assert_cmpfloat_with_epsilon(year_kwh_m2(denver, 90, 90), 1059, 0.005 * 1059);
    g_assert_cmpfloat_with_epsilon(year_kwh_m2(denver, 90, 180), 1368, 0.005 * 1368);
    g_assert_cmpfloat_with_epsilon(year_kwh_m2(denver, 90, 270), 967, 0.005 * 967);
}

/* ASHRAE 140, draft of the weather-driver cases, WD100: the sums of the file itself. */
static void test_horizontal(Denver *denver, gconstpointer data)
{
    double global = 0, diffuse = 0;
    for (int i = 0; i < WB_YEAR_HOURS; i++) {
        global += denver->weather.global_w_m2[i];
        diffuse += denver->weather.diffuse_w_m2[i];
    }
    published("ASHRAE 140 weather drivers (draft), WD100", global, 1670220, 0.5);
    published("ASHRAE 140 weather drivers (draft), WD100", diffuse, 556451, 0.5);
}

/* "Any" azimuth is the mean over sixteen; its own direction changes the year. */
static void test_any_azimuth(Denver *denver, gconstpointer data)
{
    double sum = 0;
    for (int i = 0; i < 16; i++)
        sum += year_kwh_m2(denver, 40, i * 22.5);
    double any = year_kwh_m2(denver, 40, NAN);
    g_assert_cmpfloat_with_epsilon(any, sum / 16, 1e-3 * any);
    g_assert_cmpfloat(year_kwh_m2(denver, 40, 180), >, any * 1.1);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add("/denver/range", Denver, NULL, set_up, test_range, tear_down);
    g_test_add("/denver/slopes", Denver, NULL, set_up, test_slopes, tear_down);
    g_test_add("/denver/horizontal", Denver, NULL, set_up, test_horizontal, tear_down);
    g_test_add("/denver/any-azimuth", Denver, NULL, set_up, test_any_azimuth, tear_down);
    g_test_add_func("/denver/published-count", published_count);
    return g_test_run();
}
