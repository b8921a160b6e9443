#include "brief_read.h"
#include "places.h"
#include "text_rules.h"
#include "weather.h"
#include <math.h>
#include <string.h>

#define MOST_PATH 4000

static const char *const mountings[] = {"raised", "close", "bonded", NULL};
static const char *const bank_places[] = {"inside", "outside", "own", NULL};

static void read_twelve(const WbJson *object, const char *key, double least, double most,
                        double *twelve)
{
    WbJson list = wb_json_member(object, key);
    if (wb_json_list(&list, WB_MONTHS, WB_MONTHS) == 0)
        return;
    for (WbJson item = wb_json_first(&list); item.item; item = wb_json_next(&item))
        twelve[item.index] = wb_json_number(&item, least, most);
}

static const char *read_name(const WbJson *object, const char *key, const char *fallback)
{
    WbJson text = wb_json_member(object, key);
    return fallback ? wb_json_text_or(&text, WB_NAME_MOST, fallback)
                    : wb_json_text(&text, WB_NAME_MOST);
}

static void check_temperature_order(const WbJson *object, const WbPlace *place)
{
    WbJson list = wb_json_member(object, "air_min_c");
    for (int month = 0; month < WB_MONTHS; month++)
        if (place->air_min_c[month] > place->air_max_c[month])
            wb_json_complain(&list, WB_STORE_ERROR_VALUE,
                             "is above air_max_c in month %d; the lowest must not exceed the "
                             "highest",
                             month + 1);
}

static void read_own_place(const WbJson *at, WbPlace *place)
{
    WbJson latitude = wb_json_member(at, "latitude_deg");
    WbJson longitude = wb_json_member(at, "longitude_deg");
    WbJson altitude = wb_json_member(at, "altitude_m");
    place->id = "";
    place->name = read_name(at, "name", NULL);
    place->country = read_name(at, "country", "");
    place->latitude_deg = wb_json_number(&latitude, -90, 90);
    place->longitude_deg = wb_json_number(&longitude, -180, 180);
    place->altitude_m = wb_json_number(&altitude, -500, 9000);
    read_twelve(at, "ghi_kwh_m2_day", 0, 15, place->ghi_kwh_m2_day);
    read_twelve(at, "air_mean_c", -90, 60, place->air_mean_c);
    read_twelve(at, "air_max_c", -90, 60, place->air_max_c);
    read_twelve(at, "air_min_c", -90, 60, place->air_min_c);
    place->kind = read_name(at, "kind", "own figures");
    place->source = read_name(at, "source", "");
    place->years = read_name(at, "years", "");
    check_temperature_order(at, place);
}

/* "the nearest are a and b", or an example. (transfer full) */
static char *near_text(const char *id)
{
    const WbPlace *near[3];
    size_t n = wb_places_near(id, near, G_N_ELEMENTS(near));
    if (n == 0)
        return g_strdup("such as \"bariloche-argentina\"");
    g_autoptr(GString) text = g_string_new(n == 1 ? "the nearest is" : "the nearest are");
    for (size_t i = 0; i < n; i++)
        g_string_append_printf(text, "%s \"%s\"",
                               i == 0       ? ""
                               : i + 1 == n ? " and"
                                            : ",",
                               near[i]->id);
    return g_string_free(g_steal_pointer(&text), FALSE);
}

static void read_place(const WbJson *site, WbPlace *place)
{
    WbJson at = wb_json_member(site, "place");
    if (cJSON_IsObject(at.item)) {
        read_own_place(&at, place);
        return;
    }
    const WbPlace *found = cJSON_IsString(at.item) ? wb_place_find(at.item->valuestring) : NULL;
    if (found) {
        *place = *found;
        return;
    }
    g_autofree char *near = near_text(cJSON_IsString(at.item) ? at.item->valuestring : "");
    wb_json_refuse(&at,
                   "the id of a built-in place (%s; \"wattberth places\" lists them all) or an "
                   "object with figures of your own",
                   near);
}

double wb_read_azimuth(const WbJson *object, const char *key, bool may_be_null)
{
    WbJson azimuth = wb_json_member(object, key);
    if (!wb_json_given(&azimuth) || (may_be_null && cJSON_IsNull(azimuth.item)))
        return NAN;
    if (cJSON_IsNumber(azimuth.item))
        return wb_json_number(&azimuth, 0, 360);
    if (!cJSON_IsString(azimuth.item) || strcmp(azimuth.item->valuestring, "any") != 0)
        wb_json_refuse(&azimuth, "a number from 0 to 360, or \"any\"");
    return NAN;
}

