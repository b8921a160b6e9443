/* Rounding of money and grams. */
#ifndef WB_ROUND_H
#define WB_ROUND_H

#include <stdint.h>

/* Half up as a person would on paper: rates, lengths and percentages are typed in decimals, which a
 * double misses by up to a few parts in 2^53, so a half just missed is still a half. |amount| <
 * 2^51. */
int64_t wb_round_half_up(double amount);

#endif
