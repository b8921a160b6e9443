/* The inside of WbRoofSheet, shared by roof_sheet.c (paper and files), roof_sheet_plan.c (the
 * drawing) and roof_sheet_table.c (the table). Lengths on paper are in points. */
#ifndef WB_ROOF_SHEET_PRIVATE_H
#define WB_ROOF_SHEET_PRIVATE_H

#include "roof_sheet.h"
struct WbRoofSheet {
    char *title;
    WbRoof roof; /* its arrays are the sheet's own */
    WbSheetPanel *panels;
    int n;
    double load_kg;
    double width_mm, height_mm;
    int scale;
};

/* One page of it. */
typedef struct {
    WbPaperPen paper;
    const WbRoofSheet *sheet;
} WbSheetPen;

/* Letters of obstacles: A..Z, AA.. (transfer full) */
char *wb_paper_letters(int index);

/* The largest usual scale at which the roof fits the room of the first page. */
int wb_paper_find_scale(const WbRoofSheet *sheet);
void wb_paper_draw_plan(WbSheetPen *pen);
int wb_paper_table_pages(const WbRoofSheet *sheet);
void wb_paper_draw_table(WbSheetPen *pen, int page);

#endif
