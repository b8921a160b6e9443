/* How the list keeps its rows: see kit_list.c. */
#ifndef WB_KIT_ROW_PRIVATE_H
#define WB_KIT_ROW_PRIVATE_H

#include "kit_list.h"

struct _WbKitRow {
    GObject parent_instance;
    WbResult *result;
    const WbRanked *ranked; /* of the result */
    guint rank;
    guint position;
    GPtrArray *places; /* of the list, by position: the row clears its own when it ends; NULL: the
                          list let go of it */
    char *id;          /* NULL: not asked yet */
};

/* (transfer full) empty; wb_kit_row_put fills it. */
WbKitRow *wb_kit_row_new(GPtrArray *places, guint position);
void wb_kit_row_put(WbKitRow *self, WbResult *result, const WbRanked *ranked, guint rank);

#endif
