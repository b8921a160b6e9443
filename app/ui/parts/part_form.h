/* Every figure of one part to see and to edit, each edit saved to the catalogue at once, and its
 * offers. */
#ifndef WB_PART_FORM_H
#define WB_PART_FORM_H

#include "page.h"
#include "part_list.h"

#define WB_TYPE_PART_FORM (wb_part_form_get_type())
G_DECLARE_FINAL_TYPE(WbPartForm, wb_part_form, WB, PART_FORM, GtkBox)

void wb_part_form_set_context(WbPartForm *self, const WbContext *context);
/* NULL: none chosen. */
void wb_part_form_show(WbPartForm *self, WbPartRow *row);
/* The keyboard to the maker's field, its text marked. */
void wb_part_form_begin(WbPartForm *self);

#endif
