/* The roof plan on paper: drawn to a true scale with dimensions, numbered panels and lettered
 * obstacles, then a table of distances to drill by. One drawing for the printer, PDF and SVG, in
 * black on white. */
#ifndef WB_ROOF_SHEET_H
#define WB_ROOF_SHEET_H

#include "paper.h"
#include "roof.h"

typedef struct WbRoofSheet WbRoofSheet;

typedef struct {
    WbRect rect;      /* true outline */
    const char *name; /* of the panel model */
} WbSheetPanel;

/* Copies everything. title: the brief's; load_kg: of all panels with their mounts, NaN: not known;
 * letter: US Letter, else A4, upright or across as suits the roof. */
WbRoofSheet *wb_roof_sheet_new(const char *title, const WbRoof *roof, const WbSheetPanel *panels,
                               int n, double load_kg, gboolean letter);
void wb_roof_sheet_free(WbRoofSheet *sheet);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbRoofSheet, wb_roof_sheet_free)

/* Of the paper, as it is held. */
double wb_roof_sheet_width_mm(const WbRoofSheet *sheet);
double wb_roof_sheet_height_mm(const WbRoofSheet *sheet);
/* 20 for 1:20; the largest drawing of the usual scales that the paper takes. */
int wb_roof_sheet_scale(const WbRoofSheet *sheet);
/* The plan, then the table's pages. */
int wb_roof_sheet_pages(const WbRoofSheet *sheet);
/* Onto a context whose unit is the point (1/72 inch), origin at the paper's upper left corner. */
void wb_roof_sheet_draw(const WbRoofSheet *sheet, int page, cairo_t *cr);

/* Lines of the table, head and section lines left out: cells of text, [WB_SHEET_COLUMNS] each. */
typedef enum {
    WB_SHEET_MARK, /* panels 1, 2, ...; obstacles A, B, ...; corners a number */
    WB_SHEET_NAME,
    WB_SHEET_LEFT,  /* from the roof's left edge to its left side, mm */
    WB_SHEET_RIGHT, /* from the roof's left edge to its right side */
    WB_SHEET_FRONT, /* from the roof's front edge to its near side */
    WB_SHEET_BACK,  /* from the roof's front edge to its far side */
    WB_SHEET_REMARK,
    WB_SHEET_COLUMNS
} WbSheetColumn;
int wb_roof_sheet_rows(const WbRoofSheet *sheet);
/* (transfer full) */
char *wb_roof_sheet_cell(const WbRoofSheet *sheet, int row, WbSheetColumn column);

/* Takes the sheet over. */
WbPrint *wb_roof_sheet_print(WbRoofSheet *sheet);

#endif
