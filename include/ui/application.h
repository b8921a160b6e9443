/* The desktop program. */
#ifndef WB_APPLICATION_H
#define WB_APPLICATION_H

/* Runs the window until it is closed; argv as of main, at most one brief's path. Returns the
 * process's exit code. */
int wb_application_run(int argc, char **argv);

#endif
