/* The columns of the table of parts: tick, name, what tells parts of a kind apart, price, and price
 * for what it gives. */
#ifndef WB_PART_COLUMNS_H
#define WB_PART_COLUMNS_H

#include "part_list.h"
#include <gtk/gtk.h>

/* Replaces all columns by those of the kind. `document` takes the ticks and outlives the view. */
void wb_part_columns_set(GtkColumnView *view, WbDocument *document, WbPartKind kind);
/* Sort key of wb_part_list_set_sort; NULL: none chosen. */
const char *wb_part_columns_get_order(GtkColumnView *view, WbPartKind kind, gboolean *descending);

#endif
