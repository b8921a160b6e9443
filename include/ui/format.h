/* Figures with their units to text for people, and back; plain numbers are model's figures_text.h.
 * Figures for files never go through here. All texts are (transfer full); a missing figure (NaN)
 * reads as an en dash. */
#ifndef WB_FORMAT_H
#define WB_FORMAT_H

#include "brief.h"
#include <glib.h>

/* Number, narrow no-break space, unit. */
char *wb_format_quantity(double value, int decimals, const char *unit);
/* A share 0..1 as whole percent: "63 %". */
char *wb_format_percent(double share);
/* Money in major units without its currency, for columns whose head names it: "1,612.00". */
char *wb_format_money(double minor, const char *currency);

/* How a criterion's figure is shown: unit (money: the currency), shown figure / figure in its own
 * unit, decimals. */
const char *wb_format_criterion_unit(WbCriterion criterion, const char *currency);
double wb_format_criterion_scale(WbCriterion criterion, const char *currency);
int wb_format_criterion_decimals(WbCriterion criterion);
/* The figure in the criterion's own unit (minor, kg, Wh, m2, days, W); with its unit, or bare. */
char *wb_format_figure(WbCriterion criterion, double value, const char *currency);
char *wb_format_figure_bare(WbCriterion criterion, double value, const char *currency);

const char *wb_format_month_short(int month); /* "Mar" */
/* What is typed at a number field: as wb_text_read_number, and a unit may follow. FALSE: not a
 * number. Empty text gives NaN. */
gboolean wb_format_parse(const char *text, double *value);

#endif
