/* The command line: the same work without a window. */
#ifndef WB_CLI_H
#define WB_CLI_H

#include <stdbool.h>

/* Exit codes, as the man page lists them. */
typedef enum {
    WB_EXIT_DONE = 0,
    WB_EXIT_WRONG_INPUT = 1, /* something in the brief or the catalogue is wrong */
    WB_EXIT_WRONG_USE = 2,   /* the command line is wrong */
    WB_EXIT_FILE = 3,        /* a file cannot be read or written */
    WB_EXIT_NO_KIT = 4,      /* no combination of the ticked parts works */
    WB_EXIT_DISPLAY = 5,     /* a window was asked for and no display can be opened */
    WB_EXIT_FAILED = 6,      /* out of memory */
} WbExit;

/* Is this first argument for the command line, rather than a brief to open in the window? */
bool wb_cli_knows(const char *argument);

/* argv[0] the program, argv[1] a command, --help or --version. Returns a WbExit. */
int wb_cli_run(int argc, char **argv);

/* The built-in demo brief ranked in the terminal, for a start without display. */
int wb_cli_demo(void);

/* One sentence on standard error; returns `code`. */
int wb_cli_fail(WbExit code, const char *format, ...) __attribute__((format(printf, 2, 3)));

#endif
