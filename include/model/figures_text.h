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
/* Reads "1250", "12.5", "12,5"; surrounding space allowed, nothing else. */
gboolean wb_text_read_number(const char *text, double *value);
const char *wb_text_month(int month); /* 0: "January" */
/* "June to September", "all year", "June, August". */
char *wb_text_months(guint32 months);

#endif
