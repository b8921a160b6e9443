/* roof --instances: packing instances from outside, read, answered one by one, printed. */
#include "cli_roof_instances.h"
#include <glib/gi18n-lib.h>
#include <stdio.h>
#include <string.h>

static int read_instances(const char *name, WbRoofInstances **instances)
{
    GError *error = NULL;
    if (strcmp(name, "-") == 0) {
        g_autoptr(GString) text = g_string_new(NULL);
        int code = wb_cli_read_text(name, text);
        if (code != WB_EXIT_DONE)
            return code;
        *instances =
            wb_roof_instances_parse(text->str, (gssize)text->len, _("standard input"), &error);
    } else {
        *instances = wb_roof_instances_read(name, &error);
    }
    return *instances != NULL ? WB_EXIT_DONE : wb_cli_fail_with(error);
}

/* Columns of a CSV that say nothing of the question, such as a known answer. */
static void say_not_read(const GPtrArray *not_read)
{
    g_autoptr(GString) names = g_string_new(NULL);
    for (guint i = 0; i < not_read->len; i++)
        g_string_append_printf(names, "%s%s", i > 0 ? ", " : "",
                               (const char *)g_ptr_array_index(not_read, i));
    if (not_read->len > 0)
        fprintf(stderr, _("Not read: the columns %s\n"), names->str);
}

int wb_cli_run_roof_instances(const WbArguments *arguments, uint64_t nodes)
{
    const char *file = arguments->instances;
    if (arguments->n_rest > 0 || arguments->panel != NULL || arguments->catalogue != NULL ||
        arguments->mix || arguments->count != NULL)
        return wb_cli_fail(
            WB_EXIT_WRONG_USE,
            _("--instances takes no brief, --panel, --count, --mix or --catalogue beside it; "
              "the command is: wattberth roof --instances FILE [--nodes N] [--json]."));
    g_autoptr(WbRoofInstances) instances = NULL;
    int code = read_instances(file, &instances);
    for (guint i = 0; code == WB_EXIT_DONE && i < wb_roof_instances_count(instances); i++)
        code = wb_cli_instance_takes(wb_roof_instances_get(instances, i), file);
    if (code != WB_EXIT_DONE)
        return code;
    say_not_read(wb_roof_instances_not_read(instances));
    return arguments->json ? wb_cli_instances_json(instances, file, nodes)
                           : wb_cli_instances_text(instances, file, nodes);
}
