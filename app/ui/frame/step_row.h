/* One step in the window's side. */
#ifndef WB_STEP_ROW_H
#define WB_STEP_ROW_H

#include "outline.h"
#include <gtk/gtk.h>

#define WB_TYPE_STEP_ROW (wb_step_row_get_type())
G_DECLARE_FINAL_TYPE(WbStepRow, wb_step_row, WB, STEP_ROW, GtkListBoxRow)

GtkWidget *wb_step_row_new(WbStep step);
WbStep wb_step_row_get_step(WbStepRow *self);
void wb_step_row_set(WbStepRow *self, const WbOutlineLine *line);

#endif
