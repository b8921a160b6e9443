/* EPW: eight lines of head, then a row an hour (EnergyPlus Auxiliary Programs, weather file data
 * dictionary). Fields count from 1: 2 month, 3 day, 4 hour 1..24 (the hour that ends then), 7 dry
 * bulb C, 14 global horizontal and 16 diffuse horizontal Wh/m2 of the hour; 9999 and 99.9: missing.
 */
#include "hours_gather.h"
#include "part.h"
#include "store_fail.h"
#include <math.h>

enum {
    MONTH = 1,
    DAY = 2,
    HOUR = 3,
    AIR = 6,
    GLOBAL = 13,
    DIFFUSE = 15,
    FEWEST_FIELDS = 32,
    MOST_FIELDS = 35,
};

#define HEAD_LINES 8
#define MISSING_RADIATION 9999
#define MISSING_AIR 99.9

static gboolean read_location(WbHoursText *text, WbHoursGather *gather, GError **error)
{
    static const WbFigure latitude = {"the latitude (field 7)", -90, 90, "degrees"};
    static const WbFigure longitude = {"the longitude (field 8)", -180, 180, "degrees"};
    static const WbFigure zone = {"the time zone (field 9)", -14, 14, "h"};
    WbCell line, cells[10];
    if (!wb_hours_text_next(text, &line) || wb_cells(line, cells, 10) < 10)
        return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                             "%s, line 1: LOCATION is cut short; an EPW names place, latitude, "
                             "longitude, time zone and elevation there.",
                             text->name);
    return wb_cell_figure(text, &latitude, cells[6], &gather->latitude_deg, error) &&
           wb_cell_figure(text, &longitude, cells[7], &gather->longitude_deg, error) &&
           wb_cell_figure(text, &zone, cells[8], &gather->utc_offset_h, error);
}

static gboolean read_periods(const WbHoursText *text, WbCell line, GError **error)
{
    static const WbFigure periods = {"the number of data periods", 1, 1, ""};
    static const WbFigure records = {"the number of records an hour", 1, 1, ""};
    WbCell cells[3] = {0};
    int one;
    wb_cells(line, cells, G_N_ELEMENTS(cells));
    return wb_cell_whole(text, &periods, cells[1], &one, error) &&
           wb_cell_whole(text, &records, cells[2], &one, error);
}

static gboolean read_head(WbHoursText *text, WbHoursGather *gather, GError **error)
{
    WbCell line = {0};
    if (!read_location(text, gather, error))
        return FALSE;
    while (text->line < HEAD_LINES && wb_hours_text_next(text, &line))
        if (wb_cell_begins(line, "DATA PERIODS,"))
            return read_periods(text, line, error);
    return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                         "%s: the line DATA PERIODS is missing; an EPW has it as line %d.",
                         text->name, HEAD_LINES);
}

static gboolean read_date(const WbHoursText *text, const WbCell *cells, WbHoursDate *date,
                          GError **error)
{
    static const WbFigure month = {"the month (field 2)", 1, 12, ""};
    static const WbFigure day = {"the day (field 3)", 1, 31, ""};
    static const WbFigure hour = {"the hour (field 4)", 1, 24, ""};
    int ends;
    if (!wb_cell_whole(text, &month, cells[MONTH], &date->month, error) ||
        !wb_cell_whole(text, &day, cells[DAY], &date->day, error) ||
        !wb_cell_whole(text, &hour, cells[HOUR], &ends, error))
        return FALSE;
    date->hour = ends - 1;
    return TRUE;
}

static gboolean read_figures(const WbHoursText *text, const WbCell *cells, WbHoursGather *gather,
                             GError **error)
{
    static const WbFigure air = {"the dry bulb temperature (field 7)", -90, 99.9,
                                 "C (60 C at most, 99.9: missing)"};
    static const WbFigure global = {"the global horizontal radiation (field 14)", 0, INFINITY,
                                    "Wh/m2"};
    static const WbFigure diffuse = {"the diffuse horizontal radiation (field 16)", 0, INFINITY,
                                     "Wh/m2"};
    double air_c, global_w_m2, diffuse_w_m2;
    if (!wb_cell_figure(text, &air, cells[AIR], &air_c, error) ||
        !wb_cell_figure(text, &global, cells[GLOBAL], &global_w_m2, error) ||
        !wb_cell_figure(text, &diffuse, cells[DIFFUSE], &diffuse_w_m2, error))
        return FALSE;
    if (global_w_m2 == MISSING_RADIATION)
        return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                             "%s, line %d: %s is 9999, which means missing; every hour needs it.",
                             text->name, text->line, global.column);
    if (air_c == MISSING_AIR)
        air_c = WB_MISSING;
    else if (!wb_cell_figure(text, &wb_hours_air, cells[AIR], &air_c, error))
        return FALSE;
    wb_hours_gather_row(gather, text->line, global_w_m2,
                        diffuse_w_m2 == MISSING_RADIATION ? WB_MISSING : diffuse_w_m2, air_c);
    return TRUE;
}

static gboolean read_row(const WbHoursText *text, WbCell line, WbHoursGather *gather,
                         GError **error)
{
    WbCell cells[MOST_FIELDS];
    gsize n = wb_cells(line, cells, MOST_FIELDS);
    if (n < FEWEST_FIELDS || n > MOST_FIELDS)
        return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                             "%s, line %d has %zu fields; a row of an EPW has %d to %d.",
                             text->name, text->line, n, FEWEST_FIELDS, MOST_FIELDS);
    WbHoursDate date;
    gboolean leave_out;
    if (!read_date(text, cells, &date, error) ||
        !wb_hours_gather_date(gather, text, date, &leave_out, error))
        return FALSE;
    return leave_out || read_figures(text, cells, gather, error);
}

gboolean wb_hours_read_epw(WbHoursText *text, WbHoursGather *gather, GError **error)
{
    WbCell line;
    if (!read_head(text, gather, error))
        return FALSE;
    while (wb_hours_text_next(text, &line)) {
        if (line.n == 0 && text->at == text->end)
            break;
        if (!wb_hours_gather_has_room(gather, text, error) || !read_row(text, line, gather, error))
            return FALSE;
    }
    return TRUE;
}
