/* The kit's year hour by hour: the worst fortnight as a picture and a table, the year's results,
 * sources against need by month. Worked out on another thread whenever result or kit change while
 * the pane is asked to show them. */
#ifndef WB_ENERGY_PANE_H
#define WB_ENERGY_PANE_H

#include "result.h"
#include <gtk/gtk.h>

#define WB_TYPE_ENERGY_PANE (wb_energy_pane_get_type())
G_DECLARE_FINAL_TYPE(WbEnergyPane, wb_energy_pane, WB, ENERGY_PANE, GtkBox)

GtkWidget *wb_energy_pane_new(void);
/* The kit as wb_result_judge chooses it. The same question twice is asked once. */
void wb_energy_pane_show(WbEnergyPane *self, WbResult *result, const char *kit_id);
/* Is an answer on its way? For tests. */
gboolean wb_energy_pane_get_busy(WbEnergyPane *self);

#endif
