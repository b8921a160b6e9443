/* Kits as points over two criteria. Colour and marker tell the chemistry, full strength marks the
 * front of the ranking, a line runs through the kits no other beats in the two criteria shown; the
 * size of a point may tell a third. Pointer and arrow keys show a point's numbers; click or Enter
 * chooses it. Up and Down walk the points in their order, Left and Right along the line. Dragging
 * draws a brush, a rectangle that marks the points within; so does walking with Shift held, from
 * the point where it began. Escape, or a click on nothing, clears it. */
#ifndef WB_SCATTER_H
#define WB_SCATTER_H

#include "palette.h"
#include <gtk/gtk.h>

#define WB_TYPE_SCATTER (wb_scatter_get_type())
G_DECLARE_FINAL_TYPE(WbScatter, wb_scatter, WB, SCATTER, GtkWidget)

typedef struct {
    double x, y;   /* in the units of the axes; a point with a NaN is not drawn */
    float size;    /* 0..1 */
    guint8 series; /* < WB_N_SERIES */
    guint8 front;  /* of the ranking */
} WbScatterPoint;

/* In the units of the axes, borders included. */
typedef struct {
    double x_low, x_high, y_low, y_high;
} WbScatterBrush;

/* What the card beside a point says. (transfer full) */
typedef char *(*WbScatterText)(guint index, gpointer data);

GtkWidget *wb_scatter_new(void);
void wb_scatter_set_axes(WbScatter *self, const char *x_label, gboolean x_less_is_better,
                         const char *y_label, gboolean y_less_is_better);
/* Copies the points; keeps no selection, unless they are the same as before. */
void wb_scatter_set_points(WbScatter *self, const WbScatterPoint *points, guint n);
/* Whether the size of the points tells something. */
void wb_scatter_set_sized(WbScatter *self, gboolean sized);
/* NULL: none. Setting it does not emit the signal "brush-changed". */
void wb_scatter_set_brush(WbScatter *self, const WbScatterBrush *brush);
const WbScatterBrush *wb_scatter_get_brush(WbScatter *self);
/* Name of a series for the legend; NULL leaves it out. */
void wb_scatter_set_series(WbScatter *self, guint series, const char *name);
void wb_scatter_set_text(WbScatter *self, WbScatterText text, gpointer data);
/* -1: none. Does not emit the signal "chosen" (guint index). */
void wb_scatter_set_chosen(WbScatter *self, int index);
/* Dimmed while its numbers are being worked out again. */
void wb_scatter_set_stale(WbScatter *self, gboolean stale);

#endif
