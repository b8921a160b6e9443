/* All findings of the kit by severity; what was opened stays open when they are told anew. */
#ifndef WB_FINDING_LIST_H
#define WB_FINDING_LIST_H

#include "kit.h"
#include <gtk/gtk.h>

#define WB_TYPE_FINDING_LIST (wb_finding_list_get_type())
G_DECLARE_FINAL_TYPE(WbFindingList, wb_finding_list, WB, FINDING_LIST, GtkBox)

GtkWidget *wb_finding_list_new(void);
/* Both NULL: none. */
void wb_finding_list_set(WbFindingList *self, const WbProblem *problem, const WbVerdict *verdict);

#endif
