/* Decides between the command line and the window, and knows nothing else. */
#include "application.h"
#include "cli.h"

#include <glib/gi18n.h>
#include <gtk/gtk.h>
#include <locale.h>
#include <string.h>

static int run_window(char *program, char *brief)
{
    char *arguments[] = {program, brief, NULL};
    return wb_application_run(brief != NULL ? 2 : 1, arguments);
}

static int open_brief(char *program, char *brief)
{
    if (brief[0] == '-' || !g_file_test(brief, G_FILE_TEST_EXISTS))
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("“%s” is neither a command nor a file; wattberth --help lists the "
                             "commands."),
                           brief);
    if (!gtk_init_check())
        return wb_cli_fail(WB_EXIT_DISPLAY,
                           _("No display can be opened for “%s”; wattberth rank BRIEF works "
                             "without one."),
                           brief);
    return run_window(program, brief);
}

static int start_without_arguments(char *program)
{
    return gtk_init_check() ? run_window(program, NULL) : wb_cli_demo();
}

int main(int argc, char **argv)
{
    setlocale(LC_ALL, "");
    g_set_prgname("wattberth");
    bindtextdomain(GETTEXT_PACKAGE, WB_LOCALE_DIR);
    bind_textdomain_codeset(GETTEXT_PACKAGE, "UTF-8");
    textdomain(GETTEXT_PACKAGE);
    if (argc > 1 && wb_cli_knows(argv[1]))
        return wb_cli_run(argc, argv);
    bool open = argc > 1 && strcmp(argv[1], "open") == 0;
    if (argc < 2 || (open && argc == 2))
        return start_without_arguments(argv[0]);
    if (argc > (open ? 3 : 2))
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("“%s” is no command; the window takes one brief, and wattberth --help "
                             "lists the commands."),
                           argv[1]);
    return open_brief(argv[0], argv[argc - 1]);
}
