/* What texts with a meaning look like: ids, currencies, dates. Private to the store. */
#ifndef WB_TEXT_RULES_H
#define WB_TEXT_RULES_H

#include <stdbool.h>

#define WB_NAME_MOST 200
#define WB_NOTES_MOST 20000

#define WB_ID_ACCEPTED                                                                             \
    "an id of 1 to 64 lower-case letters, digits and hyphens that starts with a letter or digit"
#define WB_CURRENCY_ACCEPTED "a currency code of three capital letters (ISO 4217)"
#define WB_DATE_ACCEPTED "a date that exists, as YYYY-MM-DD"

bool wb_is_id(const char *text);
bool wb_is_currency(const char *text);
bool wb_is_date(const char *text);
/* Ids with one space between, or none at all. */
bool wb_is_id_list(const char *text);

#endif
