#include "cli_year.h"

#include "cli_table.h"
#include "figures_text.h"
#include <glib/gi18n-lib.h>
#include <math.h>

static void append_dark(GString *out, const WbYear *year)
{
    g_autofree char *mean = wb_text_number(year->dark_h, 1);
    g_autofree char *worst = wb_text_number(year->dark_worst_h, 0);
    g_autofree char *years =
        g_strdup_printf(ngettext("%d year of weather, hour by hour.",
                                 "%d years of weather, hour by hour.", (gulong)year->n_years),
                        year->n_years);
    wb_cli_wrap(out, "", years);
    if (year->dark_worst_h <= 0) {
        wb_cli_wrap(out, "", _("No hour without power in any of them."));
        return;
    }
    g_autofree char *dark = g_strdup_printf(
        _("Hours without full power: %s a year in the mean, %s in the worst year (year %d); the "
          "longest spell lasts %d h."),
        mean, worst, year->dark_worst_year + 1, year->longest_dark_h);
    wb_cli_wrap(out, "", dark);
}

static void append_energy(GString *out, const WbYear *year)
{
    g_autofree char *unmet = wb_text_number(year->unmet_wh, 0);
    g_autofree char *need = wb_text_number(year->need_wh, 0);
    g_autofree char *share = wb_text_number(year->loss_of_load * 100, 3);
    g_autofree char *spilled = wb_text_number(year->spilled_wh, 0);
    g_autofree char *lowest = wb_text_number(year->lowest_charge * 100, 1);
    g_autofree char *cycles = wb_text_number(year->full_cycles, 1);
    g_autofree char *lack =
        g_strdup_printf(_("Need not met: %s of %s Wh a year, %s %%."), unmet, need, share);
    g_autofree char *rest = g_strdup_printf(
        _("Lowest charge: %s %% of full. Neither used nor stored: %s Wh a year. The bank gives "
          "its whole capacity %s times in the whole year."),
        lowest, spilled, cycles);
    wb_cli_wrap(out, "", lack);
    wb_cli_wrap(out, "", rest);
}

void wb_cli_year_text(GString *out, const WbYear *year)
{
    if (year->n_years == 0)
        return;
    g_string_append_printf(out, "\n%s\n", _("The year, in the months of use"));
    append_dark(out, year);
    append_energy(out, year);
}

/* What is asked of the kit in the months in use only is null in the others. */
static void month_json(WbJsonOut *json, const WbProblem *problem, const WbYearMonth *month, int m)
{
    bool used = problem->brief->site.months >> m & 1u;
    wb_out_object(json, NULL);
    wb_out_integer(json, "month", m + 1);
    wb_out_flag(json, "in_use", used);
    wb_out_number(json, "plane_kwh_m2_day", problem->plane.plane_kwh_m2_day[m]);
    wb_out_number(json, "array_wh", month->array_wh);
    wb_out_number(json, "clipped_wh", month->clipped_wh);
    wb_out_number(json, "alternator_wh", month->alternator_wh);
    wb_out_number(json, "shore_wh", month->shore_wh);
    wb_out_number(json, "need_wh", used ? month->need_wh : NAN);
    wb_out_number(json, "own_draw_wh", month->own_draw_wh);
    wb_out_number(json, "unmet_wh", used ? month->unmet_wh : NAN);
    wb_out_number(json, "spilled_wh", used ? month->spilled_wh : NAN);
    wb_out_number(json, "dark_h", used ? month->dark_h : NAN);
    wb_out_number(json, "lowest_charge", used ? month->lowest_charge : NAN);
    wb_out_end_object(json);
}

void wb_cli_year_json(WbJsonOut *json, const char *key, const WbProblem *problem,
                      const WbYear *year)
{
    if (year->n_years == 0) {
        wb_out_null(json, key);
        return;
    }
    wb_out_object(json, key);
    wb_out_integer(json, "years", year->n_years);
    wb_out_number(json, "dark_h", year->dark_h);
    wb_out_number(json, "dark_worst_h", year->dark_worst_h);
    wb_out_integer(json, "dark_worst_year", year->dark_worst_year + 1);
    wb_out_integer(json, "longest_dark_h", year->longest_dark_h);
    wb_out_number(json, "need_wh", year->need_wh);
    wb_out_number(json, "unmet_wh", year->unmet_wh);
    wb_out_number(json, "loss_of_load", year->loss_of_load);
    wb_out_number(json, "lowest_charge", year->lowest_charge);
    wb_out_number(json, "spilled_wh", year->spilled_wh);
    wb_out_number(json, "full_cycles", year->full_cycles);
    wb_out_array(json, "months");
    for (int m = 0; m < WB_MONTHS; m++)
        month_json(json, problem, &year->month[m], m);
    wb_out_end_array(json);
    wb_out_end_object(json);
}

bool wb_cli_has_shore(const WbProblem *problem)
{
    const WbShore *shore = &problem->brief->shore;
    return shore->nights_week > 0 && shore->charger_a > 0;
}
