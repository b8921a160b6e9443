/* Kits as points over two criteria of choice. */
#ifndef WB_KIT_PLOT_H
#define WB_KIT_PLOT_H

#include "kit_list.h"
#include "page.h"

#define WB_TYPE_KIT_PLOT (wb_kit_plot_get_type())
G_DECLARE_FINAL_TYPE(WbKitPlot, wb_kit_plot, WB, KIT_PLOT, GtkBox)

/* Follows the list as filtered there; front kits beyond the list join in. */
void wb_kit_plot_set_context(WbKitPlot *self, const WbContext *context, WbKitList *list);
/* Another kit is in hand. */
void wb_kit_plot_choose(WbKitPlot *self, const char *kit_id);
void wb_kit_plot_set_stale(WbKitPlot *self, gboolean stale);

#endif
