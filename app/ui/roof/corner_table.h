/* The outline by its corners, to be typed to the millimetre; or none, the rectangle. */
#ifndef WB_CORNER_TABLE_H
#define WB_CORNER_TABLE_H

#include "document.h"
#include <gtk/gtk.h>

#define WB_TYPE_CORNER_TABLE (wb_corner_table_get_type())
G_DECLARE_FINAL_TYPE(WbCornerTable, wb_corner_table, WB, CORNER_TABLE, GtkBox)

GtkWidget *wb_corner_table_new(WbDocument *document);

#endif
