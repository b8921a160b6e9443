/* The circuits of one kit, as text and JSON. */
#ifndef WB_CLI_CIRCUITS_H
#define WB_CLI_CIRCUITS_H

#include "cli_json.h"
#include "wiring.h"

/* Nothing while circuits are not sized. */
void wb_cli_circuits_text(GString *out, const WbProblem *problem, const WbKit *kit,
                          const WbWiring *wiring);
void wb_cli_circuits_json(WbJsonOut *json, const char *key, const WbProblem *problem,
                          const WbKit *kit, const WbWiring *wiring);

#endif
