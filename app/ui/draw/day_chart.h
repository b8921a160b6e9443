/* A day of loads, hour by hour, each load a band of its own on top of the others. Pointer and
 * Left/Right show the hour's loads. */
#ifndef WB_DAY_CHART_H
#define WB_DAY_CHART_H

#include <gtk/gtk.h>

#define WB_TYPE_DAY_CHART (wb_day_chart_get_type())
G_DECLARE_FINAL_TYPE(WbDayChart, wb_day_chart, WB, DAY_CHART, GtkWidget)

typedef struct {
    const char *name;
    double wh[24]; /* in hour h..h+1 */
} WbDayBand;

GtkWidget *wb_day_chart_new(void);
/* Copies the bands; the largest eight are named, the rest join as "others". `title` names the
 * picture: "Loads on a day in March". */
void wb_day_chart_set(WbDayChart *self, const char *title, const WbDayBand *bands, guint n);

#endif
