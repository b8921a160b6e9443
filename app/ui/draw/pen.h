/* Text, lines and boxes onto a snapshot, in the palette of a widget. One pen lives through one
 * snapshot call. */
#ifndef WB_PEN_H
#define WB_PEN_H

#include "axis.h"
#include "palette.h"
#include <gtk/gtk.h>

typedef struct {
    GtkWidget *widget;
    GtkSnapshot *snapshot;
    WbPalette palette;
    PangoLayout *layout; /* small type, tabular figures */
} WbPen;

/* Small type with tabular figures, for what is written on pictures. (transfer full) */
PangoLayout *wb_pen_layout_new(GtkWidget *widget);
void wb_pen_begin(WbPen *pen, GtkWidget *widget, GtkSnapshot *snapshot);
void wb_pen_end(WbPen *pen);

/* The point of the text at (x_align, y_align) of its box comes to (x, y). */
void wb_pen_text(WbPen *pen, const char *text, double x, double y, double x_align, double y_align,
                 const GdkRGBA *color);
void wb_pen_text_bold(WbPen *pen, const char *text, double x, double y, double x_align,
                      double y_align, const GdkRGBA *color);
/* Shortened with an ellipsis to `width` px. */
void wb_pen_text_within(WbPen *pen, const char *text, double x, double y, double width,
                        const GdkRGBA *color);
void wb_pen_text_size(WbPen *pen, const char *text, int *width, int *height);
void wb_pen_box(WbPen *pen, double x, double y, double width, double height, const GdkRGBA *color);
void wb_pen_frame(WbPen *pen, double x, double y, double width, double height,
                  const GdkRGBA *color);
/* Hairlines of one pixel. */
void wb_pen_across(WbPen *pen, double x1, double x2, double y, const GdkRGBA *color);
void wb_pen_down(WbPen *pen, double x, double y1, double y2, const GdkRGBA *color);
/* An entry of a legend that ends at x: a sample of the colour, then the text. Answers where the
 * next entry to the left ends. */
typedef enum { WB_KEY_BOX, WB_KEY_HOLLOW, WB_KEY_LINE } WbKey;
double wb_pen_key(WbPen *pen, const char *text, double x, double y, WbKey key,
                  const GdkRGBA *color);
/* Several lines of text on a small card beside a point, kept inside the widget. */
void wb_pen_card(WbPen *pen, const char *text, double x, double y);
/* A caption in the middle of the widget, for pictures without data. */
void wb_pen_empty(WbPen *pen, const char *text);

/* Scale at the left of an upright axis with grid lines from `left` to `right`. */
void wb_pen_upright_axis(WbPen *pen, const WbAxis *axis, double left, double right, double top,
                         double bottom);
/* Width the tick texts of an upright axis need. */
int wb_pen_axis_width(WbPen *pen, const WbAxis *axis);

/* Bookkeeping of the accessible name of a picture: label and description in one call. */
void wb_pen_describe(GtkWidget *widget, const char *label, const char *description);

#endif