static void read_shading(const WbJson *site, WbSite *to)
{
    WbJson shading = wb_json_member(site, "shading_loss");
    if (cJSON_IsArray(shading.item)) {
        read_twelve(site, "shading_loss", 0, 1, to->shading_loss);
        return;
    }
    if (wb_json_given(&shading) && !cJSON_IsNumber(shading.item))
        wb_json_refuse(&shading, "a number from 0 to 1, or twelve of them");
    double share = wb_json_number_or(&shading, 0, 1, 0);
    for (int month = 0; month < WB_MONTHS; month++)
        to->shading_loss[month] = share;
}

static void read_panel_plane(const WbJson *site, WbSite *to)
{
    WbJson tilt = wb_json_member(site, "tilt_deg"), soiling = wb_json_member(site, "soiling_loss");
    WbJson albedo = wb_json_member(site, "ground_albedo");
    WbJson mounting = wb_json_member(site, "mounting");
    to->tilt_deg = wb_json_number_or(&tilt, 0, 90, 0);
    to->azimuth_deg = wb_read_azimuth(site, "azimuth_deg", false);
    read_shading(site, to);
    to->soiling_loss = wb_json_number_or(&soiling, 0, 1, 0.03);
    to->ground_albedo = wb_json_number_or(&albedo, 0, 1, 0.2);
    to->mounting = wb_json_word_or(&mounting, mountings, WB_MOUNT_RAISED);
}

static void read_bank_surroundings(const WbJson *site, WbSite *to)
{
    WbJson where = wb_json_member(site, "bank_place"), own = wb_json_member(site, "bank_own_c");
    WbJson inside = wb_json_member(site, "inside_c");
    WbJson sleeping = wb_json_member(site, "sleeping_space");
    to->bank_where = wb_json_word_or(&where, bank_places, WB_BANK_INSIDE);
    to->inside_c = wb_json_number_or(&inside, -60, 60, 15);
    to->bank_own_c = wb_json_number_or(&own, -60, 60, 15);
    to->sleeping_space = wb_json_flag_or(&sleeping, true);
}

/* Made weather needs years and a seed, whether or not a file stands in for it. */
static void read_weather(const WbJson *site, WbSite *to)
{
    WbJson weather = wb_json_member(site, "weather");
    to->weather_years = 10;
    to->weather_seed = 1;
    if (!wb_json_given(&weather) || !wb_json_object(&weather))
        return;
    WbJson years = wb_json_member(&weather, "years"), seed = wb_json_member(&weather, "seed");
    WbJson hours = wb_json_member(&weather, "hourly_file");
    to->weather_years = (int)wb_json_integer_or(&years, 1, WB_MOST_WEATHER_YEARS, 10);
    to->weather_seed = (uint64_t)wb_json_integer_or(&seed, 0, (int64_t)WB_JSON_NUMBER_MOST, 1);
    if (!wb_json_given(&hours) || cJSON_IsNull(hours.item))
        return;
    const char *path = cJSON_IsString(hours.item) ? hours.item->valuestring : "";
    if (*path == '\0' || g_utf8_strlen(path, -1) > MOST_PATH)
        wb_json_refuse(&hours,
                       "the path of a file of hourly weather, of 1 to %d characters, or null",
                       MOST_PATH);
}

void wb_read_site(const WbJson *root, WbBrief *brief)
{
    WbJson site = wb_json_member(root, "site");
    if (!wb_json_object(&site))
        return;
    WbSite *to = &brief->site;
    WbJson months = wb_json_member(&site, "months");
    WbJson cold = wb_json_member(&site, "design_cold_c");
    read_place(&site, &to->place);
    wb_json_list(&months, 1, WB_MONTHS);
    to->months = wb_read_months(&months, 1);
    read_panel_plane(&site, to);
    to->design_cold_c = wb_json_number_or_null(&cold, -90, 60, wb_design_cold_c(&to->place));
    read_bank_surroundings(&site, to);
    read_weather(&site, to);
}
