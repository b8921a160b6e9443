/* How far long work is, told on standard error while it runs; silent unless that is a terminal. */
#ifndef WB_CLI_PROGRESS_H
#define WB_CLI_PROGRESS_H

#include "control.h"

typedef struct WbProgress WbProgress;

/* `what` and `control` must outlive it. NULL when nothing is to be told. */
WbProgress *wb_progress_start(const char *what, const WbControl *control);
/* Clears the line. `progress` may be NULL. */
void wb_progress_end(WbProgress *progress);

#endif
