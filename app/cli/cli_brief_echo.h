/* What `brief check` reads out of a brief besides loads and limits: rules, weather, other sources,
 * wiring. Private to the terminal. */
#ifndef WB_CLI_BRIEF_ECHO_H
#define WB_CLI_BRIEF_ECHO_H

#include "brief_file.h"
#include "cli_json.h"

/* Lines, each wrapped and indented as the others of the answer. */
void wb_cli_echo_text(GString *out, const WbBriefFile *file);
/* Members of the answer's object. */
void wb_cli_echo_json(WbJsonOut *json, const WbBriefFile *file);

#endif
