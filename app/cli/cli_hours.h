/* The hours of one kit's years as CSV. */
#ifndef WB_CLI_HOURS_H
#define WB_CLI_HOURS_H

#include "cli_job.h"
#include "kit.h"

typedef struct {
    const char *path;        /* "-": standard output; NULL: nothing to write */
    int first_year, n_years; /* from 0 */
} WbHoursWanted;

/* Both return a WbExit; a failure has been told. */
/* What --hours and --year ask for. */
int wb_cli_hours_wanted(const WbArguments *arguments, const WbProblem *problem,
                        WbHoursWanted *wanted);
/* One row an hour; the file is replaced whole or left as it is. */
int wb_cli_write_hours(const WbHoursWanted *wanted, const WbProblem *problem, const WbKit *kit);

#endif
