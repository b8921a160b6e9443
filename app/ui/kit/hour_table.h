/* The hours of the fortnight as a table: the charge picture for who reads rather than looks. */
#ifndef WB_HOUR_TABLE_H
#define WB_HOUR_TABLE_H

#include "kit_energy.h"
#include <gtk/gtk.h>

#define WB_TYPE_HOUR_TABLE (wb_hour_table_get_type())
G_DECLARE_FINAL_TYPE(WbHourTable, wb_hour_table, WB, HOUR_TABLE, GtkBox)

GtkWidget *wb_hour_table_new(void);
/* Copies; NULL: empty. */
void wb_hour_table_set(WbHourTable *self, const WbKitEnergy *energy);

#endif
