#include "brief_read.h"
#include "text_rules.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MOST_LOADS 1000

static const char *const supplies[] = {"dc", "ac", NULL};
/* In the order of WbDayPart. */
static const char *const day_parts[] = {"all-day", "daylight", "evening", "night", NULL};

/* "HH:MM" as hours. */
static double read_time(const WbJson *at)
{
    const char *text = cJSON_IsString(at->item) ? at->item->valuestring : "";
    if (strlen(text) == 5 && g_ascii_isdigit(text[0]) && g_ascii_isdigit(text[1]) &&
        text[2] == ':' && g_ascii_isdigit(text[3]) && g_ascii_isdigit(text[4])) {
        int hours = atoi(text), minutes = atoi(text + 3);
        if (hours < 24 && minutes < 60)
            return hours + minutes / 60.0;
    }
    wb_json_refuse(at, "a time of day from \"00:00\" to \"23:59\"");
    return 0;
}

static void read_from_to(const WbJson *when, WbLoad *load)
{
    WbJson from = wb_json_member(when, "from"), to = wb_json_member(when, "to");
    load->day_part = WB_DAY_FROM_TO;
    load->from_h = read_time(&from);
    load->to_h = read_time(&to);
    if (load->from_h == load->to_h)
        wb_json_refuse(&to, "another time than the one it starts at");
}

static void read_when(const WbJson *item, WbLoad *load)
{
    WbJson when = wb_json_member(item, "when");
    if (cJSON_IsObject(when.item))
        read_from_to(&when, load);
    else if (!wb_json_given(&when) || cJSON_IsString(when.item))
        load->day_part = wb_json_word_or(&when, day_parts, WB_DAY_ALL);
    else
        wb_json_refuse(&when, "a part of the day (\"all-day\", \"daylight\", \"evening\" or "
                              "\"night\") or an object with \"from\" and \"to\"");
}

/* Hours of the part of the day; daylight changes with the month and is not checked. */
static double window_hours(const WbLoad *load)
{
    if (load->day_part == WB_DAY_EVENING)
        return 6;
    if (load->day_part == WB_DAY_NIGHT)
        return 8;
    if (load->day_part != WB_DAY_FROM_TO)
        return 24;
    double hours = load->to_h - load->from_h;
    return hours < 0 ? hours + 24 : hours;
}

static void read_hours(const WbJson *item, WbLoad *load)
{
    WbJson hours = wb_json_member(item, "hours_per_day");
    load->hours_day = wb_json_number(&hours, 0, 24);
    read_when(item, load);
    double window_h = window_hours(load);
    if (load->hours_day > window_h + 1e-9) {
        g_autofree char *most = wb_json_number_text(round(window_h * 100) / 100);
        wb_json_refuse(&hours, "at most the %s hours of its part of the day", most);
    }
}

/* Watts; *made_for_v gets the volts, NaN where they are not given. */
static double read_power(const WbJson *item, double *made_for_v)
{
    WbJson watts = wb_json_member(item, "watts");
    WbJson volts = wb_json_member(item, "volts"), amps = wb_json_member(item, "amps");
    bool by_current = wb_json_given(&volts) || wb_json_given(&amps);
    if (!by_current && !wb_json_given(&watts))
        wb_json_refuse(&watts, "a number of watts, unless volts and amps are given");
    if (by_current && wb_json_given(&watts))
        wb_json_complain(item, WB_STORE_ERROR_VALUE,
                         "has watts beside volts or amps; either watts or both of the others are "
                         "accepted");
    *made_for_v = by_current ? wb_json_number(&volts, 0, 1000) : NAN;
    if (by_current)
        return *made_for_v * wb_json_number(&amps, 0, 1000);
    return wb_json_number(&watts, 0, 1000000);
}

static void read_start(const WbJson *item, WbLoad *load)
{
    WbJson surge = wb_json_member(item, "surge_factor");
    WbJson together = wb_json_member(item, "runs_together");
    WbJson drop = wb_json_member(item, "drop_percent");
    WbJson sine = wb_json_member(item, "needs_pure_sine");
    load->surge_factor = wb_json_number_or(&surge, 1, 100, 1);
    load->together = wb_json_flag_or(&together, true);
    load->drop_pct = (int)wb_json_integer_or(&drop, 3, 10, 3);
    if (load->drop_pct != 3 && load->drop_pct != 10)
        wb_json_refuse(&drop, "3 or 10");
    load->length_m = wb_read_length_m(item, "length_m", NAN);
    load->needs_pure_sine = wb_json_flag_or(&sine, false);
}

static void read_load(const WbJson *item, WbLoad *load)
{
    if (!wb_json_object(item))
        return;
    WbJson name = wb_json_member(item, "name"), count = wb_json_member(item, "count");
    WbJson supply = wb_json_member(item, "supply"), duty = wb_json_member(item, "duty");
    WbJson months = wb_json_member(item, "months"), days = wb_json_member(item, "days_per_week");
    load->name = wb_json_text(&name, WB_NAME_MOST);
    load->power_w = read_power(item, &load->volts);
    load->count = (int)wb_json_integer_or(&count, 1, 1000, 1);
    load->ac = wb_json_word(&supply, supplies) == 1;
    read_hours(item, load);
    load->duty = wb_json_number_or(&duty, 0, 1, 1);
    load->months = wb_read_months(&months, 0);
    load->days_week = wb_json_number_or(&days, 0, 7, 7);
    read_start(item, load);
}

void wb_read_loads(const WbJson *root, WbBrief *brief)
{
    WbJson loads = wb_json_member(root, "loads");
    int n = wb_json_list(&loads, 0, MOST_LOADS);
    if (n == 0)
        return;
    WbLoad *list = g_new0(WbLoad, (gsize)n);
    brief->loads = list;
    brief->n_loads = (size_t)n;
    for (WbJson item = wb_json_first(&loads); item.item; item = wb_json_next(&item))
        read_load(&item, &list[item.index]);
}
