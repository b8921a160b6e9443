/* One figure of the kit in hand against its limit: title and words over a thin bar with a tick at
 * the limit. Beyond the limit the bar passes the tick and the caller's words say by how much. */
#ifndef WB_GAUGE_BAR_H
#define WB_GAUGE_BAR_H

#include <gtk/gtk.h>

#define WB_TYPE_GAUGE_BAR (wb_gauge_bar_get_type())
G_DECLARE_FINAL_TYPE(WbGaugeBar, wb_gauge_bar, WB, GAUGE_BAR, GtkWidget)

GtkWidget *wb_gauge_bar_new(void);
/* `at_most`: the limit is a ceiling, else a floor. NaN limit: none; NaN value: nothing to show. */
void wb_gauge_bar_set(WbGaugeBar *self, const char *title, const char *words, double value,
                      double limit, gboolean at_most);
/* Beyond the limit is no harm: told in the warm colour. */
void wb_gauge_bar_set_mild(WbGaugeBar *self, gboolean mild);

#endif
