/* Lines, shapes and text of a roof drawing with cairo, in the palette of a widget, given in mm on
 * the roof. */
#ifndef WB_ROOF_INK_H
#define WB_ROOF_INK_H

#include "palette.h"
#include "roof.h"
#include "roof_view.h"

typedef struct {
    cairo_t *cr;
    WbPalette palette;
    PangoLayout *layout; /* small type, tabular figures */
    WbPlanPlace place;
    double width, height; /* of the drawing, px */
} WbInk;

void wb_ink_begin(WbInk *ink, GtkWidget *widget, cairo_t *cr, const WbPlanPlace *place);
void wb_ink_end(WbInk *ink);

double wb_ink_x(const WbInk *ink, int64_t mm);
double wb_ink_y(const WbInk *ink, int64_t mm);
WbRect wb_rect_grown(const WbRect *rect, int64_t by_mm);
gboolean wb_ink_in_sight(const WbInk *ink, const WbRect *rect);

/* Paths. */
void wb_ink_outline(WbInk *ink, const WbRoof *roof);
void wb_ink_shape(WbInk *ink, const WbRect *rect, gboolean round);
/* Adds the line round a clearance, which is axis-wise: a circle grown by a square of it. */
void wb_ink_clearance(WbInk *ink, const WbRect *rect, int64_t clearance_mm, gboolean round);
/* Of the path in hand; hatch and fill keep it, stroke ends it. dash 0: none. */
void wb_ink_fill(WbInk *ink, const GdkRGBA *color, double alpha);
void wb_ink_hatch(WbInk *ink, const GdkRGBA *color, double step, gboolean falling);
void wb_ink_stroke(WbInk *ink, const GdkRGBA *color, double width, double dash);
void wb_ink_line(WbInk *ink, double x1, double y1, double x2, double y2, const GdkRGBA *color);

/* The point (x_align, y_align) of the text's box comes to (x, y). */
void wb_ink_text(WbInk *ink, const char *text, double x, double y, double x_align, double y_align,
                 const GdkRGBA *color);
void wb_ink_text_size(WbInk *ink, const char *text, int *width, int *height);
/* On a card of paper, so that it is read over lines and hatching. */
void wb_ink_label(WbInk *ink, const char *text, double x, double y, double x_align, double y_align,
                  const GdkRGBA *color);
/* Whether a box holds the whole text, words wrapped. */
gboolean wb_ink_holds(WbInk *ink, const char *text, double width, double height);
/* In the middle of a box, words wrapped, shortened to its size. FALSE: it is too small for any. */
gboolean wb_ink_label_within(WbInk *ink, const char *text, double x, double y, double width,
                             double height);
/* Read from below, in the middle of a box that is taller than wide. FALSE: it does not fit. */
gboolean wb_ink_text_upright(WbInk *ink, const char *text, double x, double y, double width,
                             double height);

#endif
