/* places: the built-in ones. */
#include "cli_job.h"
#include "cli_json.h"
#include "cli_table.h"
#include "figures_text.h"
#include "places.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* Is `wanted` in the place's name, country or id, whatever its case and accents? A text without
 * Latin letters or digits is looked for as it stands. */
static gboolean holds(const WbPlace *place, const char *text, const char *wanted)
{
    if (*wanted == '\0')
        return strstr(place->name, text) != NULL || strstr(place->country, text) != NULL;
    g_autofree char *country = wb_places_fold(place->country);
    return strstr(place->id, wanted) != NULL || strstr(country, wanted) != NULL;
}

/* All of them for NULL. */
static GPtrArray *find_places(const char *text)
{
    size_t n;
    const WbPlace *places = wb_places(&n);
    g_autofree char *wanted = wb_places_fold(text != NULL ? text : "");
    GPtrArray *found = g_ptr_array_new();
    for (size_t i = 0; i < n; i++)
        if (text == NULL || holds(&places[i], text, wanted))
            g_ptr_array_add(found, (gpointer)&places[i]);
    return found;
}

static double mean(const double value[WB_MONTHS])
{
    double sum = 0;
    for (int m = 0; m < WB_MONTHS; m++)
        sum += value[m];
    return sum / WB_MONTHS;
}

static double least(const double value[WB_MONTHS])
{
    double lowest = value[0];
    for (int m = 1; m < WB_MONTHS; m++)
        lowest = MIN(lowest, value[m]);
    return lowest;
}

static void twelve_json(WbJsonOut *json, const char *key, const double value[WB_MONTHS])
{
    wb_out_array(json, key);
    for (int m = 0; m < WB_MONTHS; m++)
        wb_out_number(json, NULL, value[m]);
    wb_out_end_array(json);
}

static void place_json(WbJsonOut *json, const WbPlace *place)
{
    wb_out_object(json, NULL);
    wb_out_text(json, "id", place->id);
    wb_out_text(json, "name", place->name);
    wb_out_text(json, "country", place->country);
    wb_out_number(json, "latitude_deg", place->latitude_deg);
    wb_out_number(json, "longitude_deg", place->longitude_deg);
    wb_out_number(json, "altitude_m", place->altitude_m);
    twelve_json(json, "ghi_kwh_m2_day", place->ghi_kwh_m2_day);
    twelve_json(json, "air_mean_c", place->air_mean_c);
    twelve_json(json, "air_max_c", place->air_max_c);
    twelve_json(json, "air_min_c", place->air_min_c);
    wb_out_number(json, "design_cold_c", wb_design_cold_c(place));
    wb_out_text(json, "kind", place->kind);
    wb_out_text(json, "source", place->source);
    wb_out_text(json, "years", place->years);
    wb_out_end_object(json);
}

static char *places_json(const GPtrArray *places)
{
    WbJsonOut json;
    wb_out_start(&json);
    wb_out_object(&json, NULL);
    wb_out_format(&json, "wattberth-places");
    wb_out_array(&json, "places");
    for (guint i = 0; i < places->len; i++)
        place_json(&json, places->pdata[i]);
    wb_out_end_array(&json);
    wb_out_end_object(&json);
    return wb_out_finish(&json);
}

static char *places_text(const GPtrArray *places)
{
    g_autoptr(WbTable) table =
        wb_table_new(_("Id|>North °|>East °|>kWh/m2 a day|>Darkest month|>Cold °C"));
    for (guint i = 0; i < places->len; i++) {
        const WbPlace *place = places->pdata[i];
        wb_table_cell(table, g_strdup(place->id));
        wb_table_cell(table, wb_text_number(place->latitude_deg, 2));
        wb_table_cell(table, wb_text_number(place->longitude_deg, 2));
        wb_table_cell(table, wb_text_number(mean(place->ghi_kwh_m2_day), 2));
        wb_table_cell(table, wb_text_number(least(place->ghi_kwh_m2_day), 2));
        wb_table_cell(table, wb_text_number(wb_design_cold_c(place), 1));
    }
    GString *out = g_string_new(NULL);
    wb_table_append(table, out);
    g_string_append_c(out, '\n');
    wb_cli_wrap(
        out, "",
        _("kWh/m2: sun on level ground, mean day of the year and of the darkest month. Cold: "
          "the lowest air temperature a system is designed for here."));
    return g_string_free(out, FALSE);
}

int wb_cli_run_places(const WbArguments *arguments)
{
    const char *text = arguments->n_rest > 0 ? arguments->rest[0] : NULL;
    g_autoptr(GPtrArray) places = find_places(text);
    if (arguments->json)
        return wb_cli_print(places_json(places));
    if (places->len == 0)
        return wb_cli_print(
            g_strdup_printf(_("No built-in place holds “%s”; a brief may carry twelve figures of "
                              "its own.\n"),
                            text));
    return wb_cli_print(places_text(places));
}
