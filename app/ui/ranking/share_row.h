/* What one criterion adds to the score of a kit. */
#ifndef WB_SHARE_ROW_H
#define WB_SHARE_ROW_H

#include "page.h"

#define WB_TYPE_SHARE_ROW (wb_share_row_get_type())
G_DECLARE_FINAL_TYPE(WbShareRow, wb_share_row, WB, SHARE_ROW, GtkBox)

GtkWidget *wb_share_row_new(void);
/* `weight` of sum 1, `worth` u; the bar shows weight x worth. */
void wb_share_row_set(WbShareRow *self, const char *title, const char *figure, double weight,
                      double worth);

#endif
