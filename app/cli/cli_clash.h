/* Which limits of a brief cannot be kept at once, for the terminal. */
#ifndef WB_CLI_CLASH_H
#define WB_CLI_CLASH_H

#include "clash.h"
#include "cli_json.h"
#include <glib.h>

/* Finds out, if nothing works. Returns a WbExit; a failure has been told. */
int wb_cli_clash(const WbProblem *problem, const WbRanking *ranking, WbClash *clash);
/* Nothing where it was not asked. */
void wb_cli_clash_append(GString *out, const WbProblem *problem, const WbClash *clash);
/* The member "clash": null where it was not asked. */
void wb_cli_clash_json(WbJsonOut *json, const WbProblem *problem, const WbClash *clash);

#endif
