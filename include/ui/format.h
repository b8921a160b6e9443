/* Numbers and units to text for people, in the person's locale. Figures for files never go through
 * here. All texts are (transfer full); a missing figure (NaN) reads as an en dash. */
#ifndef WB_FORMAT_H
#define WB_FORMAT_H

#include "brief.h"
#include <glib.h>

/* Grouped by thousands, fixed decimals: "1,932", "12.8", a true minus sign. */
char *wb_format_number(double value, int decimals);
/* As few decimals as tell it apart, at most `most`: 12.8 -> "12.8", 13.0 -> "13". */
char *wb_format_short(double value, int most);
/* Number, narrow no-break space, unit; no space before "%" of an empty unit. */
char *wb_format_quantity(double value, int decimals, const char *unit);
/* A share 0..1 as whole percent: "63 %". */
char *wb_format_percent(double share);
/* Money in major units without a currency sign, for columns whose head names it: "1,612.00". */
char *wb_format_money(double minor, const char *currency);

/* What a criterion is called, its unit in tables and pictures (money: the currency; energy: kWh)
 * and its figure there. */
const char *wb_format_criterion(WbCriterion criterion);
const char *wb_format_criterion_unit(WbCriterion criterion, const char *currency);
double wb_format_criterion_scale(WbCriterion criterion,
                                 const char *currency); /* shown / own unit */
int wb_format_criterion_decimals(WbCriterion criterion);
/* The figure in the criterion's own unit (minor, kg, Wh, m2, days, W), with unit. */
char *wb_format_figure(WbCriterion criterion, double value, const char *currency);

const char *wb_format_month(int month);       /* "March", 0..11 */
const char *wb_format_month_short(int month); /* "Mar" */
/* What is typed at a number field; comma or point, spaces and a trailing unit allowed. FALSE: not a
 * number. Empty text gives NaN. */
gboolean wb_format_parse(const char *text, double *value);

#endif
