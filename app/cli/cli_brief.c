/* brief: a new one, and a check. */
#include "cli_brief_echo.h"
#include "cli_job.h"
#include "cli_json.h"
#include "cli_not_read.h"
#include "cli_roof.h"
#include "cli_table.h"
#include "figures_text.h"
#include "load_window.h"
#include "words.h"
#include <glib/gi18n-lib.h>
#include <string.h>

static int print_new(void)
{
    g_autoptr(WbBriefFile) file = wb_brief_file_new();
    return wb_cli_print(wb_brief_file_text(file));
}

static void append_line(GString *out, char *sentence)
{
    wb_cli_wrap(out, "  ", sentence);
    g_free(sentence);
}

/* The largest of the months in use. */
static double load_wh_day(const WbBrief *brief, const WbLoad *load)
{
    double largest = 0;
    for (int month = 0; month < WB_MONTHS; month++)
        if (brief->site.months >> month & 1)
            largest = MAX(largest, wb_load_day_wh(load, month));
    return largest;
}

static void append_loads(GString *out, const WbProblem *problem)
{
    const WbBrief *brief = problem->brief;
    for (size_t i = 0; i < brief->n_loads; i++) {
        const WbLoad *load = &brief->loads[i];
        g_autofree char *watts = wb_text_number(load->power_w, 1);
        g_autofree char *hours = wb_text_number(load->hours_day, 2);
        g_autofree char *duty = wb_text_number(load->duty * 100, 1);
        g_autofree char *need = wb_text_number(load_wh_day(brief, load), 0);
        append_line(out,
                    g_strdup_printf(_("Load “%s”: %d x %s W %s, %s h a day at %s %% duty: %s Wh "
                                      "a day."),
                                    load->name, load->count, watts, load->ac ? "AC" : "DC", hours,
                                    duty, need));
    }
    g_autofree char *all = wb_text_number(problem->reference_need_wh, 0);
    append_line(out, g_strdup_printf(_("Reference need: %s Wh a day, with AC loads through an "
                                       "inverter."),
                                     all));
}

static char *on_text(bool on)
{
    return g_strdup(on ? "" : _(" (switched off)"));
}

static void append_wishes(GString *out, const WbBrief *brief)
{
    g_autofree char *money = wb_words_money((int64_t)brief->money_minor.value, brief->currency);
    g_autofree char *money_on = on_text(brief->money_minor.on);
    g_autofree char *weight = wb_text_number(brief->weight_kg.value, 1);
    g_autofree char *weight_on = on_text(brief->weight_kg.on);
    g_autofree char *days = wb_text_number(brief->autonomy_target_days, 1);
    append_line(out, g_strdup_printf(_("Money: limit %s%s."), money, money_on));
    append_line(out, g_strdup_printf(_("Weight: limit %s kg%s."), weight, weight_on));
    append_line(out, g_strdup_printf(_("Autonomy: target %s days."), days));
    g_autofree char *clear = wb_text_number((double)wb_roof_clear_mm2(&brief->roof) / 1e6, 2);
    append_line(out, g_strdup_printf(_("Roof: %" G_GINT64_FORMAT " x %" G_GINT64_FORMAT
                                       " mm, obstacles: %zu; %s m2 are clear of margin and "
                                       "obstacles."),
                                     brief->roof.length_mm, brief->roof.width_mm,
                                     brief->roof.n_obstacles, clear));
}

/* A brief that reads well may still have no roof to speak of. */
static char *head_text(const char *name, const WbBrief *brief)
{
    g_autofree char *nothing_left = wb_cli_roof_nothing_left(&brief->roof);
    if (nothing_left == NULL)
        return g_strdup_printf(_("“%s” is a sound brief: “%s”."), name, brief->name);
    return g_strdup_printf(_("“%s” can be read, but no panel can lie on the roof of “%s”. %s"),
                           name, brief->name, nothing_left);
}

static char *sound_text(const char *name, const WbJob *job)
{
    const WbProblem *problem = job->problem;
    const WbBrief *brief = problem->brief;
    const WbPlace *place = &brief->site.place;
    GString *out = g_string_new(NULL);
    g_autofree char *head = head_text(name, brief);
    g_autofree char *months = wb_text_months(brief->site.months);
    wb_cli_wrap(out, "", head);
    append_line(out, g_strdup_printf(_("Place: %s%s%s; months of use: %s."), place->name,
                                     *place->country ? ", " : "", place->country, months));
    append_loads(out, problem);
    append_wishes(out, brief);
    wb_cli_echo_text(out, job->file);
    append_line(out, g_strdup_printf(_("Ticked: panels %zu, controllers %zu, storage models %zu, "
                                       "inverters %zu, DC-DC chargers %zu."),
                                     problem->n_panels, problem->n_controllers, problem->n_storage,
                                     problem->n_inverters - 1, problem->n_dcdc - 1));
    return g_string_free(out, FALSE);
}

static char *sound_json(const char *name, const WbJob *job)
{
    const WbBrief *brief = wb_brief_file_brief(job->file);
    WbJsonOut json;
    wb_out_start(&json);
    wb_out_object(&json, NULL);
    wb_out_format(&json, "wattberth-brief-check");
    wb_out_text(&json, "file", name);
    wb_out_text(&json, "name", brief->name);
    wb_out_count(&json, "loads", brief->n_loads);
    wb_out_count(&json, "obstacles", brief->roof.n_obstacles);
    wb_out_number(&json, "clear_area_m2", (double)wb_roof_clear_mm2(&brief->roof) / 1e6);
    g_autofree char *nothing_left = wb_cli_roof_nothing_left(&brief->roof);
    wb_out_text(&json, "nothing_left", nothing_left);
    wb_out_number(&json, "reference_need_wh_day", job->problem->reference_need_wh);
    wb_cli_echo_json(&json, job->file);
    wb_cli_not_read_json(&json, wb_brief_file_not_read(job->file));
    wb_out_end_object(&json);
    return wb_out_finish(&json);
}

static int check(const WbArguments *arguments, const char *name)
{
    WbJob job = {0};
    int code = wb_cli_load_job(arguments, name, &job);
    if (code == WB_EXIT_DONE)
        code = wb_cli_print(arguments->json ? sound_json(name, &job) : sound_text(name, &job));
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
