/* The circuits on paper: a line each, under it what is wrong with it or has to be minded. */
#include "diagram_sheet_private.h"

#include "words_circuit.h"
#include <glib/gi18n-lib.h>

#define HEAD (16 * WB_PAPER_PT)
#define FOOT (6 * WB_PAPER_PT)
#define LINE 11.0
#define CELL_TYPE 7.5
#define UNDER_TYPE 7.0
#define INDENT 18.0
#define GAP 3.0

/* What is said once: a caution of all loads stands under the first. */
static char *under(const WbProblem *problem, const WbKit *kit, const WbWiring *wiring, gsize row)
{
    const WbCircuit *circuit = &wiring->circuit[row];
    gboolean said = row > 0 && wiring->circuit[row - 1].ask.kind == circuit->ask.kind;
    const char *safety = said ? NULL : wb_words_circuit_safety(problem, kit, circuit->ask.kind);
    g_autofree char *fault = wb_words_circuit_fault(problem, circuit);
    g_autofree char *place = said ? NULL : wb_words_fuse_place(problem, circuit);
    GString *text = g_string_new(NULL);
    const char *const parts[] = {fault, place, safety};
    for (gsize i = 0; i < G_N_ELEMENTS(parts); i++)
        if (parts[i] != NULL)
            g_string_append_printf(text, "%s%s", text->len > 0 ? " " : "", parts[i]);
    return g_string_free(text, text->len == 0);
}

void wb_sheet_circuits_fill(WbDiagramSheet *sheet, const WbPaperPen *pen, const WbProblem *problem,
                            const WbKit *kit, const WbWiring *wiring)
{
    double room = pen->height - 2 * WB_PAPER_EDGE - HEAD - FOOT, y = 0;
    double width = pen->width - 2 * WB_PAPER_EDGE - INDENT;
    sheet->n_circuits = (int)wiring->n;
    sheet->circuit = g_new0(WbSheetCircuit, wiring->n);
    sheet->table_pages = 1;
    for (gsize row = 0; row < wiring->n; row++) {
        WbSheetCircuit *line = &sheet->circuit[row];
        for (WbCircuitColumn column = 0; column < WB_CIRCUIT_COLUMNS; column++)
            line->cell[column] = wb_circuit_cell(problem, wiring, row, column);
        line->under = under(problem, kit, wiring, row);
        double height = LINE + GAP;
        if (line->under != NULL)
            height += wb_paper_paragraph_height(pen, line->under, UNDER_TYPE, width) + GAP;
        if (y + height > room && y > 0) {
            sheet->table_pages++;
            y = 0;
        }
        line->page = sheet->table_pages - 1;
        line->y = y;
        y += height;
    }
}

static void columns_of(const WbPaperPen *pen, double x[WB_CIRCUIT_COLUMNS],
                       double width[WB_CIRCUIT_COLUMNS])
{
    static const double share[WB_CIRCUIT_COLUMNS] = {0.045, 0.225, 0.195, 0.075, 0.12,
                                                     0.07,  0.08,  0.08,  0.11};
    double all = pen->width - 2 * WB_PAPER_EDGE, at = WB_PAPER_EDGE;
    for (int column = 0; column < WB_CIRCUIT_COLUMNS; column++) {
        x[column] = at;
        width[column] = share[column] * all - 6;
        at += share[column] * all;
    }
}

static void draw_cells(const WbPaperPen *pen, const char *const *cells, gboolean bold, double y)
{
    double x[WB_CIRCUIT_COLUMNS], width[WB_CIRCUIT_COLUMNS];
    columns_of(pen, x, width);
    for (int column = 0; column < WB_CIRCUIT_COLUMNS; column++)
        wb_paper_cell_text(pen, cells[column], CELL_TYPE, bold, x[column], y, width[column],
                           wb_circuit_column_is_figure((WbCircuitColumn)column));
}

void wb_sheet_circuits_draw(const WbDiagramSheet *sheet, const WbPaperPen *pen, int page)
{
    const char *heads[WB_CIRCUIT_COLUMNS];
    double top = WB_PAPER_EDGE + HEAD, right = pen->width - WB_PAPER_EDGE;
    for (int column = 0; column < WB_CIRCUIT_COLUMNS; column++)
        heads[column] = wb_circuit_head((WbCircuitColumn)column);
    double height = wb_paper_text(pen, _("Circuits"), 12, TRUE, WB_PAPER_EDGE, WB_PAPER_EDGE, 0, 0);
    wb_paper_text(pen, sheet->sum, 8, FALSE, WB_PAPER_EDGE, WB_PAPER_EDGE + height, 0, 0);
    draw_cells(pen, heads, TRUE, top - LINE);
    wb_paper_line(pen, WB_PAPER_EDGE, top, right, top, 0.8);
    for (int row = 0; row < sheet->n_circuits; row++) {
        const WbSheetCircuit *line = &sheet->circuit[row];
        if (line->page != page)
            continue;
        double y = top + line->y + GAP;
        draw_cells(pen, (const char *const *)line->cell, FALSE, y);
        if (line->under != NULL)
            wb_paper_paragraph(pen, line->under, UNDER_TYPE, WB_PAPER_EDGE + INDENT, y + LINE,
                               right - WB_PAPER_EDGE - INDENT);
        if (line->y > 0)
            wb_paper_line(pen, WB_PAPER_EDGE, y - GAP / 2, right, y - GAP / 2, 0.2);
    }
}
