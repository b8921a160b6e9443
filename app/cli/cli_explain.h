/* One kit in full. */
#ifndef WB_CLI_EXPLAIN_H
#define WB_CLI_EXPLAIN_H

#include "cli_kit_json.h"
#include "wiring.h"

/* (transfer full) */
char *wb_cli_explain_text(const WbProblem *problem, const WbVerdict *verdict, WbStanding standing,
                          const WbWiring *wiring);

/* One line of the bill: what of a part is there and what has to be bought. */
typedef struct {
    const WbPart *part;
    const WbSourced *sourced;
    int count, bought;
} WbBillLine;

#define WB_BILL_MOST 5
/* Fills the lines in the order panel, controller, storage, inverter, DC-DC charger; how many. */
int wb_cli_bill(const WbProblem *problem, const WbKit *kit, WbBillLine lines[WB_BILL_MOST]);

#endif
