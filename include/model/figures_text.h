/* Plain numbers for people, the same in window and model: thousands set apart, as few decimals as
 * tell the figure apart. All (transfer full). */
#ifndef WB_FIGURES_TEXT_H
#define WB_FIGURES_TEXT_H

#include <glib.h>

/* At most `decimals` places, trailing zeros kept; NaN gives a dash. */
char *wb_text_number(double value, int decimals);
/* As a person types it: shortest text that reads back the same, decimal point. */
char *wb_text_plain(double value);
/* As a JSON string, quoted and escaped. */
char *wb_text_json(const char *text);
/* The one rule for typed and pasted numbers, the same in every locale: the point is decimal; commas
 * with exactly three digits after each, and one to three before that do not begin with 0, set
 * thousands apart ("1,200" is 1200), and so do spaces and apostrophes; any other single comma is
 * decimal ("12,5", "0,250"). Space around it is allowed, nothing else; FALSE: not a number, *value
 * is as it was. */
gboolean wb_text_read_number(const char *text, double *value);
const char *wb_text_month(int month); /* 0: "January" */
/* "June to September", "all year", "June, August". */
char *wb_text_months(guint32 months);

#endif
