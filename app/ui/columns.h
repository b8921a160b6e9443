/* What GTK 4.8 lacks for column views: heads that stand over their figures, and the answer to
 * "which head was clicked?". */
#ifndef WB_COLUMNS_H
#define WB_COLUMNS_H

#include <gtk/gtk.h>

/* Bit c of `figures`: the head of column c is right-aligned. Call again after columns change. */
void wb_columns_align_heads(GtkColumnView *view, guint64 figures);

/* A sorter that marks a column as sortable; the rows are ordered by their own list. (transfer full)
 */
GtkSorter *wb_columns_sorter_new(int column);
/* The column the person sorts by; -1: none, or no column of wb_columns_sorter_new. */
int wb_columns_get_primary(GtkColumnView *view, gboolean *descending);

#endif
