/* The way to rank, in the terminal. */
#ifndef WB_CLI_WAY_H
#define WB_CLI_WAY_H

#include "cli_job.h"
#include "cli_json.h"
#include "kit.h"

/* --by: the brief with another way; NULL: as it is. A WbExit, told if it is not done. */
int wb_cli_take_way(const char *way, WbJob *job);
void wb_cli_append_way(GString *out, const WbProblem *problem);
void wb_cli_way_json(WbJsonOut *json, const WbProblem *problem);
/* Distance from the goals and steps of one kit. */
void wb_cli_place_json(WbJsonOut *json, const WbProblem *problem, const WbFigures *figures);

#endif
