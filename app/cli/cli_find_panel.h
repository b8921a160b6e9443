/* A panel of the catalogue by its id, for the commands that name panels. */
#ifndef WB_CLI_FIND_PANEL_H
#define WB_CLI_FIND_PANEL_H

#include "part.h"

/* NULL: the catalogue has none. */
const WbPanel *wb_cli_find_panel(const WbCatalogue *catalogue, const char *id);
/* The id a text was meant for: few changes away, else one the text is a piece of; NULL: none. */
const char *wb_cli_nearest_panel(const WbCatalogue *catalogue, const char *text);
/* Says that there is none, and which may be meant. Returns the exit code. */
int wb_cli_fail_panel(const WbCatalogue *catalogue, const char *id);
/* A text of the command line as a sentence may hold it: valid UTF-8, of a long one the beginning.
 * (transfer full) */
char *wb_cli_told(const char *text);

#endif
