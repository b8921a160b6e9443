/* The plain CSV: comments, a line of column names, a row an hour; data/FORMATS.md. */
#include "hours_gather.h"
#include "part.h"
#include "store_fail.h"
#include "text_rules.h"
#include <string.h>

typedef enum { TIME, GLOBAL, DIFFUSE, AIR, N_COLUMNS } Column;

static const char *const column_name[N_COLUMNS] = {"time", "global_w_m2", "diffuse_w_m2", "air_c"};

typedef struct {
    int place[N_COLUMNS]; /* cell of the row, -1: not there */
    gsize n_cells;
} Header;

/* "# utc_offset_h: 1"; other comments are passed over. */
static gboolean read_comment(const WbHoursText *text, WbCell line, WbHoursGather *gather,
                             GError **error)
{
    static const char word[] = "utc_offset_h";
    static const WbFigure offset = {word, -14, 14, "h"};
    WbCell rest = {line.text + 1, line.n - 1};
    while (rest.n > 0 && *rest.text == ' ')
        rest = (WbCell){rest.text + 1, rest.n - 1};
    if (!wb_cell_begins(rest, word))
        return TRUE;
    rest = (WbCell){rest.text + strlen(word), rest.n - strlen(word)};
    while (rest.n > 0 && strchr(" :=", *rest.text) && *rest.text)
        rest = (WbCell){rest.text + 1, rest.n - 1};
    WbCell cell;
    wb_cells(rest, &cell, 1); /* spreadsheets leave commas behind */
    return wb_cell_figure(text, &offset, cell, &gather->utc_offset_h, error);
}

static gboolean name_column(const WbHoursText *text, Header *header, WbCell cell, int place,
                            GError **error)
{
    for (int c = 0; c < N_COLUMNS; c++) {
        if (!wb_cell_is(cell, column_name[c]))
            continue;
        if (header->place[c] >= 0)
            return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                                 "%s, line %d: the column %s is there twice.", text->name,
                                 text->line, column_name[c]);
        header->place[c] = place;
        return TRUE;
    }
    g_autofree char *shown = wb_cell_show(cell);
    return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                         "%s, line %d: \"%s\" is no column of an hourly file; time, global_w_m2, "
                         "diffuse_w_m2 and air_c are accepted, separated by commas.",
                         text->name, text->line, shown);
}

static gboolean read_header(const WbHoursText *text, WbCell line, Header *header, GError **error)
{
    WbCell cells[N_COLUMNS + 1];
    *header = (Header){.place = {-1, -1, -1, -1}};
    header->n_cells = wb_cells(line, cells, G_N_ELEMENTS(cells));
    for (gsize i = 0; i < MIN(header->n_cells, G_N_ELEMENTS(cells)); i++)
        if (!name_column(text, header, cells[i], (int)i, error))
            return FALSE;
    if (header->place[GLOBAL] >= 0)
        return TRUE;
    return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                         "%s, line %d: the column global_w_m2 is missing; the line of column names "
                         "needs it.",
                         text->name, text->line);
}

/* YYYY-MM-DD, then T or a space, then HH:00 or HH:00:00. */
static gboolean read_time(const WbHoursText *text, WbCell cell, WbHoursDate *date, GError **error)
{
    g_autofree char *time = g_strndup(cell.text, cell.n);
    g_autofree char *day = g_strndup(time, 10);
    const char *clock = strlen(time) > 11 ? time + 11 : "";
    gboolean right = cell.n == strlen(time) && wb_is_date(day) && *clock &&
                     (time[10] == 'T' || time[10] == ' ') && g_ascii_isdigit(clock[0]) &&
                     g_ascii_isdigit(clock[1]) &&
                     (strcmp(clock + 2, ":00") == 0 || strcmp(clock + 2, ":00:00") == 0);
    int hour = right ? (clock[0] - '0') * 10 + clock[1] - '0' : WB_HOURS;
    if (hour >= WB_HOURS) {
        g_autofree char *shown = wb_cell_show(cell);
        return wb_store_fail(error, WB_STORE_ERROR_VALUE,
                             "%s, line %d: time is \"%s\"; the begin of a full hour is accepted, "
                             "such as 2023-02-28 13:00 (hours 00 to 23).",
                             text->name, text->line, shown);
    }
    *date =
        (WbHoursDate){(day[5] - '0') * 10 + day[6] - '0', (day[8] - '0') * 10 + day[9] - '0', hour};
    return TRUE;
}

/* A cell that may be empty or absent. */
static gboolean read_optional(const WbHoursText *text, const WbFigure *figure, const WbCell *cells,
                              int place, double *value, GError **error)
{
    *value = WB_MISSING;
    if (place < 0 || cells[place].n == 0)
        return TRUE;
    return wb_cell_figure(text, figure, cells[place], value, error);
}

static gboolean read_row(const WbHoursText *text, const Header *header, WbCell line,
                         WbHoursGather *gather, GError **error)
{
    WbCell cells[N_COLUMNS];
    gsize n = wb_cells(line, cells, N_COLUMNS);
    if (n != header->n_cells)
        return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                             "%s, line %d has %zu cells; the line of column names has %zu (cells "
                             "are separated by commas, decimals by a point).",
                             text->name, text->line, n, header->n_cells);
    gboolean leave_out = FALSE;
    if (header->place[TIME] >= 0) {
        WbHoursDate date;
        if (!read_time(text, cells[header->place[TIME]], &date, error) ||
            !wb_hours_gather_date(gather, text, date, &leave_out, error))
            return FALSE;
    }
    double global_w_m2, diffuse_w_m2, air_c;
    if (!wb_cell_figure(text, &wb_hours_global, cells[header->place[GLOBAL]], &global_w_m2,
                        error) ||
        !read_optional(text, &wb_hours_diffuse, cells, header->place[DIFFUSE], &diffuse_w_m2,
                       error) ||
        !read_optional(text, &wb_hours_air, cells, header->place[AIR], &air_c, error))
        return FALSE;
    if (!leave_out)
        wb_hours_gather_row(gather, text->line, global_w_m2, diffuse_w_m2, air_c);
    return TRUE;
}

static gboolean only_empty_lines_follow(const WbHoursText *text)
{
    for (const char *c = text->at; c < text->end; c++)
        if (*c != '\n' && *c != '\r')
            return FALSE;
    return TRUE;
}

gboolean wb_hours_read_csv(WbHoursText *text, WbHoursGather *gather, GError **error)
{
    Header header = {0};
    WbCell line;
    while (wb_hours_text_next(text, &line)) {
        gboolean read;
        if (header.n_cells == 0 && line.n > 0 && *line.text == '#')
            read = read_comment(text, line, gather, error);
        else if (header.n_cells == 0)
            read = read_header(text, line, &header, error);
        else if (line.n == 0 && only_empty_lines_follow(text))
            break;
        else
            read = wb_hours_gather_has_room(gather, text, error) &&
                   read_row(text, &header, line, gather, error);
        if (!read)
            return FALSE;
    }
    if (header.n_cells > 0)
        return TRUE;
    return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                         "%s has no line of column names; an hourly file is an EPW or a CSV with "
                         "the column global_w_m2.",
                         text->name);
}
