/* Pallet loading: a CSV whose columns L, W, l, w ask how many l x w lie on L x W, turned by 0 or 90
 * degrees; data/FORMATS.md. */
#include "brief_read.h"
#include "roof_instances_gather.h"
#include "store_fail.h"
#include <string.h>

enum { N_COLUMNS = 4, MOST_COLUMNS = 100 };

static const WbFigure columns[N_COLUMNS] = {
    {"L", 1, WB_MOST_MM, "mm"},
    {"W", 1, WB_MOST_MM, "mm"},
    {"l", 1, WB_MOST_MM, "mm"},
    {"w", 1, WB_MOST_MM, "mm"},
};

typedef struct {
    int place[N_COLUMNS]; /* cell of the row; -1: not there */
    gsize n_cells;
} Header;

/* The case tells the pallet from what lies on it. */
static gboolean is_column(WbCell cell, const WbFigure *figure)
{
    return cell.n == strlen(figure->column) && memcmp(cell.text, figure->column, cell.n) == 0;
}

static gboolean name_column(const WbHoursText *text, WbCell cell, int place, Header *header,
                            WbRoofInstances *to, GError **error)
{
    for (int c = 0; c < N_COLUMNS; c++) {
        if (!is_column(cell, &columns[c]))
            continue;
        if (header->place[c] >= 0)
            return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                                 "%s, line %d: the column %s is there twice.", text->name,
                                 text->line, columns[c].column);
        header->place[c] = place;
        return TRUE;
    }
    g_ptr_array_add(to->not_read, wb_cell_show(cell));
    return TRUE;
}

static gboolean read_header(const WbHoursText *text, WbCell line, Header *header,
                            WbRoofInstances *to, GError **error)
{
    WbCell cells[MOST_COLUMNS];
    *header = (Header){{-1, -1, -1, -1}, wb_cells(line, cells, MOST_COLUMNS)};
    if (header->n_cells > MOST_COLUMNS)
        return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                             "%s, line %d names %zu columns; 4 to %d are accepted, L, W, l and w "
                             "among them.",
                             text->name, text->line, header->n_cells, MOST_COLUMNS);
    for (gsize i = 0; i < header->n_cells; i++)
        if (!name_column(text, cells[i], (int)i, header, to, error))
            return FALSE;
    for (int c = 0; c < N_COLUMNS; c++)
        if (header->place[c] < 0)
            return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                                 "%s, line %d: the column %s is missing; the line of column names "
                                 "needs L, W, l and w with commas between, as they are written "
                                 "here.",
                                 text->name, text->line, columns[c].column);
    return TRUE;
}

static gboolean read_row(const WbHoursText *text, WbCell line, const Header *header,
                         WbRoofInstances *to, GError **error)
{
    WbCell cells[MOST_COLUMNS];
    int mm[N_COLUMNS];
    gsize n = wb_cells(line, cells, MOST_COLUMNS);
    if (n != header->n_cells)
        return wb_store_fail(error, WB_STORE_ERROR_FORMAT,
                             "%s, line %d has %zu cells; the line of column names has %zu (cells "
                             "are separated by commas).",
                             text->name, text->line, n, header->n_cells);
    for (int c = 0; c < N_COLUMNS; c++)
        if (!wb_cell_whole(text, &columns[c], cells[header->place[c]], &mm[c], error))
            return FALSE;
    char *name = g_strdup_printf("%dx%d/%dx%d", mm[0], mm[1], mm[2], mm[3]);
    WbRoofInstance *instance = wb_instances_add(to, text, name, error);
    if (!instance)
        return FALSE;
    instance->roof.length_mm = mm[0];
    instance->roof.width_mm = mm[1];
    instance->most = true;
    instance->items = g_new0(WbMixItem, 1);
    instance->items[instance->n_items++] = (WbMixItem){
        .length_mm = mm[2], .width_mm = mm[3], .count = WB_ROOF_INSTANCE_COUNT, .turns = true};
    return TRUE;
}

gboolean wb_instances_read_pallets(WbHoursText *text, WbRoofInstances *to, GError **error)
{
    Header header;
    WbCell line;
    if (wb_instances_next(text, &line) && !read_header(text, line, &header, to, error))
        return FALSE;
    while (wb_instances_next(text, &line))
        if (!read_row(text, line, &header, to, error))
            return FALSE;
    return TRUE;
}
