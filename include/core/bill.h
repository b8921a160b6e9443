/* The bill of one kit: every part it is made of, what of it has to be bought and for how much. */
#ifndef WB_BILL_H
#define WB_BILL_H

#include "wiring.h"

typedef struct {
    const WbPart *part;
    WbPartKind kind;
    const WbSourced *sourced;
    double count;  /* pieces; conductors: metres */
    double owned;  /* of them, at most count */
    int64_t minor; /* for the rest; 0 where it has no price */
} WbBillLine;

typedef struct {
    WbBillLine *line; /* panel, controller, storage, inverter, DC-DC charger; then conductors,
                         fuses, fittings, each kind by id */
    size_t n;
} WbBill;

/* Lines of kinds up to the DC-DC charger add up to parts_minor, the others to wiring_minor of the
 * kit's figures. WB_NO_MEMORY. */
WbStatus wb_bill(const WbProblem *problem, const WbKit *kit, const WbWiring *wiring, WbBill *bill);
void wb_bill_free(WbBill *bill);
/* To be bought, and it can be. */
static inline bool wb_bill_line_buys(const WbBillLine *line)
{
    return line->count > line->owned && line->sourced->priced;
}

#endif
