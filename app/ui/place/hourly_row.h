/* The person's own hours of weather: which file, a button to choose one and one to go back to made
 * weather, what was made of the file, and why it cannot be used. */
#ifndef WB_HOURLY_ROW_H
#define WB_HOURLY_ROW_H

#include "document.h"
#include <gtk/gtk.h>

#define WB_TYPE_HOURLY_ROW (wb_hourly_row_get_type())
G_DECLARE_FINAL_TYPE(WbHourlyRow, wb_hourly_row, WB, HOURLY_ROW, GtkBox)

GtkWidget *wb_hourly_row_new(WbDocument *document);
/* As if the file had been chosen in the dialog; NULL: made weather. */
void wb_hourly_row_choose(WbHourlyRow *self, const char *path);

#endif
