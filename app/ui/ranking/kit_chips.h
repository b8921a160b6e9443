/* The filters in force over the list of kits, a chip each: pressing one clears it. */
#ifndef WB_KIT_CHIPS_H
#define WB_KIT_CHIPS_H

#include "kit_list.h"
#include <gtk/gtk.h>

#define WB_TYPE_KIT_CHIPS (wb_kit_chips_get_type())
G_DECLARE_FINAL_TYPE(WbKitChips, wb_kit_chips, WB, KIT_CHIPS, GtkBox)

void wb_kit_chips_set_list(WbKitChips *self, WbKitList *list);
/* Names of parts and the currency are of this result. */
void wb_kit_chips_show(WbKitChips *self, WbResult *result);
void wb_kit_chips_clear_all(WbKitChips *self);

#endif
