#include "cli.h"

#include "cli_find_panel.h"
#include "cli_job.h"
#include "cli_table.h"
#include <glib/gi18n-lib.h>
#include <string.h>

#define DEFAULT_TOP 10

/* In the order --help shows. tests/cli checks that the man page documents every one. */
static const WbCommand commands[] = {
    {
        "rank",
        N_("rank BRIEF [--catalogue FILE] [--top N] [--list top|front] [--by WAY] [--every] "
           "[--more] "
           "[--json]"),
        N_("Rank every kit that works and say what ruled the others out"),
        N_("Tries every combination of the ticked parts within the brief's largest counts. Prints "
           "the best N (10 unless --top says otherwise) or, with --list front, those on the "
           "front: no other kit is as good in all that counts there and better in one; then how "
           "many kits each rule ruled out; then the "
           "cautions of the first kit. --by ranks by score, goals or importance in place of the "
           "brief's own way. Kits the same as a better one but for one choice are told in a line "
           "under it, unless --every lists each; --json lists each and names the better one. "
           "--more adds what more money, weight and roof would buy: "
           "the most usable capacity and the fewest dark hours for so much of each."),
        "catalogue top list by every more json",
        1,
        1,
        wb_cli_run_rank,
    },
    {
        "explain",
        N_("explain BRIEF [KIT] [--part ID] [--by WAY] [--catalogue FILE] [--json]"),
        N_("Show one kit in full, or say why one part is in no kit of the list"),
        N_("KIT is a rank such as 1, or a kit's id as explain and --json print it; without it the "
           "first kit. A kit that does not work can be explained by its id. With --part it answers "
           "for one part of the catalogue: how many combinations hold it and how many of these "
           "work; if none, what stops them and the nearest kit of each rule; else where the best "
           "of them stands and what it loses against the first. For a conductor, fuse or fitting: "
           "in which circuits of KIT it is, and why not in the others. --by as for rank: ranks are "
           "those "
           "of that way."),
        "catalogue part by json",
        1,
        2,
        wb_cli_run_explain,
    },
    {
        "energy",
        N_("energy BRIEF [KIT] [--by WAY] [--catalogue FILE] [--json] [--hours FILE [--year N]]"),
        N_("Show one kit's year: month by month, dark hours, and a worksheet to follow by hand"),
        N_("KIT as for explain. Prints the weather used, what comes in and what the loads get in "
           "each month, the year's figures, the worst month's worksheet line by line, and why the "
           "hourly year answers otherwise. --hours writes every hour of all years, or of year N "
           "alone, as CSV (FILE - is standard output, and nothing else is printed)."),
        "catalogue by json hours year",
        1,
        2,
        wb_cli_run_energy,
    },
    {
        "roof",
        N_("roof BRIEF|--instances FILE [--catalogue FILE] [--panel ID [--count N]] [--mix] "
           "[--nodes N] [--json]"),
        N_("Say for each ticked panel how many fit the roof, and whether that is proved"),
        N_("Each panel lies flat, turned by 0 or 90 degrees. Without --panel and --mix then "
           "follows how many of each ticked battery stand in the storage bay. Under each panel "
           "stands the least change of the roof that lets one more lie, looked for briefly. "
           "--panel shows one panel in full: the distances to measure out, shade, why no more fit, "
           "and every kind of change; with --count it answers whether N of it fit, with a layout "
           "of N or the proof that there is none. --mix adds the best mixes of the panels that "
           "give most alone and of the largest that fit; on a slanted roof that takes some "
           "seconds. --nodes lets each search look at N places of its tree before it gives up; "
           "the same N gives the same answer on every machine. Layouts and proofs of all panels "
           "are in the --json output. --instances takes packing instances from a file in place of "
           "a brief, - for standard input: how many rectangles fit, or whether all do, with "
           "layouts and proofs checked."),
        "catalogue panel count instances mix nodes json",
        0,
        1,
        wb_cli_run_roof,
    },
    {
        "together",
        N_("together [series|parallel] PANEL[xN] PANEL[xN]... [--catalogue FILE] [--json]"),
        N_("Say what unlike panels give in one string or side by side, and what they lose"),
        N_("PANEL is a panel's id in the catalogue, PANELxN a string of N of them. series puts all "
           "into one string, parallel the strings side by side; without the word both are shown. "
           "Name a panel twice to put two strings of it side by side. Cautions on cold voltage, "
           "makers' limits and fuses follow."),
        "catalogue json",
        1,
        G_MAXUINT,
        wb_cli_run_together,
    },
    {
        "catalogue",
        N_("catalogue export|import|check FILE [--catalogue FILE] [--preview] [--json]"),
        N_("Write the catalogue to a JSON file, merge one into it, or check one"),
        N_("export writes all parts, shops and offers (FILE - is standard output). import adds and "
           "replaces rows by id, all or nothing; --preview only counts them. check reads an export "
           "or a database and says what it holds. --catalogue names another database than your "
           "own."),
        "catalogue preview json",
        2,
        2,
        wb_cli_run_catalogue,
    },
    {
        "brief",
        N_("brief --new | brief check FILE [--catalogue FILE] [--json]"),
        N_("Print a valid new brief, or check one"),
        N_("check reads the brief, makes sure the catalogue holds every part it names, and prints "
           "what was understood, so that a slip shows. What was not read is named on standard "
           "error."),
        "catalogue new json",
        0,
        2,
        wb_cli_run_brief,
    },
    {
        "places",
        N_("places [TEXT] [--json]"),
        N_("List the built-in places, or those whose name or country holds TEXT"),
        N_("The id in the first column is what a brief's site takes as its place."),
        "json",
        0,
        1,
        wb_cli_run_places,
    },
};

