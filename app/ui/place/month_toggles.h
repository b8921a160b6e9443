/* Twelve toggles under the months of a picture: in which months the system is used. */
#ifndef WB_MONTH_TOGGLES_H
#define WB_MONTH_TOGGLES_H

#include "document.h"
#include <gtk/gtk.h>

#define WB_TYPE_MONTH_TOGGLES (wb_month_toggles_get_type())
G_DECLARE_FINAL_TYPE(WbMonthToggles, wb_month_toggles, WB, MONTH_TOGGLES, GtkBox)

GtkWidget *wb_month_toggles_new(WbDocument *document);

#endif
