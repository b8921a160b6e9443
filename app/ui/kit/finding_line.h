/* One finding of the kit: its sentence with the caution that belongs to it and a bar that shows how
 * near its limit it stands. Pressed, it opens formula, numbers, source and what to change. */
#ifndef WB_FINDING_LINE_H
#define WB_FINDING_LINE_H

#include "kit.h"
#include <gtk/gtk.h>

#define WB_TYPE_FINDING_LINE (wb_finding_line_get_type())
G_DECLARE_FINAL_TYPE(WbFindingLine, wb_finding_line, WB, FINDING_LINE, GtkBox)

GtkWidget *wb_finding_line_new(const WbProblem *problem, const WbVerdict *verdict,
                               const WbFinding *finding, gboolean open);
WbRule wb_finding_line_get_rule(WbFindingLine *self);
gboolean wb_finding_line_get_open(WbFindingLine *self);

#endif
