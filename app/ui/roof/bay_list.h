/* How many of each ticked battery stand in the storage bay. */
#ifndef WB_BAY_LIST_H
#define WB_BAY_LIST_H

#include "result.h"
#include <gtk/gtk.h>

#define WB_TYPE_BAY_LIST (wb_bay_list_get_type())
G_DECLARE_FINAL_TYPE(WbBayList, wb_bay_list, WB, BAY_LIST, GtkBox)

GtkWidget *wb_bay_list_new(void);
/* The last result may be NULL or of another bay: then its answers are not shown. */
void wb_bay_list_show(WbBayList *self, const WbBrief *brief, WbResult *result);
/* "4 stand, 5 do not: proved" (transfer full) */
char *wb_bay_words(int stand, int bound, int asked);

#endif
