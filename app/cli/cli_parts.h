/* The ticked parts of a problem as one list, and what was left out of it. */
#ifndef WB_CLI_PARTS_H
#define WB_CLI_PARTS_H

#include "problem.h"
#include <glib.h>

typedef struct {
    const WbPart *part;
    const WbSourced *sourced;
} WbCliPart;

/* Of WbCliPart: panels, controllers, storage, inverters, DC-DC chargers. (transfer full) */
GArray *wb_cli_parts(const WbProblem *problem);

/* Of const WbOffer: offers of ticked parts in a currency the brief has no rate for, or of a shop
 * whose shipping is in one. (transfer full) */
GPtrArray *wb_cli_offers_without_rate(const WbProblem *problem);

#endif
