/* The button that offers the filters of the list of kits. */
#ifndef WB_KIT_FILTER_MENU_H
#define WB_KIT_FILTER_MENU_H

#include "kit_list.h"
#include <gtk/gtk.h>

#define WB_TYPE_KIT_FILTER_MENU (wb_kit_filter_menu_get_type())
G_DECLARE_FINAL_TYPE(WbKitFilterMenu, wb_kit_filter_menu, WB, KIT_FILTER_MENU, GtkBox)

void wb_kit_filter_menu_set_list(WbKitFilterMenu *self, WbKitList *list);
/* The parts and chemistries offered are of this result. */
void wb_kit_filter_menu_show(WbKitFilterMenu *self, WbResult *result);

#endif
