/* What the parts of the scatter share: state and behaviour in scatter.c, the brush in
 * scatter_brush.c, the picture in scatter_paint.c and its points in scatter_points.c. */
#ifndef WB_SCATTER_PRIVATE_H
#define WB_SCATTER_PRIVATE_H

#include "axis.h"
#include "scatter.h"

struct _WbScatter {
    GtkWidget parent_instance;
    WbScatterPoint *points;
    guint n;
    guint *line; /* points of the two-criteria front, by x */
    guint n_line;
    char *x_label, *y_label;
    gboolean x_less, y_less;
    char *series_name[WB_N_SERIES];
    WbScatterText text;
    gpointer text_data;
    int chosen, shown; /* -1 none; shown: under the pointer or the keyboard cursor */
    gboolean stale, sized, brushed;
    WbScatterBrush brush; /* where brushed */
    int anchor;           /* point where walking with Shift began; -1: none */
    double press_x, press_y;
    WbAxis x, y;
    double left, right, top, bottom; /* of the plot, px */
    GskRenderNode *base;             /* all but chosen and shown; NULL: to be painted */
};

/* Mouse and keys of the brush; the signal "brush-changed" is there by then. */
void wb_scatter_brush_attach(WbScatter *self);
/* The keyboard walked to the point shown; with Shift the brush follows. */
void wb_scatter_brush_walk(WbScatter *self, int from, gboolean extend);
gboolean wb_scatter_brush_clear(WbScatter *self);            /* FALSE: there was none */
int wb_scatter_nearest(WbScatter *self, double x, double y); /* -1: none near */
void wb_scatter_choose(WbScatter *self, int index);

/* All points onto the snapshot, as a picture kept in memory. */
void wb_scatter_paint_points(WbScatter *self, GtkSnapshot *snapshot, const WbPalette *palette);
double wb_scatter_radius(const WbScatter *self, guint index);

void wb_scatter_paint(WbScatter *self, GtkSnapshot *snapshot);
void wb_scatter_place(const WbScatter *self, guint index, double *x, double *y); /* in px */

#endif
