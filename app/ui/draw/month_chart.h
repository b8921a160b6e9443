/* Supply and need by month as pairs of bars; months out of use are dimmed. Pointer and Left/Right
 * show the month's two numbers. */
#ifndef WB_MONTH_CHART_H
#define WB_MONTH_CHART_H

#include <gtk/gtk.h>

#define WB_TYPE_MONTH_CHART (wb_month_chart_get_type())
G_DECLARE_FINAL_TYPE(WbMonthChart, wb_month_chart, WB, MONTH_CHART, GtkWidget)

/* Where the plot of a picture without names begins, px: what names its months stands from there on.
 */
#define WB_MONTH_CHART_LEFT 60

GtkWidget *wb_month_chart_new(void);
/* Without names under the bars, where something else names the months. */
void wb_month_chart_hide_names(WbMonthChart *self);
/* Wh a day by month; either may be NULL. Bit m of `used`: month m is in use; `worst`: the month
 * that decides, -1 none. Names such as "Supply" and "Need". */
void wb_month_chart_set(WbMonthChart *self, const char *title, const char *supply_name,
                        const double supply_wh[12], const char *need_name, const double need_wh[12],
                        guint32 used, int worst);

#endif
