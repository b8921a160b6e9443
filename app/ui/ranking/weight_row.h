/* The slider of one criterion; moving it edits the brief at once. */
#ifndef WB_WEIGHT_ROW_H
#define WB_WEIGHT_ROW_H

#include "page.h"

#define WB_TYPE_WEIGHT_ROW (wb_weight_row_get_type())
G_DECLARE_FINAL_TYPE(WbWeightRow, wb_weight_row, WB, WEIGHT_ROW, GtkBox)

GtkWidget *wb_weight_row_new(WbDocument *document, WbCriterion criterion);
void wb_weight_row_refresh(WbWeightRow *self);
void wb_weight_row_set_default(WbWeightRow *self, const WbAnchor *anchor);

#endif
