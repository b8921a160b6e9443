/* What the cold does to a bank, day by day. */
#ifndef WB_BANK_DAYS_H
#define WB_BANK_DAYS_H

#include "part.h"
#include "weather.h"

/* What the chemistry and the bank's place do to it, day by day; shared by all banks of a chemistry
 * whose charging limit and heating are the same. */
typedef struct {
    int n_years;
    double *capacity_factor; /* n_years x 365: f_temp <= 1 */
    uint8_t *too_cold;       /* n_years x 365: 1 = below the chemistry's charging limit */
} WbBankDays;

/* Inside and own: the site's figure, whatever the weather; outside: the mean air of the day (a bank
 * follows the air slowly). WB_NO_MEMORY. */
WbStatus wb_bank_days(const WbSite *site, const WbPlaneHours *plane, const WbChemistry *chemistry,
                      WbBankDays *days);
void wb_bank_days_free(WbBankDays *days);

#endif
