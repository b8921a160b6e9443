/* The inside of WbDiagramSheet, shared by diagram_sheet.c (pages and drawing) and
 * diagram_sheet_table.c (the circuits). */
#ifndef WB_DIAGRAM_SHEET_PRIVATE_H
#define WB_DIAGRAM_SHEET_PRIVATE_H

#include "circuit_cells.h"
#include "diagram_sheet.h"

typedef struct {
    char *cell[WB_CIRCUIT_COLUMNS];
    char *under; /* fault and caution; NULL: neither */
    int page;    /* of the table */
    double y;    /* on it, under the head */
} WbSheetCircuit;

struct WbDiagramSheet {
    char *title, *kit, *date, *sum;
    char *notes; /* under the drawing */
    WbDiagram *diagram;
    WbDiagramPart *part; /* one a page of the drawing */
    int n_parts;
    WbSheetCircuit *circuit;
    int n_circuits;
    int table_pages;
    double width_mm, height_mm;
    double scale;
};

/* Copies the circuits and shares them out over pages. */
void wb_sheet_circuits_fill(WbDiagramSheet *sheet, const WbPaperPen *pen, const WbProblem *problem,
                            const WbKit *kit, const WbWiring *wiring);
void wb_sheet_circuits_draw(const WbDiagramSheet *sheet, const WbPaperPen *pen, int page);

#endif
