/* A kit's hourly year, for the terminal and as JSON. */
#ifndef WB_CLI_YEAR_H
#define WB_CLI_YEAR_H

#include "cli_json.h"
#include "kit.h"

/* Headed summary of all years; nothing where the year was not worked out. */
void wb_cli_year_text(GString *out, const WbYear *year);
/* null where the year was not worked out. */
void wb_cli_year_json(WbJsonOut *json, const char *key, const WbProblem *problem,
                      const WbYear *year);

/* Does the brief have shore power? */
bool wb_cli_has_shore(const WbProblem *problem);

#endif
