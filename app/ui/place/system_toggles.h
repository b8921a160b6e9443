/* Three toggles: the system voltages tried, 12, 24 and 48 V. At least one stays on. */
#ifndef WB_SYSTEM_TOGGLES_H
#define WB_SYSTEM_TOGGLES_H

#include "document.h"
#include <gtk/gtk.h>

#define WB_TYPE_SYSTEM_TOGGLES (wb_system_toggles_get_type())
G_DECLARE_FINAL_TYPE(WbSystemToggles, wb_system_toggles, WB, SYSTEM_TOGGLES, GtkBox)

GtkWidget *wb_system_toggles_new(WbDocument *document);

#endif
