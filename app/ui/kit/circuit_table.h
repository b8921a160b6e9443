/* The circuits of a kit, a row each: the same data as the wiring diagram. A row that is chosen is
 * told. */
#ifndef WB_CIRCUIT_TABLE_H
#define WB_CIRCUIT_TABLE_H

#include "kit_wiring.h"
#include <gtk/gtk.h>

#define WB_TYPE_CIRCUIT_TABLE (wb_circuit_table_get_type())
G_DECLARE_FINAL_TYPE(WbCircuitTable, wb_circuit_table, WB, CIRCUIT_TABLE, GtkBox)

/* Signal "chosen" (int circuit; -1: none): by the person. */
GtkWidget *wb_circuit_table_new(void);
/* Borrowed until it is set anew; NULL: none. */
void wb_circuit_table_set(WbCircuitTable *self, const WbKitWiring *wiring);
/* -1: none. Not told by the signal. */
void wb_circuit_table_choose(WbCircuitTable *self, int circuit);

#endif
