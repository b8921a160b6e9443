/* State of charge through a fortnight over what the sun gives and what is needed, hour by hour. The
 * band that may not be drawn is shaded, hours with unmet need are marked. Pointer and Left/Right
 * show an hour, Page Up and Page Down go a day. */
#ifndef WB_CHARGE_CHART_H
#define WB_CHARGE_CHART_H

#include "kit_energy.h"
#include <gtk/gtk.h>

#define WB_TYPE_CHARGE_CHART (wb_charge_chart_get_type())
G_DECLARE_FINAL_TYPE(WbChargeChart, wb_charge_chart, WB, CHARGE_CHART, GtkWidget)

GtkWidget *wb_charge_chart_new(void);
/* Copies; NULL: nothing known yet. */
void wb_charge_chart_set(WbChargeChart *self, const WbKitEnergy *energy);

#endif
