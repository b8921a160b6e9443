/* What fits of each ticked panel model: the most, their watts and the answer in words, one row
 * each. Signal "shown" (): the row hovered or chosen has changed. */
#ifndef WB_FIT_LIST_H
#define WB_FIT_LIST_H

#include "result.h"
#include <gtk/gtk.h>

#define WB_TYPE_FIT_LIST (wb_fit_list_get_type())
G_DECLARE_FINAL_TYPE(WbFitList, wb_fit_list, WB, FIT_LIST, GtkBox)

GtkWidget *wb_fit_list_new(void);
/* `holds`: the result is for the roof as it is now; else its answers are hidden. Keeps a reference.
 */
void wb_fit_list_show(WbFitList *self, WbResult *result, gboolean holds);
/* The panel hovered, else the chosen one, as its index in the result's problem; -1 none. */
int wb_fit_list_get_shown(WbFitList *self);

#endif
