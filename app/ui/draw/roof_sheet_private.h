/* The inside of WbRoofSheet, shared by roof_sheet.c (paper and files), roof_sheet_plan.c (the
 * drawing) and roof_sheet_table.c (the table). Lengths on paper are in points. */
#ifndef WB_ROOF_SHEET_PRIVATE_H
#define WB_ROOF_SHEET_PRIVATE_H

#include "roof_sheet.h"
#include <pango/pangocairo.h>

#define WB_SHEET_PT (72 / 25.4) /* points of a millimetre on paper */
#define WB_SHEET_EDGE (12 * WB_SHEET_PT)

struct WbRoofSheet {
    char *title;
    WbRoof roof; /* its arrays are the sheet's own */
    WbSheetPanel *panels;
    int n;
    double load_kg;
    double width_mm, height_mm;
    int scale;
};

/* Text and lines onto one page. */
typedef struct {
    const WbRoofSheet *sheet;
    cairo_t *cr;
    PangoLayout *layout;
    double width, height;
} WbSheetPen;

/* Size in points. The box of the text comes with (x_align, y_align) of it to (x, y). Answers its
 * height. */
double wb_paper_text(WbSheetPen *pen, const char *text, double size, gboolean bold, double x,
                     double y, double x_align, double y_align);
/* Wrapped to `width`; upper left at (x, y). Answers its height. */
double wb_paper_paragraph(WbSheetPen *pen, const char *text, double size, double x, double y,
                          double width);
double wb_paper_text_width(WbSheetPen *pen, const char *text, double size);
/* Cut to `width` with an ellipsis, left or right aligned in it. */
void wb_paper_cell_text(WbSheetPen *pen, const char *text, double size, gboolean bold, double x,
                        double y, double width, gboolean right);
void wb_paper_line(WbSheetPen *pen, double x1, double y1, double x2, double y2, double line_width);

/* Letters of obstacles: A..Z, AA.. (transfer full) */
char *wb_paper_letters(int index);

/* The largest usual scale at which the roof fits the room of the first page. */
int wb_paper_find_scale(const WbRoofSheet *sheet);
void wb_paper_draw_plan(WbSheetPen *pen);
int wb_paper_table_pages(const WbRoofSheet *sheet);
void wb_paper_draw_table(WbSheetPen *pen, int page);

#endif
