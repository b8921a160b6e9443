/* The circuits of chargers to the bus bars. They look at two sides: which fuses will do depends on
 * the bank, so they are sized once for all banks that leave the same fuses to choose from. */
#ifndef WB_LINKS_H
#define WB_LINKS_H

#include "halves.h"

typedef struct {
    WbSideBill bill;
    bool known, broken;
} WbLink;

typedef struct {
    const WbProblem *problem;
    const WbBankKind *kind;
    WbLink *link; /* by fuses that will do, then controllers in their counts and DC-DC chargers */
    size_t n_rows, row;
} WbLinks;

/* For one kind of bank. False: out of memory. */
bool wb_links_init(WbLinks *links, const WbProblem *problem, const WbBankKind *kind);
const WbLink *wb_links_charge(WbLinks *links, const WbHalf *array, const WbHalf *bank);
const WbLink *wb_links_dcdc(WbLinks *links, const WbHalf *dcdc, const WbHalf *bank);
void wb_links_free(WbLinks *links);

#endif
