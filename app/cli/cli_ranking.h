/* A ranking made for the terminal, and where a kit stands in it. */
#ifndef WB_CLI_RANKING_H
#define WB_CLI_RANKING_H

#include "cli_kit_json.h"
#include "rank.h"

/* Keeps at least `top` rows, and every kit where a pool is wanted. Returns a WbExit; a failure has
 * been told. */
int wb_cli_rank(const WbProblem *problem, size_t top, bool pool, WbRanking *ranking);
WbStanding wb_cli_standing(const WbProblem *problem, const WbRanking *ranking, const WbKit *kit);
/* Of the ranking's top or front, in their order. (transfer full) */
WbStanding *wb_cli_standings(const WbProblem *problem, const WbRanking *ranking,
                             const WbRanked *kits, size_t n);
/* Fills in the nearest kit of the dark hours where the ranking left it open. Returns a WbExit. */
int wb_cli_nearest_dark(const WbProblem *problem, WbRanking *ranking);
/* Counts and ids of a kit's parts in one line: "2s1p ID, 1 x ID, 1s2p ID, ...". (transfer full) */
char *wb_cli_parts_text(const WbProblem *problem, const WbKit *kit);
/* The member "ruled_out": every rule with its counts and the kit nearest to it. */
void wb_cli_ruled_out_json(WbJsonOut *json, const WbProblem *problem, const WbRanking *ranking);
/* Says that no kit works, and which rule rules out most by itself; returns WB_EXIT_NO_KIT. */
int wb_cli_fail_no_kit(const WbProblem *problem, const WbRanking *ranking);

#endif