/* Words that are no commands of the table above, but can be asked about. */
static const WbCommand explained[] = {
    {
        .name = "open",
        .usage = N_("[open] [BRIEF]"),
        .summary = N_("Open the window, on a brief where one is named"),
        .help =
            N_("BRIEF has to be a file here. Without BRIEF and without a display the demo brief "
               "is ranked in the terminal."),
    },
    {
        .name = "help",
        .usage = N_("help COMMAND"),
        .summary = N_("Say more about one command"),
        .help = N_("wattberth --help lists the commands and the exit codes."),
    },
};

static const WbCommand *find_command(const char *name)
{
    for (gsize i = 0; i < G_N_ELEMENTS(commands); i++)
        if (strcmp(commands[i].name, name) == 0)
            return &commands[i];
    return NULL;
}

bool wb_cli_knows(const char *argument)
{
    static const char *const others[] = {"help", "--help", "-h", "--version", NULL};
    return find_command(argument) != NULL || g_strv_contains(others, argument);
}

static int print_overview(void)
{
    GString *out = g_string_new(_("Wattberth helps choose the parts of a small off-grid electrical "
                                  "system.\n\nUsage:\n"));
    g_string_append(out, "  wattberth [open] [BRIEF]\n");
    wb_cli_wrap(out, "      ", _("Open the window; without a display, rank the demo brief"));
    for (gsize i = 0; i < G_N_ELEMENTS(commands); i++) {
        wb_cli_wrap(out, "  wattberth ", _(commands[i].usage));
        wb_cli_wrap(out, "      ", _(commands[i].summary));
    }
    g_string_append(out, "  wattberth help COMMAND\n  wattberth --help | --version\n\n");
    wb_cli_wrap(out, "",
                _("BRIEF is a file, - for standard input, or demo for the built-in example. "
                  "--catalogue takes a database or a JSON export; without it your own catalogue "
                  "is used, and made from the starting catalogue the first time."));
    g_string_append_c(out, '\n');
    wb_cli_wrap(out, "",
                _("This tool plans. High-current DC, batteries and roof work can burn, gas and "
                  "kill: it does not replace local codes or licensed practice."));
    g_string_append_c(out, '\n');
    wb_cli_wrap(out, "",
                _("Exit codes: 0 done, 1 something in the brief or catalogue is wrong, 2 the "
                  "command line is wrong, 3 a file cannot be read or written, 4 no kit works, 5 no "
                  "display, 6 out of memory."));
    return wb_cli_print(g_string_free(out, FALSE));
}

