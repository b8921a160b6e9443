/* Which column of a picture is under the pointer or the keyboard: hours of a day, months of a year.
 * A part of a chart widget, told the plot's edges at each snapshot. */
#ifndef WB_COLUMN_CURSOR_H
#define WB_COLUMN_CURSOR_H

#include <gtk/gtk.h>

typedef struct {
    GtkWidget *widget;
    int n;              /* columns */
    int stride;         /* columns Page Up and Page Down go; 0: none */
    int shown;          /* -1 none */
    double left, right; /* of the plot, px */
    void (*moved)(GtkWidget *widget);
} WbColumnCursor;

/* Makes the widget focusable and adds its controllers; `moved` may be called at any time. */
void wb_column_cursor_attach(WbColumnCursor *self, GtkWidget *widget, int n,
                             void (*moved)(GtkWidget *widget));

#endif
