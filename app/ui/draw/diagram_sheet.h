/* The wiring diagram on paper: the drawing, with the loads that find no room on pages of their own,
 * then the circuits as a table with the cautions under the circuits they concern. */
#ifndef WB_DIAGRAM_SHEET_H
#define WB_DIAGRAM_SHEET_H

#include "diagram_layout.h"
#include "paper.h"

typedef struct WbDiagramSheet WbDiagramSheet;

/* Copies what it shows. title: the brief's; date as it is to be printed; letter: US Letter, else
 * A4, upright or across, whichever lets the drawing be larger. The wiring has circuits. */
WbDiagramSheet *wb_diagram_sheet_new(const WbProblem *problem, const WbKit *kit,
                                     const WbWiring *wiring, const char *title, const char *date,
                                     gboolean letter);
void wb_diagram_sheet_free(WbDiagramSheet *sheet);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbDiagramSheet, wb_diagram_sheet_free)

int wb_diagram_sheet_pages(const WbDiagramSheet *sheet);
/* Height of the type of the drawing, points. */
double wb_diagram_sheet_type(const WbDiagramSheet *sheet);
/* Onto a context whose unit is the point, origin in the paper's corner. */
void wb_diagram_sheet_draw(const WbDiagramSheet *sheet, int page, cairo_t *cr);
/* Takes the sheet over. */
WbPrint *wb_diagram_sheet_print(WbDiagramSheet *sheet);

#endif
