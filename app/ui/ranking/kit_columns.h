/* The columns of the table of kits. */
#ifndef WB_KIT_COLUMNS_H
#define WB_KIT_COLUMNS_H

#include "kit_list.h"
#include <gtk/gtk.h>

/* Appends all columns. */
void wb_kit_columns_add(GtkColumnView *view);
/* Heads name the unit, money's by the brief. */
void wb_kit_columns_set_currency(GtkColumnView *view, const char *currency);
/* What the person sorts by, after a click on a head: criterion, or -1 for the ranking itself. */
void wb_kit_columns_get_order(GtkColumnView *view, int *criterion, gboolean *descending);

#endif
