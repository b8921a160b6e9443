/* The table to drill by: where the sides of every panel and obstacle stand, from the roof's left
 * and front edge. */
#include "roof_sheet_private.h"

#include "figures_text.h"
#include <glib/gi18n-lib.h>

#define ROW (5.2 * WB_PAPER_PT)
#define HEAD (26 * WB_PAPER_PT)

int wb_roof_sheet_rows(const WbRoofSheet *sheet)
{
    return sheet->n + (int)sheet->roof.n_obstacles + (int)sheet->roof.n_corners +
           (sheet->roof.has_gland ? 1 : 0);
}

static char *number(int64_t mm)
{
    return wb_text_number((double)mm, 0);
}

static char *side(const WbRect *rect, WbSheetColumn column)
{
    switch (column) {
    case WB_SHEET_LEFT:
        return number(rect->x_mm);
    case WB_SHEET_RIGHT:
        return number(rect->x_mm + rect->length_mm);
    case WB_SHEET_FRONT:
        return number(rect->y_mm);
    case WB_SHEET_BACK:
        return number(rect->y_mm + rect->width_mm);
    case WB_SHEET_MARK:
    case WB_SHEET_NAME:
    case WB_SHEET_REMARK:
    case WB_SHEET_COLUMNS:
        break;
    }
    return NULL;
}

static char *size_text(const WbRect *rect)
{
    g_autofree char *length = number(rect->length_mm);
    g_autofree char *width = number(rect->width_mm);
    return g_strdup_printf("%s \303\227 %s", length, width);
}

static char *panel_cell(const WbRoofSheet *sheet, int index, WbSheetColumn column)
{
    const WbSheetPanel *panel = &sheet->panels[index];
    if (column == WB_SHEET_MARK)
        return g_strdup_printf("%d", index + 1);
    if (column == WB_SHEET_NAME)
        return g_strdup(panel->name);
    return column == WB_SHEET_REMARK ? size_text(&panel->rect) : side(&panel->rect, column);
}

static char *obstacle_remark(const WbObstacle *obstacle)
{
    const WbRect rect = {0, 0, obstacle->length_mm, obstacle->width_mm};
    g_autofree char *size = obstacle->round ? number(obstacle->length_mm) : size_text(&rect);
    g_autofree char *clearance = number(obstacle->clearance_mm);
    g_autofree char *height = number(obstacle->height_mm);
    g_autofree char *shape =
        obstacle->round ? g_strdup_printf(_("round, %s across"), size) : g_strdup(size);
    if (obstacle->kind == WB_OBSTACLE_WALKWAY)
        return g_strdup_printf(_("%s, walkway"), shape);
    if (obstacle->kind == WB_OBSTACLE_SHADE)
        return g_strdup_printf(_("%s, often shaded"), shape);
    return obstacle->height_mm > 0
               ? g_strdup_printf(_("%s, %s high, %s clear"), shape, height, clearance)
               : g_strdup_printf(_("%s, %s clear"), shape, clearance);
}

static char *obstacle_cell(const WbRoofSheet *sheet, int index, WbSheetColumn column)
{
    const WbObstacle *obstacle = &sheet->roof.obstacles[index];
    const WbRect rect = {obstacle->x_mm, obstacle->y_mm, obstacle->length_mm, obstacle->width_mm};
    if (column == WB_SHEET_MARK)
        return wb_paper_letters(index);
    if (column == WB_SHEET_NAME)
        return g_strdup(obstacle->name);
    return column == WB_SHEET_REMARK ? obstacle_remark(obstacle) : side(&rect, column);
}

static char *point_cell(const WbCorner *corner, const char *mark, const char *name,
                        WbSheetColumn column)
{
    if (column == WB_SHEET_MARK)
        return g_strdup(mark);
    if (column == WB_SHEET_NAME)
        return g_strdup(name);
    if (column == WB_SHEET_LEFT)
        return number(corner->x_mm);
    return column == WB_SHEET_FRONT ? number(corner->y_mm) : g_strdup("");
}

char *wb_roof_sheet_cell(const WbRoofSheet *sheet, int row, WbSheetColumn column)
{
    g_return_val_if_fail(row >= 0 && row < wb_roof_sheet_rows(sheet), NULL);
    const WbRoof *roof = &sheet->roof;
    if (row < sheet->n)
        return panel_cell(sheet, row, column);
    row -= sheet->n;
    if (row < (int)roof->n_obstacles)
        return obstacle_cell(sheet, row, column);
    row -= (int)roof->n_obstacles;
    if (row < (int)roof->n_corners) {
        g_autofree char *mark = g_strdup_printf("%d", row + 1);
        return point_cell(&roof->corners[row], mark, _("Corner of the roof"), column);
    }
    return point_cell(&roof->gland, "", _("Cable entry"), column);
}

