/* brief: a new one, and a check. */
#include "cli_job.h"
#include "cli_json.h"
#include <glib/gi18n-lib.h>
#include <string.h>

static int print_new(void)
{
    g_autoptr(WbBriefFile) file = wb_brief_file_new();
    return wb_cli_print(wb_brief_file_text(file));
}

static char *sound_text(const char *name, const WbBrief *brief)
{
    return g_strdup_printf(
        _("“%s” is a sound brief: “%s”, %zu loads, %zu obstacles on the roof.\n"), name,
        brief->name, brief->n_loads, brief->roof.n_obstacles);
}

static char *sound_json(const char *name, const WbBrief *brief)
{
    WbJsonOut json;
    wb_out_start(&json);
    wb_out_object(&json, NULL);
    wb_out_format(&json, "wattberth-brief-check");
    wb_out_text(&json, "file", name);
    wb_out_text(&json, "name", brief->name);
    wb_out_count(&json, "loads", brief->n_loads);
    wb_out_count(&json, "obstacles", brief->roof.n_obstacles);
    wb_out_end_object(&json);
    return wb_out_finish(&json);
}

static int check(const WbArguments *arguments, const char *name)
{
    WbJob job = {0};
    int code = wb_cli_load_both(arguments, name, &job);
    if (code == WB_EXIT_DONE) {
        const WbBrief *brief = wb_brief_file_brief(job.file);
        code = wb_cli_print(arguments->json ? sound_json(name, brief) : sound_text(name, brief));
    }
    wb_cli_clear_job(&job);
    return code;
}

int wb_cli_run_brief(const WbArguments *arguments)
{
    if (arguments->make_new && arguments->n_rest == 0)
        return print_new();
    if (!arguments->make_new && arguments->n_rest == 2 && strcmp(arguments->rest[0], "check") == 0)
        return check(arguments, arguments->rest[1]);
    return wb_cli_fail(WB_EXIT_WRONG_USE,
                       _("The command is: wattberth brief --new, or wattberth brief check FILE."));
}
