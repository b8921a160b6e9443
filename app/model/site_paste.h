/* Monthly figures out of the text of a spreadsheet. */
#ifndef WB_SITE_PASTE_H
#define WB_SITE_PASTE_H

#include "site_edit.h"

typedef struct {
    gboolean given[WB_MONTHS][WB_N_MONTH_FIGURES];
    double value[WB_MONTHS][WB_N_MONTH_FIGURES];
} WbMonthPaste;

/* FALSE and a sentence that names line and column. */
gboolean wb_month_paste_read(WbMonthFigure first, int month, const char *text, WbMonthPaste *paste,
                             GError **error);

#endif
