/* The ranked kits as a table, sorted and filtered. */
#ifndef WB_KIT_TABLE_H
#define WB_KIT_TABLE_H

#include "kit_list.h"
#include "page.h"

#define WB_TYPE_KIT_TABLE (wb_kit_table_get_type())
G_DECLARE_FINAL_TYPE(WbKitTable, wb_kit_table, WB, KIT_TABLE, GtkBox)

void wb_kit_table_set_context(WbKitTable *self, const WbContext *context, WbKitList *list);
/* A new result, or NULL. */
void wb_kit_table_show(WbKitTable *self, WbResult *result);
/* Another kit is in hand: marks its row, if it is shown, and brings it into view. */
void wb_kit_table_choose(WbKitTable *self, const char *kit_id);

#endif
