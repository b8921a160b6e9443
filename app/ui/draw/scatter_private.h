/* What the two halves of the scatter share: state and behaviour in scatter.c, the picture in
 * scatter_paint.c. */
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
    gboolean stale;
    WbAxis x, y;
    double left, right, top, bottom; /* of the plot, px */
    GskRenderNode *base;             /* all but chosen and shown; NULL: to be painted */
};

void wb_scatter_paint(WbScatter *self, GtkSnapshot *snapshot);
void wb_scatter_place(const WbScatter *self, guint index, double *x, double *y); /* in px */

#endif
