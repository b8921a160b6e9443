/* One limit of the brief: whether it holds, and its value where it has one. */
#ifndef WB_LIMIT_ROW_H
#define WB_LIMIT_ROW_H

#include "page.h"

#define WB_TYPE_LIMIT_ROW (wb_limit_row_get_type())
G_DECLARE_FINAL_TYPE(WbLimitRow, wb_limit_row, WB, LIMIT_ROW, GtkBox)

typedef enum {
    WB_LIMIT_MONEY,
    WB_LIMIT_WEIGHT,
    WB_LIMIT_AUTONOMY, /* cannot be switched off */
    WB_LIMIT_DARK,
    WB_LIMIT_ROOF, /* no value: the fit itself */
    WB_LIMIT_BAY,
    WB_N_LIMITS,
} WbLimitKind;

GtkWidget *wb_limit_row_new(WbDocument *document, WbLimitKind kind);
void wb_limit_row_refresh(WbLimitRow *self);

#endif
