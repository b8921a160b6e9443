#include "load_day.h"

/* A brief of one load alone: its energy, hour by hour, is that load's share of the whole. */
static void add_load(WbLoadDay *day, const WbBrief *brief, const WbSky *sky, gsize index,
                     WbLoadBudget *budget)
{
    WbBrief alone = *brief;
    alone.loads = &brief->loads[index];
    alone.n_loads = 1;
    wb_load_budget(&alone, sky, budget);
    for (int h = 0; h < WB_HOURS; h++)
        day->wh[index][h] = budget->dc_wh[day->month][h] + budget->ac_wh[day->month][h];
}

static int largest_month(const WbLoadDay *day, guint32 months)
{
    int largest = -1;
    for (int m = 0; m < WB_MONTHS; m++)
        if (months >> m & 1 && (largest < 0 || day->total_wh[m] > day->total_wh[largest]))
            largest = m;
    return largest;
}

WbLoadDay *wb_load_day_new(const WbBrief *brief)
{
    g_autofree WbSky *sky = g_new(WbSky, 1);
    g_autofree WbLoadBudget *budget = g_new(WbLoadBudget, 1);
    if (wb_sky(&brief->site, sky) != WB_OK)
        return NULL;
    WbLoadDay *day = g_new0(WbLoadDay, 1);
    wb_load_budget(brief, sky, &day->budget);
    for (int m = 0; m < WB_MONTHS; m++)
        day->total_wh[m] = day->budget.dc_day_wh[m] + day->budget.ac_day_wh[m];
    day->month = largest_month(day, brief->site.months);
    day->n = brief->n_loads;
    day->wh = g_malloc0_n(MAX(day->n, 1), sizeof *day->wh);
    for (gsize i = 0; i < day->n && day->month >= 0; i++)
        add_load(day, brief, sky, i, budget);
    return day;
}

void wb_load_day_free(WbLoadDay *day)
{
    g_free(day->wh);
    g_free(day);
}