static int print_help(const WbCommand *command)
{
    GString *out = g_string_new(NULL);
    wb_cli_wrap(out, _("Usage: wattberth "), _(command->usage));
    g_string_append_c(out, '\n');
    g_autofree char *summary = g_strconcat(_(command->summary), ".", NULL);
    wb_cli_wrap(out, "", summary);
    wb_cli_wrap(out, "", _(command->help));
    return wb_cli_print(g_string_free(out, FALSE));
}

static int run_help(int argc, char **argv)
{
    if (argc < 3)
        return print_overview();
    const WbCommand *command = find_command(argv[2]);
    for (gsize i = 0; command == NULL && i < G_N_ELEMENTS(explained); i++)
        if (strcmp(explained[i].name, argv[2]) == 0)
            command = &explained[i];
    if (command == NULL)
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("There is no command “%s”; wattberth --help lists them."), argv[2]);
    return print_help(command);
}

static bool takes(const WbCommand *command, const char *option)
{
    g_auto(GStrv) options = g_strsplit(command->options, " ", -1);
    return g_strv_contains((const char *const *)options, option);
}

/* GOption lets --mix=3 pass and drops the 3. After -- there are no options. */
static bool refuse_values(const GOptionEntry *taken, char **argv, GError **error)
{
    for (int i = 1; argv[i] != NULL && !g_str_equal(argv[i], "--"); i++)
        for (const GOptionEntry *entry = taken; entry->long_name != NULL; entry++) {
            gsize n = strlen(entry->long_name);
            if (entry->arg != G_OPTION_ARG_NONE || !g_str_has_prefix(argv[i], "--") ||
                strncmp(argv[i] + 2, entry->long_name, n) != 0 || argv[i][n + 2] != '=')
                continue;
            g_autofree char *told = wb_cli_told(argv[i] + n + 3);
            g_set_error(error, G_OPTION_ERROR, G_OPTION_ERROR_BAD_VALUE,
                        _("--%s takes no value, but “%s” is given"), entry->long_name, told);
            return false;
        }
    return true;
}

/* The options this command takes, out of all there are. */
static void parse(const WbCommand *command, char ***argv, WbArguments *arguments, GError **error)
{
    const GOptionEntry all[] = {
        {"catalogue", 0, 0, G_OPTION_ARG_FILENAME, &arguments->catalogue, NULL, NULL},
        {"top", 0, 0, G_OPTION_ARG_STRING, &arguments->top_typed, NULL, NULL},
        {"list", 0, 0, G_OPTION_ARG_STRING, &arguments->list, NULL, NULL},
        {"by", 0, 0, G_OPTION_ARG_STRING, &arguments->by, NULL, NULL},
        {"hours", 0, 0, G_OPTION_ARG_FILENAME, &arguments->hours, NULL, NULL},
        {"year", 0, 0, G_OPTION_ARG_STRING, &arguments->year, NULL, NULL},
        {"nodes", 0, 0, G_OPTION_ARG_STRING, &arguments->nodes, NULL, NULL},
        {"panel", 0, 0, G_OPTION_ARG_STRING, &arguments->panel, NULL, NULL},
        {"part", 0, 0, G_OPTION_ARG_STRING, &arguments->part, NULL, NULL},
        {"count", 0, 0, G_OPTION_ARG_STRING, &arguments->count, NULL, NULL},
        {"instances", 0, 0, G_OPTION_ARG_FILENAME, &arguments->instances, NULL, NULL},
        {"json", 0, 0, G_OPTION_ARG_NONE, &arguments->json, NULL, NULL},
        {"more", 0, 0, G_OPTION_ARG_NONE, &arguments->more, NULL, NULL},
        {"mix", 0, 0, G_OPTION_ARG_NONE, &arguments->mix, NULL, NULL},
        {"every", 0, 0, G_OPTION_ARG_NONE, &arguments->every, NULL, NULL},
        {"preview", 0, 0, G_OPTION_ARG_NONE, &arguments->preview, NULL, NULL},
        {"new", 0, 0, G_OPTION_ARG_NONE, &arguments->make_new, NULL, NULL},
        {G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &arguments->rest, NULL, NULL},
    };
    GOptionEntry taken[G_N_ELEMENTS(all) + 1] = {0};
    gsize n = 0;
    for (gsize i = 0; i < G_N_ELEMENTS(all); i++)
        if (all[i].long_name[0] == '\0' || takes(command, all[i].long_name))
            taken[n++] = all[i];
    g_autoptr(GOptionContext) context = g_option_context_new(NULL);
    g_option_context_set_help_enabled(context, FALSE);
    g_option_context_add_main_entries(context, taken, NULL);
    if (refuse_values(taken, *argv, error))
        g_option_context_parse_strv(context, argv, error);
    arguments->n_rest = arguments->rest == NULL ? 0 : g_strv_length(arguments->rest);
}

