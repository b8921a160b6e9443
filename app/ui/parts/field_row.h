/* One figure of a part with its unit: an entry, a choice or a tick. Signal "edited" (const char
 * *text) when the person has typed or chosen something else. */
#ifndef WB_FIELD_ROW_H
#define WB_FIELD_ROW_H

#include "part_edit.h"
#include <gtk/gtk.h>

#define WB_TYPE_FIELD_ROW (wb_field_row_get_type())
G_DECLARE_FINAL_TYPE(WbFieldRow, wb_field_row, WB, FIELD_ROW, GtkBox)

/* The field lives in static storage. */
GtkWidget *wb_field_row_new(const WbField *field);
const WbField *wb_field_row_get_field(WbFieldRow *self);
/* Shows the record's figure, unless the person is typing here. */
void wb_field_row_show(WbFieldRow *self, const void *record);
void wb_field_row_tell(WbFieldRow *self, WbTyped typed, const char *sentence);

#endif
