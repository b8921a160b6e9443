/* Why is one part in no kit on the list? A field to find the part, and the answer in sentences; a
 * sentence about a kit takes that kit in hand. */
#ifndef WB_PART_PANE_H
#define WB_PART_PANE_H

#include "page.h"

#define WB_TYPE_PART_PANE (wb_part_pane_get_type())
G_DECLARE_FINAL_TYPE(WbPartPane, wb_part_pane, WB, PART_PANE, GtkBox)

/* A part asked about is asked about anew. */
void wb_part_pane_show(WbPartPane *self, WbResult *result);
/* Its part-asked is the part asked about, here and elsewhere; a chosen sentence takes its kit in
 * hand there. */
void wb_part_pane_set_session(WbPartPane *self, WbSession *session);

#endif
