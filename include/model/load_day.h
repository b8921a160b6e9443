/* The brief's loads over a day, one by one, for pictures and tables. */
#ifndef WB_LOAD_DAY_H
#define WB_LOAD_DAY_H

#include "load.h"
#include <glib.h>

typedef struct {
    WbLoadBudget budget;
    double total_wh[WB_MONTHS]; /* DC + AC at the loads, Wh on a mean day */
    int month;                  /* in use, with the largest total; -1: no month in use */
    gsize n;
    double (*wh)[WB_HOURS]; /* [load][hour] in that month, at the load */
} WbLoadDay;

/* NULL: the site's figures are not accepted by wb_sky. */
WbLoadDay *wb_load_day_new(const WbBrief *brief);
void wb_load_day_free(WbLoadDay *day);
G_DEFINE_AUTOPTR_CLEANUP_FUNC(WbLoadDay, wb_load_day_free)

#endif
