/* What would let one more panel in, a line each that can be hovered, focused or pressed down to see
 * its layout. Signal "shown" (): the one looked at has changed. */
#ifndef WB_CHANGE_LIST_H
#define WB_CHANGE_LIST_H

#include "roof_study.h"
#include <gtk/gtk.h>

#define WB_TYPE_CHANGE_LIST (wb_change_list_get_type())
G_DECLARE_FINAL_TYPE(WbChangeList, wb_change_list, WB, CHANGE_LIST, GtkBox)

GtkWidget *wb_change_list_new(void);
/* The first `most` of the panel's; what was looked at is let go of where it says something else. */
void wb_change_list_show(WbChangeList *self, const WbStudyPanel *panel, const WbRoof *roof,
                         int most);
/* Index of the change under the pointer or the keyboard, else of the one pressed down; -1 none. */
int wb_change_list_get_shown(WbChangeList *self);
void wb_change_list_let_go(WbChangeList *self);

#endif
