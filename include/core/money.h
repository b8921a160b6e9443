/* Prices: integer minor units and an ISO 4217 code. */
#ifndef WB_MONEY_H
#define WB_MONEY_H

#include "brief.h"
#include "part.h"

/* Decimal places of a currency's minor unit (ISO 4217): 2, or 0, 3 or 4 for the listed ones; -1 if
 * the text is not three capital letters. */
int wb_currency_decimals(const char *currency);

/* Into the brief's currency, rounded half up; false when the brief has no rate for it or the sum is
 * beyond 2^51 minor units. *converted_minor is then untouched. */
bool wb_money_convert(const WbBrief *brief, int64_t minor, const char *currency,
                      int64_t *converted_minor);

/* The offer a part is bought at: of the shop the person fixed if it has a usable one, else the
 * cheapest usable one after conversion (of each shop only its newest; ties: shop id). Usable: the
 * currency of the offer and of its shop's shipping have a rate. Returns NULL when there is none. */
const WbOffer *wb_best_offer(const WbBrief *brief, const WbCatalogue *catalogue,
                             const char *part_id, int64_t *price_minor);

/* Parts bought + shipping once per shop + sundries_pct of the parts (rounded half up). */
int64_t wb_allowance_minor(int64_t parts_minor, double sundries_pct);

#endif