static int read_top(WbArguments *arguments)
{
    guint64 top;
    if (arguments->top_typed == NULL)
        return WB_EXIT_DONE;
    if (!g_ascii_string_to_unsigned(arguments->top_typed, 10, 1, WB_CLI_TOP_MOST, &top, NULL)) {
        g_autofree char *told = wb_cli_told(arguments->top_typed);
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("--top takes a whole number from 1 to %d, not “%s”."), WB_CLI_TOP_MOST,
                           told);
    }
    arguments->top = (int)top;
    return WB_EXIT_DONE;
}

static int check_and_run(const WbCommand *command, WbArguments *arguments)
{
    if (arguments->n_rest < command->least || arguments->n_rest > command->most)
        return wb_cli_fail(WB_EXIT_WRONG_USE, _("The command is: wattberth %s."),
                           _(command->usage));
    if (read_top(arguments) != WB_EXIT_DONE)
        return WB_EXIT_WRONG_USE;
    if (arguments->list != NULL && !g_str_equal(arguments->list, "top") &&
        !g_str_equal(arguments->list, "front"))
        return wb_cli_fail(WB_EXIT_WRONG_USE, _("--list takes “top” or “front”, not “%s”."),
                           arguments->list);
    return command->run(arguments);
}

static int run_command(const WbCommand *command, char **argv)
{
    /* GOption frees what it takes out of the vector and expects the program's name first. */
    g_auto(GStrv) copy = g_strdupv(argv);
    WbArguments arguments = {.top = DEFAULT_TOP};
    g_autoptr(GError) error = NULL;
    parse(command, &copy, &arguments, &error);
    int code = error == NULL
                   ? check_and_run(command, &arguments)
                   : wb_cli_fail(WB_EXIT_WRONG_USE, _("%s; the command is: wattberth %s."),
                                 error->message, _(command->usage));
    g_free(arguments.catalogue);
    g_free(arguments.list);
    g_free(arguments.by);
    g_free(arguments.top_typed);
    g_free(arguments.hours);
    g_free(arguments.year);
    g_free(arguments.nodes);
    g_free(arguments.panel);
    g_free(arguments.part);
    g_free(arguments.count);
    g_free(arguments.instances);
    g_strfreev(arguments.rest);
    return code;
}

int wb_cli_run(int argc, char **argv)
{
    const WbCommand *command = find_command(argv[1]);
    if (command != NULL && g_strv_contains((const char *const *)argv, "--help"))
        return print_help(command);
    if (command != NULL)
        return run_command(command, argv + 1);
    if (strcmp(argv[1], "--version") == 0)
        return wb_cli_print(g_strdup("wattberth " WB_VERSION "\n"));
    return run_help(argc, argv);
}

int wb_cli_demo(void)
{
    char name[] = "demo";
    char *rest[] = {name, NULL};
    const WbArguments arguments = {.top = DEFAULT_TOP, .rest = rest, .n_rest = 1};
    return wb_cli_run_rank(&arguments);
}
