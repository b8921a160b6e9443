/* The desktop program. */
#ifndef WB_APPLICATION_H
#define WB_APPLICATION_H

#include <gio/gio.h>

/* The GtkApplication itself, for tests. (transfer full) */
GApplication *wb_application_new(GApplicationFlags flags);
/* Runs the window until it is closed; argv as of main, at most one brief's path. Returns the
 * process's exit code. */
int wb_application_run(int argc, char **argv);

#endif
