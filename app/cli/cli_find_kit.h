/* The kit a person means on the command line. */
#ifndef WB_CLI_FIND_KIT_H
#define WB_CLI_FIND_KIT_H

#include "rank.h"

/* `text`: a rank or a kit's id; NULL: the first kit. The ranking is made for a rank, and for an id
 * where `ranked` asks for it. Returns a WbExit; a failure has been told. */
int wb_cli_find_kit(const WbProblem *problem, const char *text, bool ranked, WbRanking *ranking,
                    WbKit *kit);

#endif
