/* What the brief asks of the wiring: rules, sizes, hottest air, and how long each circuit is, with
 * those marked that nobody measured yet. It stands by itself and follows the document; every edit
 * is one undo step. */
#ifndef WB_WIRING_FORM_H
#define WB_WIRING_FORM_H

#include "document.h"
#include <gtk/gtk.h>

#define WB_TYPE_WIRING_FORM (wb_wiring_form_get_type())
G_DECLARE_FINAL_TYPE(WbWiringForm, wb_wiring_form, WB, WIRING_FORM, GtkBox)

GtkWidget *wb_wiring_form_new(WbDocument *document);

#endif
