/* Month by month: the place's figures, typed or pasted where they are the person's own, the shade
 * of each month, and what the kit in hand makes of them. */
#ifndef WB_MONTH_TABLE_H
#define WB_MONTH_TABLE_H

#include "kit.h"
#include "page.h"

#define WB_TYPE_MONTH_TABLE (wb_month_table_get_type())
G_DECLARE_FINAL_TYPE(WbMonthTable, wb_month_table, WB, MONTH_TABLE, GtkBox)

GtkWidget *wb_month_table_new(WbDocument *document);
/* Sun on the panels of this problem, yield, supply and need of this kit; NULL: none. */
void wb_month_table_show(WbMonthTable *self, const WbProblem *problem, const WbVerdict *verdict);

#endif
