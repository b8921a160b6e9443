/* The sun that what stands on the roof takes from the panels looked at, month by month. */
#ifndef WB_SUN_PANE_H
#define WB_SUN_PANE_H

#include "roof_study.h"
#include <gtk/gtk.h>

#define WB_TYPE_SUN_PANE (wb_sun_pane_get_type())
G_DECLARE_FINAL_TYPE(WbSunPane, wb_sun_pane, WB, SUN_PANE, GtkBox)

GtkWidget *wb_sun_pane_new(void);
/* panel NULL: none is looked at. Keeps nothing of it. */
void wb_sun_pane_show(WbSunPane *self, const WbStudyPanel *panel, const WbBrief *brief);

#endif
