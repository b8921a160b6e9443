/* Members of a file that were not read, told to the person. */
#ifndef WB_CLI_NOT_READ_H
#define WB_CLI_NOT_READ_H

#include "brief_file.h"
#include "cli_json.h"
#include "not_read.h"

/* One line each on standard error. */
void wb_cli_say_not_read(const GPtrArray *not_read);
/* The same of what was made of the hourly file of a brief. */
void wb_cli_say_hours_notes(const WbBriefFile *file);
/* "not_read": [ { "pointer", "nearest" or null } ] */
void wb_cli_not_read_json(WbJsonOut *json, const GPtrArray *not_read);

#endif
