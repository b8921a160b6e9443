/* One kit in full. */
#ifndef WB_CLI_EXPLAIN_H
#define WB_CLI_EXPLAIN_H

#include "bill.h"
#include "cli_kit_json.h"

/* (transfer full) */
char *wb_cli_explain_text(const WbProblem *problem, const WbVerdict *verdict, WbStanding standing,
                          const WbWiring *wiring, const WbBill *bill);

#endif
