/* One finding in words, with the caution that belongs to it. */
#ifndef WB_FINDING_ROW_H
#define WB_FINDING_ROW_H

#include "page.h"

#define WB_TYPE_FINDING_ROW (wb_finding_row_get_type())
G_DECLARE_FINAL_TYPE(WbFindingRow, wb_finding_row, WB, FINDING_ROW, GtkBox)

GtkWidget *wb_finding_row_new(const WbProblem *problem, const WbVerdict *verdict,
                              const WbFinding *finding);

#endif
