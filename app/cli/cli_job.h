/* What every command needs: its arguments, and the brief, catalogue and problem they name. */
#ifndef WB_CLI_JOB_H
#define WB_CLI_JOB_H

#include "brief_file.h"
#include "cli.h"
#include "database.h"
#include "problem.h"

#define WB_CLI_TOP_MOST 1000000

typedef struct {
    char *catalogue; /* --catalogue FILE, NULL: the person's own */
    int top;         /* --top N */
    char *top_typed; /* the same as typed, NULL: the usual number */
    char *list;      /* --list top|front, NULL: top */
    char *by;        /* --by score|goals|importance, NULL: the brief's way */
    char *hours;     /* --hours FILE, NULL: none wanted */
    char *year;      /* --year N as typed, NULL: all */
    char *count;     /* --count N as typed, NULL: as many as fit */
    char *nodes;     /* --nodes N as typed, NULL: the ranking's budget */
    char *panel;     /* --panel ID, NULL: all */
    char *part;      /* --part ID, NULL: none is asked about */
    char *instances; /* --instances FILE, NULL: none */
    gboolean json, mix, more, preview, make_new, every;
    char **rest; /* what is no option */
    guint n_rest;
} WbArguments;

/* A command; the tables of --help and of each command's help come from these. */
typedef struct {
    const char *name, *usage, *summary, *help;
    const char *options; /* those it takes, a space between */
    guint least, most;   /* how many arguments that are no option */
    int (*run)(const WbArguments *arguments);
} WbCommand;

typedef struct {
    WbBriefFile *file;
    WbCatalogueView *view;
    WbProblem *problem;
} WbJob;

int wb_cli_run_rank(const WbArguments *arguments);
int wb_cli_run_explain(const WbArguments *arguments);
/* explain --part. */
int wb_cli_run_part(const WbArguments *arguments);
int wb_cli_run_energy(const WbArguments *arguments);
int wb_cli_run_roof(const WbArguments *arguments);
int wb_cli_run_together(const WbArguments *arguments);
int wb_cli_run_catalogue(const WbArguments *arguments);
int wb_cli_run_brief(const WbArguments *arguments);
int wb_cli_run_places(const WbArguments *arguments);

/* All return a WbExit; anything but WB_EXIT_DONE has been told on standard error. */
/* A text file, or standard input for "-". */
int wb_cli_read_text(const char *name, GString *text);
/* `name`: as above, and "demo" for the built-in brief unless there is a file of that name. */
int wb_cli_load_brief(const char *name, WbBriefFile **file);
int wb_cli_load_catalogue(const WbArguments *arguments, WbCatalogueView **view);
/* The brief `name` and the catalogue, and that they belong together. */
int wb_cli_load_both(const WbArguments *arguments, const char *name, WbJob *job);
/* The same and the problem. */
int wb_cli_load_job(const WbArguments *arguments, const char *name, WbJob *job);
void wb_cli_clear_job(WbJob *job);

/* Tells the error, frees it and returns the exit code that belongs to it. */
int wb_cli_fail_with(GError *error);
int wb_cli_fail_status(WbStatus status);
/* Prints and frees the text. */
int wb_cli_print(char *text);

#endif
