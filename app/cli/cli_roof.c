/* roof: how many of each ticked panel lie on the brief's roof. */
#include "cli_roof.h"
#include "cli_find_panel.h"
#include "cli_roof_instances.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* Hours on any machine; no slip of the finger is that long. */
#define NODES_MOST 1000000000
/* Nobody drags anything while these are answered: instances may be harder than roofs, and the good
 * mixes beside a slant are found late. */
#define PATIENT_NODES (5 * WB_ROOF_NODES)

static void clear_model(gpointer item)
{
    WbRoofModel *model = item;
    g_free(model->pinned);
    g_free(model->refused);
    wb_roof_fit_free(&model->fit);
    wb_cli_roof_more_free(&model->more);
}

static int read_nodes(const WbArguments *arguments, uint64_t *nodes)
{
    const char *text = arguments->nodes;
    bool patient = arguments->instances != NULL || arguments->mix;
    *nodes = patient ? PATIENT_NODES : WB_ROOF_NODES;
    if (text == NULL)
        return WB_EXIT_DONE;
    guint64 value = 0;
    if (!g_ascii_string_to_unsigned(text, 10, 1, NODES_MOST, &value, NULL)) {
        g_autofree char *told = wb_cli_told(text);
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("--nodes takes a whole number from 1 to %d, not “%s”."), NODES_MOST,
                           told);
    }
    *nodes = value;
    return WB_EXIT_DONE;
}

/* *count 0: not asked. */
static int read_count(const WbArguments *arguments, int *count)
{
    guint64 value = 0;
    *count = 0;
    if (arguments->count == NULL)
        return WB_EXIT_DONE;
    if (arguments->panel == NULL || arguments->mix)
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("--count asks whether so many of one panel fit; it goes with --panel "
                             "ID and without --mix."));
    if (!g_ascii_string_to_unsigned(arguments->count, 10, 1, WB_ROOF_PANELS_MOST, &value, NULL)) {
        g_autofree char *told = wb_cli_told(arguments->count);
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("--count takes a whole number from 1 to %d, not “%s”."),
                           WB_ROOF_PANELS_MOST, told);
    }
    *count = (int)value;
    return WB_EXIT_DONE;
}

static int work_out(const WbArguments *arguments, const WbJob *job, WbRoofReport *report)
{
    report->file = job->file;
    report->brief = wb_brief_file_brief(job->file);
    report->catalogue = wb_catalogue_view_get(job->view);
    if (report->panel != NULL && wb_cli_find_panel(report->catalogue, report->panel) == NULL)
        return wb_cli_fail_panel(report->catalogue, report->panel);
    report->full = arguments->json || report->panel != NULL;
    int code = wb_cli_roof_models(report);
    /* Who asks for one panel or for mixes did not ask for batteries. */
    if (code == WB_EXIT_DONE && (arguments->json || (report->panel == NULL && !arguments->mix)))
        code = wb_cli_roof_bays(report);
    if (code == WB_EXIT_DONE && arguments->mix)
        code = wb_cli_roof_mixes(report);
    if (code == WB_EXIT_DONE)
        code = wb_cli_print(arguments->json ? wb_cli_roof_json(report) : wb_cli_roof_text(report));
    return code;
}

static int run_brief(const WbArguments *arguments, uint64_t nodes)
{
    if (arguments->n_rest == 0)
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("roof needs a brief, or --instances with a file of packing "
                             "instances; the command is: wattberth roof BRIEF."));
    WbJob job = {0};
    g_autoptr(GArray) models = g_array_new(FALSE, FALSE, sizeof(WbRoofModel));
    g_autoptr(GArray) bays = g_array_new(FALSE, FALSE, sizeof(WbBayModel));
    g_array_set_clear_func(models, clear_model);
    WbRoofReport report = {
        .panel = arguments->panel, .models = models, .bays = bays, .nodes = nodes};
    int code = read_count(arguments, &report.count);
    if (code == WB_EXIT_DONE)
        code = wb_cli_load_both(arguments, arguments->rest[0], &job);
    if (code == WB_EXIT_DONE)
        code = work_out(arguments, &job, &report);
    wb_cli_roof_mixes_free(report.mixes);
    wb_cli_clear_job(&job);
    return code;
}

int wb_cli_run_roof(const WbArguments *arguments)
{
    uint64_t nodes;
    int code = read_nodes(arguments, &nodes);
    if (code != WB_EXIT_DONE)
        return code;
    return arguments->instances != NULL ? wb_cli_run_roof_instances(arguments, nodes)
                                        : run_brief(arguments, nodes);
}
