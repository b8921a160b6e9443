/* The columns of the table of kits: rank, kit, score and a criterion each, of which the person
 * chooses those shown. The choice is kept from run to run; until one is made, the criteria that
 * weigh are shown. */
#ifndef WB_KIT_COLUMNS_H
#define WB_KIT_COLUMNS_H

#include "kit_list.h"
#include <gtk/gtk.h>

/* Appends all columns, and puts the actions "columns.<criterion>" and "columns.usual" on `owner`,
 * an ancestor of the view. The view stands in its scrolled window and has no model yet. */
void wb_kit_columns_add(GtkColumnView *view, GtkWidget *owner);
/* Follows this list. */
void wb_kit_columns_set_list(GtkColumnView *view, WbKitList *list);
/* Heads name the unit, money's by the brief; its weights say what is usual. */
void wb_kit_columns_set_brief(GtkColumnView *view, const WbBrief *brief);
/* The menu that chooses columns. (transfer full) */
GMenuModel *wb_kit_columns_menu(void);
/* What the person sorts by, after a click on a head: criterion, or -1 for the ranking itself. */
void wb_kit_columns_get_order(GtkColumnView *view, int *criterion, gboolean *descending);

#endif
