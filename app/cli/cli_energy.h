/* A kit's energy through the year: the hourly answer and the worksheet beside it. */
#ifndef WB_CLI_ENERGY_H
#define WB_CLI_ENERGY_H

#include "by_hand.h"
#include "kit.h"

/* The verdict must hold its year; hand NULL: the sheet cannot be filled. (transfer full) */
char *wb_cli_energy_text(const WbProblem *problem, const WbVerdict *verdict, const WbByHand *hand);

#endif
