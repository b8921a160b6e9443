#include "hours_gather.h"
#include "part.h"
#include "store_fail.h"
#include <math.h>

/* Radiation is only bounded so far that a wrong unit can still be named; hours_units.c decides. */
const WbFigure wb_hours_global = {"global_w_m2", 0, INFINITY, "W/m2"};
const WbFigure wb_hours_diffuse = {"diffuse_w_m2", 0, INFINITY, "W/m2"};
const WbFigure wb_hours_air = {"air_c", -90, 60, "C"};

#define LEAP_FROM_DAY 59 /* 29 February comes before day 59 of the year, 1 March */

void wb_hours_gather_init(WbHoursGather *gather)
{
    *gather = (WbHoursGather){
        .global_w_m2 = g_array_new(FALSE, FALSE, sizeof(double)),
        .diffuse_w_m2 = g_array_new(FALSE, FALSE, sizeof(double)),
        .air_c = g_array_new(FALSE, FALSE, sizeof(double)),
        .line = g_array_new(FALSE, FALSE, sizeof(int)),
        .utc_offset_h = WB_MISSING,
        .latitude_deg = WB_MISSING,
        .longitude_deg = WB_MISSING,
    };
}

void wb_hours_gather_clear(WbHoursGather *gather)
{
    g_clear_pointer(&gather->global_w_m2, g_array_unref);
    g_clear_pointer(&gather->diffuse_w_m2, g_array_unref);
    g_clear_pointer(&gather->air_c, g_array_unref);
    g_clear_pointer(&gather->line, g_array_unref);
}

/* (transfer full) */
static char *date_text(WbHoursDate date)
{
    static const char *const month[WB_MONTHS] = {"January",   "February", "March",    "April",
                                                 "May",       "June",     "July",     "August",
                                                 "September", "October",  "November", "December"};
    return g_strdup_printf("%d %s %02d:00", date.day, month[date.month - 1], date.hour);
}

static WbHoursDate date_of_hour(int hour_of_year)
{
    int day = hour_of_year / WB_HOURS, month = wb_month_of_day(day);
    return (WbHoursDate){month + 1, day - wb_first_day_of_month(month) + 1,
                         hour_of_year % WB_HOURS};
}

static gboolean same_date(WbHoursDate a, WbHoursDate b)
{
    return a.month == b.month && a.day == b.day && a.hour == b.hour;
}

gboolean wb_hours_gather_date(WbHoursGather *gather, const WbHoursText *text, WbHoursDate date,
                              gboolean *leave_out, GError **error)
{
    gather->dated = TRUE;
    int hour_of_year = (int)(gather->line->len % WB_YEAR_HOURS);
    gboolean before_march = hour_of_year == LEAP_FROM_DAY * WB_HOURS;
    WbHoursDate next = date_of_hour(hour_of_year);
    if (before_march && gather->leap_hours > 0 && gather->leap_hours < WB_HOURS)
        next = (WbHoursDate){2, 29, gather->leap_hours};
    *leave_out = before_march && gather->leap_hours < WB_HOURS && date.month == 2 &&
                 date.day == 29 && date.hour == gather->leap_hours;
    if (!*leave_out && !same_date(date, next)) {
        g_autofree char *found = date_text(date), *wanted = date_text(next);
        return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                             "%s, line %d: the hour from %s stands where the hour from %s was "
                             "expected; rows run from 1 January 00:00 hour by hour, none missing "
                             "and none twice.",
                             text->name, text->line, found, wanted);
    }
    if (*leave_out && ++gather->leap_hours == WB_HOURS)
        gather->n_leap_days++;
    if (!*leave_out)
        gather->leap_hours = 0;
    return TRUE;
}

void wb_hours_gather_row(WbHoursGather *gather, int line, double global_w_m2, double diffuse_w_m2,
                         double air_c)
{
    g_array_append_val(gather->global_w_m2, global_w_m2);
    g_array_append_val(gather->diffuse_w_m2, diffuse_w_m2);
    g_array_append_val(gather->air_c, air_c);
    g_array_append_val(gather->line, line);
    gather->n_no_diffuse += isnan(diffuse_w_m2) ? 1 : 0;
    gather->n_no_air += isnan(air_c) ? 1 : 0;
}

gboolean wb_hours_gather_has_room(const WbHoursGather *gather, const WbHoursText *text,
                                  GError **error)
{
    /* Leap years without dates are counted at the end. */
    if (gather->line->len < WB_MOST_WEATHER_YEARS * (WB_YEAR_HOURS + WB_HOURS))
        return TRUE;
    return wb_store_fail(
        error, WB_STORE_ERROR_VALUE,
        "%s, line %d: the file goes on after %d years, the most that are accepted.", text->name,
        text->line, WB_MOST_WEATHER_YEARS);
}

static gboolean refuse_unfinished_year(const WbHoursGather *gather, const WbHoursText *text,
                                       GError **error)
{
    WbHoursDate date = date_of_hour((int)(gather->line->len % WB_YEAR_HOURS));
    if (gather->leap_hours > 0 && gather->leap_hours < WB_HOURS)
        date = (WbHoursDate){2, 29, gather->leap_hours};
    g_autofree char *missing = date_text(date);
    return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                         "%s ends at line %d, before the hour from %s: %u rows are no whole years "
                         "(8760 rows a year from 1 January to 31 December).",
                         text->name, text->line, missing, gather->line->len);
}

static gboolean refuse_count(const WbHoursGather *gather, const WbHoursText *text, GError **error)
{
    guint n = gather->line->len, years = n / WB_YEAR_HOURS, over = n % WB_YEAR_HOURS;
    if (over % WB_HOURS == 0 && over / WB_HOURS <= years && years > 0)
        return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                             "%s has %u rows, as years with 29 February have, but no dates to find "
                             "that day by: leave its 24 rows out (8760 rows a year), or add a "
                             "column time (such as 2024-02-29 13:00).",
                             text->name, n);
    return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                         "%s has %u rows of hours; 8760 or a whole multiple of it is accepted (the "
                         "hours of 365 days, from 1 January 00:00 on).",
                         text->name, n);
}

gboolean wb_hours_gather_end(const WbHoursGather *gather, const WbHoursText *text, GError **error)
{
    guint n = gather->line->len;
    gboolean half_leap = gather->leap_hours > 0;
    if (n > 0 && gather->dated && (n % WB_YEAR_HOURS != 0 || half_leap))
        return refuse_unfinished_year(gather, text, error);
    if (n == 0 || n % WB_YEAR_HOURS != 0)
        return refuse_count(gather, text, error);
    if (n / WB_YEAR_HOURS > WB_MOST_WEATHER_YEARS)
        return wb_store_fail(error, WB_STORE_ERROR_VALUE, "%s has %u years; 1 to %d are accepted.",
                             text->name, n / WB_YEAR_HOURS, WB_MOST_WEATHER_YEARS);
    return wb_hours_check_units(gather, text, error);
}
