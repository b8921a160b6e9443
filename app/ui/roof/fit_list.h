/* What fits of each ticked panel model: the most, their watts and weight, the answer in words and
 * what would let one more in, one row each, sortable by its heads. Signal "shown" (): the row
 * or the change hovered or chosen is another. */
#ifndef WB_FIT_LIST_H
#define WB_FIT_LIST_H

#include "roof_study.h"
#include <gtk/gtk.h>

#define WB_TYPE_FIT_LIST (wb_fit_list_get_type())
G_DECLARE_FINAL_TYPE(WbFitList, wb_fit_list, WB, FIT_LIST, GtkBox)

/* Both borrowed; they live as long as the list. */
GtkWidget *wb_fit_list_new(WbRoofStudy *study, WbDocument *document);
/* Brings the rows up to date with the study. */
void wb_fit_list_refresh(WbFitList *self);
/* Id of the panel hovered, else of the chosen one; NULL none. Borrowed until it changes. */
const char *wb_fit_list_get_shown(WbFitList *self);
/* Index among the changes of that panel of the one looked at; -1 none. */
int wb_fit_list_get_change(WbFitList *self);

#endif