/* ---- pages ---- */

static int rows_of_page(const WbRoofSheet *sheet)
{
    double room = sheet->height_mm * WB_PAPER_PT - 2 * WB_PAPER_EDGE - HEAD;
    return (int)(room / ROW);
}

int wb_paper_table_pages(const WbRoofSheet *sheet)
{
    int of_page = rows_of_page(sheet);
    return MAX(1, (wb_roof_sheet_rows(sheet) + of_page - 1) / of_page);
}

/* Left sides and widths of the columns. */
static void columns_of(const WbSheetPen *pen, double x[WB_SHEET_COLUMNS],
                       double width[WB_SHEET_COLUMNS])
{
    static const double share[WB_SHEET_COLUMNS] = {0.06, 0.28, 0.1, 0.1, 0.1, 0.1, 0.26};
    double all = pen->paper.width - 2 * WB_PAPER_EDGE, at = WB_PAPER_EDGE;
    for (int column = 0; column < WB_SHEET_COLUMNS; column++) {
        x[column] = at;
        width[column] = share[column] * all - 6;
        at += share[column] * all + (column == WB_SHEET_BACK ? 6 : 0);
    }
}

static gboolean is_figure(int column)
{
    return column >= WB_SHEET_LEFT && column <= WB_SHEET_BACK;
}

static void draw_head(WbSheetPen *pen, const double *x, const double *width)
{
    const char *const heads[WB_SHEET_COLUMNS] = {
        _("No."),       _("What"),     _("left side"),       _("right side"),
        _("near side"), _("far side"), _("Size and remarks")};
    double y = WB_PAPER_EDGE;
    y += wb_paper_text(&pen->paper, _("Distances to drill by, in mm"), 12, TRUE, WB_PAPER_EDGE, y,
                       0, 0);
    wb_paper_text(&pen->paper,
                  pen->sheet->roof.n_corners > 0
                      ? _("Measured from the line at the roof’s far left and the line at its "
                          "foremost point.")
                      : _("Measured from the roof’s left edge and from its front edge."),
                  8, FALSE, WB_PAPER_EDGE, y + 2, 0, 0);
    y = WB_PAPER_EDGE + HEAD - 11 * WB_PAPER_PT;
    wb_paper_text(&pen->paper, _("from the left edge to its"), 7, FALSE,
                  x[WB_SHEET_RIGHT] + width[WB_SHEET_RIGHT], y, 1, 0);
    wb_paper_text(&pen->paper, _("from the front edge to its"), 7, FALSE,
                  x[WB_SHEET_BACK] + width[WB_SHEET_BACK], y, 1, 0);
    for (int column = 0; column < WB_SHEET_COLUMNS; column++)
        wb_paper_cell_text(&pen->paper, heads[column], 8, TRUE, x[column], y + 12, width[column],
                           is_figure(column));
    wb_paper_line(&pen->paper, WB_PAPER_EDGE, WB_PAPER_EDGE + HEAD - 2,
                  pen->paper.width - WB_PAPER_EDGE, WB_PAPER_EDGE + HEAD - 2, 0.8);
}

void wb_paper_draw_table(WbSheetPen *pen, int page)
{
    double x[WB_SHEET_COLUMNS], width[WB_SHEET_COLUMNS];
    int of_page = rows_of_page(pen->sheet), first = page * of_page;
    int last = MIN(first + of_page, wb_roof_sheet_rows(pen->sheet));
    columns_of(pen, x, width);
    draw_head(pen, x, width);
    for (int row = first; row < last; row++) {
        double y = WB_PAPER_EDGE + HEAD + (row - first) * ROW;
        for (int column = 0; column < WB_SHEET_COLUMNS; column++) {
            g_autofree char *text = wb_roof_sheet_cell(pen->sheet, row, column);
            wb_paper_cell_text(&pen->paper, text, 8, column == WB_SHEET_MARK, x[column], y + 1,
                               width[column], is_figure(column));
        }
        wb_paper_line(&pen->paper, WB_PAPER_EDGE, y + ROW - 1, pen->paper.width - WB_PAPER_EDGE,
                      y + ROW - 1, 0.2);
    }
}
