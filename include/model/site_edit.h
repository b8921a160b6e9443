/* Edits of place, season and driving as a person makes them. Each is one undo step; FALSE and one
 * sentence where it is refused, and nothing changed. */
#ifndef WB_SITE_EDIT_H
#define WB_SITE_EDIT_H

#include "document.h"

/* The twelve figures of a place, in the order of a table's columns and of a paste. */
typedef enum {
    WB_MONTH_SUN,      /* kWh/m2 on the horizontal, mean day */
    WB_MONTH_AIR_MEAN, /* C */
    WB_MONTH_AIR_MAX,
    WB_MONTH_AIR_MIN,
    WB_N_MONTH_FIGURES,
} WbMonthFigure;

/* Member of the place: "ghi_kwh_m2_day", ... */
const char *wb_month_figure_key(WbMonthFigure figure);
const char *wb_month_figure_title(WbMonthFigure figure); /* for people, translated */
double wb_month_figure(const WbPlace *place, WbMonthFigure figure, int month);

gboolean wb_site_is_own(WbDocument *document);
gboolean wb_site_choose_place(WbDocument *document, const char *place_id, GError **error);
/* The figures of the place at hand become the person's own, to be changed one by one. */
gboolean wb_site_begin_own(WbDocument *document, GError **error);
/* Figures copied from a spreadsheet into own figures, from a column and month on: lines of cells
 * split by tabs, semicolons or commas, decimal point or comma; a first line of heads and a first
 * column of month names are passed over; a line of twelve is a column laid flat. */
gboolean wb_site_paste(WbDocument *document, WbMonthFigure first, int month, const char *text,
                       GError **error);

gboolean wb_site_use_month(WbDocument *document, int month, gboolean in_use, GError **error);
/* Whether banks of a system voltage are tried; bit as in WbBrief.system_v. The last stays on. */
gboolean wb_site_try_system(WbDocument *document, int bit, gboolean tried, GError **error);
/* One figure of shading for the year, or one a month; changing over keeps the loss as well as it
 * can be kept (the mean of the months in use). */
gboolean wb_site_is_shaded_by_month(WbDocument *document);
gboolean wb_site_shade_by_month(WbDocument *document, gboolean by_month, GError **error);

/* Hours of the person's own in place of made weather: a path, absolute or from the brief's folder;
 * NULL: none. A file that cannot be used is taken all the same, and wb_site_hourly_problem says why
 * no kit can be worked out. Choosing the same file again reads it again. */
gboolean wb_site_set_hourly_file(WbDocument *document, const char *path, GError **error);
const char *wb_site_hourly_file(WbDocument *document);    /* whole path, NULL: none. Borrowed */
const char *wb_site_hourly_problem(WbDocument *document); /* NULL: none. Borrowed */
/* What was made of the file, NULL: nothing read. (transfer full) */
char *wb_site_hourly_note(WbDocument *document);

/* First figures of shore power to be changed (a night a week, 20 A), or none. */
gboolean wb_site_set_shore(WbDocument *document, gboolean plugged, GError **error);
gboolean wb_site_has_shore(WbDocument *document);

/* A first alternator to be changed (common practice: 90 A, 12 V, an hour a day), or none. */
gboolean wb_site_set_driving(WbDocument *document, gboolean drives, GError **error);

#endif
