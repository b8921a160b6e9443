/* What comes in by month and source (sun, alternator, shore) beside what is needed; need that is
 * not carried is marked on top of it. Pointer and Left/Right show the month's numbers. */
#ifndef WB_SOURCE_CHART_H
#define WB_SOURCE_CHART_H

#include "year.h"
#include <gtk/gtk.h>

#define WB_TYPE_SOURCE_CHART (wb_source_chart_get_type())
G_DECLARE_FINAL_TYPE(WbSourceChart, wb_source_chart, WB, SOURCE_CHART, GtkWidget)

GtkWidget *wb_source_chart_new(void);
/* Copies; bit m of `used`: month m is in use. */
void wb_source_chart_set(WbSourceChart *self, const WbYearMonth month[WB_MONTHS], guint32 used);

#endif
